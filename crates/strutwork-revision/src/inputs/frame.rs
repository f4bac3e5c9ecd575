//! Joints and tubes: moved, added, gone, renamed, connected elsewhere, of another size.

use strutwork_model::ids::Id;
use strutwork_model::model::{Buckling, Tube, TubeEnd};
use strutwork_model::units::{to_deg, to_mm};
use strutwork_model::{Dof, DofMap, TubeId};

use super::change::{Change, How, Part};
use super::facts::{Detail, Fact, PLACE, Value, differ, number, place, same_number, text};
use super::names::Side;
use super::pairs::{Pairs, TubePair};
use super::shapes::{section_facts, stiffness};

/// What happened to the joints, in the order of the second model, then those that are gone.
pub(super) fn joints(a: &Side<'_>, b: &Side<'_>, pairs: &Pairs, out: &mut Vec<Change>) {
    let mut came_from = vec![None; b.joints.len()];
    for (id, _) in a.model.joints().iter_with_id() {
        if let Some(other) = pairs.joint(id) {
            came_from[other.index()] = Some(id);
        }
    }
    for (id, joint) in b.model.joints().iter_with_id() {
        let here = place(PLACE, joint.at);
        match came_from[id.index()] {
            None => out.push(Change::added(Part::Joint, &joint.name, format!("at {} mm", here.value.text()))),
            Some(was) => {
                let was = &a.model.joints()[was];
                let details = differ(&[place(PLACE, was.at)], &[here]);
                out.extend(Change::of(Part::Joint, &was.name, &joint.name, details));
            }
        }
    }
    for (id, joint) in a.model.joints().iter_with_id() {
        if pairs.joint(id).is_none() {
            let was = place(PLACE, joint.at).value.text();
            out.push(Change::gone(Part::Joint, &joint.name, format!("was at {was} mm")));
        }
    }
}

/// What happened to the tubes, in the order of the second model, then those that are gone.
pub(super) fn tubes(a: &Side<'_>, b: &Side<'_>, pairs: &Pairs, out: &mut Vec<Change>) {
    let mut came_from = vec![None; b.tubes.len()];
    for id in a.model.tubes().ids() {
        if let Some(pair) = pairs.tube(id) {
            came_from[pair.tube.index()] = Some((id, pair));
        }
    }
    for (id, tube) in b.model.tubes().iter_with_id() {
        match came_from[id.index()] {
            None => out.push(Change::added(Part::Tube, &tube.name, summary(b, id))),
            Some((was, pair)) => {
                let name = &a.model.tubes()[was].name;
                let details = details_of(a, b, was, pair);
                let mut change = Change::of(Part::Tube, name, &tube.name, details);
                if let Some(change) = &mut change
                    && pair.reversed
                    && change.how == How::Changed
                    && change.details.len() == 1
                {
                    change.how = How::Reversed;
                }
                out.extend(change);
            }
        }
    }
    for id in a.model.tubes().ids() {
        if pairs.tube(id).is_none() {
            out.push(Change::gone(Part::Tube, &a.model.tubes()[id].name, summary(a, id)));
        }
    }
}

/// `from A to B, square 30 × 2 of mild`.
fn summary(side: &Side<'_>, id: TubeId) -> String {
    let tube = &side.model.tubes()[id];
    format!(
        "from {} to {}, {} of {}",
        side.joint(tube.from),
        side.joint(tube.to),
        side.model.sections()[tube.section].label,
        side.material(tube.material)
    )
}

/// What differs of one tube. One that runs the other way is turned round before its ends are compared.
fn details_of(a: &Side<'_>, b: &Side<'_>, was: TubeId, pair: TubePair) -> Vec<Detail> {
    let (before, after) = (&a.model.tubes()[was], &b.model.tubes()[pair.tube]);
    let mut details = Vec::new();
    if pair.reversed {
        details.push(Detail {
            what: "direction".to_owned(),
            before: Some(Value::Text(runs(a, before))),
            after: Some(Value::Text(runs(b, after))),
        });
    }
    let mut facts_before = facts(a, before);
    if pair.reversed {
        facts_before = facts(a, &turned(before));
    }
    details.extend(differ(&facts_before, &facts(b, after)));
    details.extend(section(a, b, before, after));
    details
}

fn runs(side: &Side<'_>, tube: &Tube) -> String {
    format!("{} to {}", side.joint(tube.from), side.joint(tube.to))
}

/// The same tube told from its other end: an angle of roll turns the other way about the other axis.
fn turned(tube: &Tube) -> Tube {
    Tube {
        from: tube.to,
        to: tube.from,
        roll: if tube.roll == 0.0 { 0.0 } else { -tube.roll },
        release_from: tube.release_to,
        release_to: tube.release_from,
        end_from: tube.end_to.clone(),
        end_to: tube.end_from.clone(),
        ..tube.clone()
    }
}

fn facts(side: &Side<'_>, tube: &Tube) -> Vec<Fact> {
    let mut facts = vec![
        text("from", side.joint(tube.from)),
        text("to", side.joint(tube.to)),
        text("material", side.material(tube.material)),
        text("group", tube.group.clone()),
        number("roll", to_deg(tube.roll), "deg"),
        text("release at from", released(&tube.release_from)),
        text("release at to", released(&tube.release_to)),
    ];
    for (of, end) in [("from", &tube.end_from), ("to", &tube.end_to)] {
        end_facts(of, end, &mut facts);
    }
    for (axis, length) in ["y", "z"].into_iter().zip(tube.buckling) {
        let what = format!("buckling length about {axis}");
        match length {
            Buckling::Rule => {}
            Buckling::Length(metres) => facts.push(number(what, to_mm(metres), "mm")),
            Buckling::Factor(factor) => facts.push(number(format!("factor on {what}"), factor, "")),
        }
    }
    facts
}

fn released(release: &DofMap<bool>) -> String {
    let freed = Dof::ALL.into_iter().filter(|dof| release[*dof]);
    freed.map(Dof::name).collect::<Vec<_>>().join(" ")
}

fn end_facts(of: &str, end: &TubeEnd, facts: &mut Vec<Fact>) {
    if end.offset.iter().any(|part| *part != 0.0) {
        facts.push(Fact::new(format!("offset at {of}"), Value::Point(end.offset.map(to_mm))));
    }
    for dof in Dof::ALL {
        if let Some(spring) = end.springs[dof] {
            let value = stiffness(spring, dof.is_rotation());
            facts.push(Fact::new(format!("spring {} at {of}", dof.name()), value));
        }
    }
}

/// A tube of another section. A section whose own definition changed is told once, by itself; here a tube is told that has
/// another one: by its wall where nothing else of it differs, else by both labels.
fn section(a: &Side<'_>, b: &Side<'_>, before: &Tube, after: &Tube) -> Option<Detail> {
    let (name_before, name_after) = (a.section(before.section), b.section(after.section));
    if name_before == name_after {
        return None;
    }
    let (was, is) = (&a.model.sections()[before.section], &b.model.sections()[after.section]);
    let mut differ = differ(&section_facts(was), &section_facts(is));
    if differ.len() == 1 && matches!(differ[0].before, Some(Value::Number(..))) {
        return differ.pop();
    }
    let same = same_number(was.area, is.area) && differ.is_empty();
    let told =
        |label: &str, name: &str| Some(Value::Text(if same { name.to_owned() } else { format!("{label} ({name})") }));
    Some(Detail {
        what: if same { "section of the same size" } else { "section" }.to_owned(),
        before: told(&was.label, name_before),
        after: told(&is.label, name_after),
    })
}

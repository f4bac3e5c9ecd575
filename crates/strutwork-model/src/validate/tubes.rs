//! Tubes: ends, section, material, releases, and lengths that can be built.

use std::collections::BTreeMap;

use super::{Log, Lookup, judging, tube_ends, words_help};
use crate::codes;
use crate::dof::{Dof, DofMap};
use crate::grades;
use crate::ids::{BoltId, Id, IndexVec, JointId, MaterialId, SectionId};
use crate::model::{Bolt, Clamps, Joint, Panel, Section, Tube};
use crate::spec::{ModelSpec, TubeRow, Written};
use crate::units::{DEG, to_mm};

/// The tubes, `None` where faulty.
pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    joints: &IndexVec<JointId, Joint>,
    sections: &[Option<Section>],
    log: &mut Log,
) -> Vec<Option<Tube>> {
    let mut pairs: BTreeMap<(JointId, JointId), &TubeRow> = BTreeMap::new();
    let mut tubes = Vec::with_capacity(spec.tubes.len());
    for row in &spec.tubes {
        let tube = one(row, look, log);
        if let Some(tube) = &tube {
            ends(row, tube, joints, sections, log);
            if let Some(other) = pairs.get(&(tube.from.min(tube.to), tube.from.max(tube.to))) {
                let message = format!(
                    "the tubes `{}` and `{}` run between the same two joints",
                    other.tube.value, row.tube.value
                );
                let help = "take one out; two tubes side by side are one section with the properties of both";
                log.error(codes::DOUBLED_TUBE, row.tube.spot, &row.tube, message, help);
            } else {
                pairs.insert((tube.from.min(tube.to), tube.from.max(tube.to)), row);
            }
        }
        tubes.push(tube);
    }
    walls(spec, &tubes, sections, log);
    tubes
}

fn one(row: &TubeRow, look: &Lookup<'_>, log: &mut Log) -> Option<Tube> {
    let who = format!("tube `{}`", row.tube.value);
    let from = look.joint(&row.from, &who, log);
    let to = look.joint(&row.to, &who, log);
    let section = look.sections.find(&row.section, codes::UNKNOWN_SECTION, "model.toml", &who, log);
    let material = look.materials.find(&row.material, codes::UNKNOWN_MATERIAL, "model.toml", &who, log);
    let roll = log.finite(&row.roll_deg, &row.tube, "`roll_deg`") * DEG;
    let release_from = release(row, &row.release_from, log);
    let release_to = release(row, &row.release_to, log);
    let end_from = tube_ends::end(row, &row.end_from, release_from, "from", log);
    let end_to = tube_ends::end(row, &row.end_to, release_to, "to", log);
    if let Some(sign) = row.group.chars().find(|sign| sign.is_control()) {
        let message = format!("the group of {who} holds an invisible sign (U+{:04X})", u32::from(sign));
        log.error(codes::CONTROL_CHARACTER, row.group.spot, &row.tube, message, "type the group again, on one line");
    }
    let buckling = judging::buckling(row, log);
    Some(Tube {
        name: row.tube.value.clone(),
        from: from?,
        to: to?,
        section: SectionId::new(section?),
        material: MaterialId::new(material?),
        group: row.group.value.clone(),
        roll,
        release_from: release_from?,
        release_to: release_to?,
        end_from: end_from?,
        end_to: end_to?,
        buckling: buckling?,
        note: row.note.clone(),
    })
}

/// Freedoms freed at an end.
fn release(row: &TubeRow, words: &Written<String>, log: &mut Log) -> Option<DofMap<bool>> {
    let mut freed = DofMap::default();
    let mut good = true;
    for word in words.split_whitespace() {
        if let Some(dof) = Dof::from_name(word) {
            freed[dof] = true;
        } else {
            let message = format!("tube `{}`: `{word}` is not a freedom that an end can be freed in", row.tube.value);
            let mut help = words_help(word, &Dof::ALL.map(Dof::name));
            help.push_str("; separate them by spaces");
            log.error(codes::UNKNOWN_WORD, words.spot, &row.tube, message, help);
            good = false;
        }
    }
    good.then_some(freed)
}

/// Length against nothing and against the section.
fn ends(row: &TubeRow, tube: &Tube, joints: &IndexVec<JointId, Joint>, sections: &[Option<Section>], log: &mut Log) {
    let name = &row.tube;
    if tube.from == tube.to {
        let message = format!("the tube `{}` runs from the joint `{}` to itself", name.value, row.from.value);
        log.error(codes::TUBE_TO_ITSELF, row.to.spot, name, message, "correct `from` or `to`");
        return;
    }
    let Some([a, b]) = tube_ends::between(row, tube, joints, log) else { return };
    let length = to_mm(((b[0] - a[0]).powi(2) + (b[1] - a[1]).powi(2) + (b[2] - a[2]).powi(2)).sqrt());
    let depth = sections[tube.section.index()].as_ref().and_then(Section::depth).map(to_mm);
    if !length.is_finite() && a.iter().chain(&b).all(|number| number.is_finite()) {
        let message = format!("the length of the tube `{}` is not a number that can be worked with", name.value);
        log.error(codes::NOT_FINITE, name.spot, name, message, "check the places of its joints");
    }
    judging::odd_buckling(row, length, log);
    // Joints at one place are said as such.
    if let Some(depth) = depth
        && length < depth * (1.0 - 1e-9)
        && length >= super::joints::SAME_PLACE_MM
    {
        let message = format!("the tube `{}` is {length:.1} mm long and its section {depth:.1} mm wide", name.value);
        let help = "joints this near are one joint: leave the tube out, or check the places of its joints";
        log.error(codes::SHORT_TUBE, name.spot, name, message, help);
    }
}

/// Notes sections and materials that nothing uses.
pub(super) fn used(
    spec: &ModelSpec,
    tubes: &[Option<Tube>],
    panels: &[Option<Panel>],
    bolts: &IndexVec<BoltId, Bolt>,
    log: &mut Log,
) {
    if tubes.iter().any(Option::is_none) || panels.iter().any(Option::is_none) {
        return;
    }
    let mut sections = vec![false; spec.sections.len()];
    let mut materials = vec![false; spec.materials.len()];
    for tube in tubes.iter().flatten() {
        sections[tube.section.index()] = true;
        materials[tube.material.index()] = true;
    }
    for panel in panels.iter().flatten() {
        materials[panel.material.index()] = true;
    }
    for bolt in bolts.iter() {
        if let Some(Clamps::Plate { material: Some(material), .. }) = bolt.clamps {
            materials[material.index()] = true;
        }
    }
    let sections = spec.sections.iter().map(|entry| ("section", &entry.name)).zip(sections);
    let materials = spec.materials.iter().map(|entry| ("material", &entry.name)).zip(materials);
    for ((kind, name), used) in sections.chain(materials) {
        if !used {
            let who = if kind == "material" { "no tube and no panel uses" } else { "no tube uses" };
            let message = format!("{who} the {kind} `{}`", name.value);
            log.note(codes::UNUSED, name.spot, name, message, "leave it or take it out: it changes nothing");
        }
    }
}

/// Warns once for each section and grade where the wall is outside what the grade's strengths hold for.
fn walls(spec: &ModelSpec, tubes: &[Option<Tube>], sections: &[Option<Section>], log: &mut Log) {
    let mut said = BTreeMap::new();
    for (row, tube) in spec.tubes.iter().zip(tubes) {
        let Some(tube) = tube else { continue };
        if said.insert((tube.section, tube.material), ()).is_some() {
            continue;
        }
        let grade = spec.materials[tube.material.index()].grade.as_ref().and_then(|name| grades::find(name));
        let wall = sections[tube.section.index()].as_ref().and_then(Section::thickness).map(to_mm);
        if let (Some(grade), Some(wall)) = (grade, wall)
            && let Some(most) = grade.most_wall_mm
            && wall > most * (1.0 + 1e-9)
        {
            let message = format!(
                "the strengths of `{}` hold for walls up to {most} mm; the section `{}` has {wall:.2} mm",
                grade.name, row.section.value
            );
            let help = "give `yield_mpa` and `ultimate_mpa` for this thickness, and their source";
            log.warning(codes::GRADE_WALL, row.material.spot, &row.tube, message, help);
        }
    }
}

//! Supports, masses, panels, bodies and their bolts.

use strutwork_model::ids::Id;
use strutwork_model::model::{Bond, Hold, Mount, Panel, Support};
use strutwork_model::units::to_mm;
use strutwork_model::{BodyId, Dof};

use super::change::{Change, How, Part};
use super::facts::{Fact, Item, PLACE, Value, number, place, text, yes};
use super::listed::Listed;
use super::names::Side;
use super::shapes::{direction, stiffness};

/// Supports by the joints that they hold.
pub(super) fn supports(side: &Side<'_>) -> Vec<Item> {
    let facts = |support: &Support| {
        Dof::ALL.map(|dof| {
            let value = match support.holds[dof] {
                Hold::Free => Value::Text("free".to_owned()),
                Hold::Fixed => Value::Text("fixed".to_owned()),
                Hold::Spring(spring) => stiffness(spring, dof.is_rotation()),
            };
            Fact::new(dof.name(), value)
        })
    };
    let of = |support: &Support| Item { name: side.joint(support.joint).to_owned(), facts: facts(support).into() };
    side.model.supports().iter().map(of).collect()
}

/// What the frame carries.
pub(super) fn masses(side: &Side<'_>) -> Vec<Item> {
    let facts = |mass: &strutwork_model::model::Mass| {
        let mut facts = vec![number("mass", mass.mass, "kg"), place(PLACE, mass.at)];
        for (what, inertia) in ["inertia about x", "inertia about y", "inertia about z"].into_iter().zip(mass.inertia) {
            facts.push(number(what, inertia, "kg·m²"));
        }
        facts.push(text("carried by", side.carrier(&mass.carrier)));
        facts.push(yes("only while driven", mass.driven));
        facts
    };
    side.model.masses().iter().map(|mass| Item { name: mass.name.clone(), facts: facts(mass) }).collect()
}

/// Panels; corners may begin anywhere and go round either way.
pub(super) fn panels(side: &Side<'_>) -> Vec<Item> {
    let facts = |panel: &Panel| {
        vec![
            text("corners", corners(side, panel)),
            text("material", side.material(panel.material)),
            number("thickness", to_mm(panel.thickness), "mm"),
            text("fixing", panel.fixing.map_or("", |fixing| side.fixing(fixing))),
        ]
    };
    side.model.panels().iter().map(|panel| Item { name: panel.name.clone(), facts: facts(panel) }).collect()
}

/// Corners from the name that sorts first, towards the neighbour that sorts first.
fn corners(side: &Side<'_>, panel: &Panel) -> String {
    let names: Vec<&str> = panel.joints.iter().map(|&joint| side.joint(joint)).collect();
    let number = names.len();
    let first = (0..number).min_by_key(|&place| names[place]).unwrap_or(0);
    let round = |step: usize| (0..number).map(|of| names[(first + of * step) % number]).collect::<Vec<_>>();
    let (one_way, other_way) = (round(1), round(number.saturating_sub(1).max(1)));
    one_way.min(other_way).join(" ")
}

/// Bodies by the joints that they bolt to, to find renamed ones.
pub(super) fn bodies(side: &Side<'_>) -> Vec<Item> {
    side.model
        .bodies()
        .iter()
        .map(|body| {
            let mut joints: Vec<&str> =
                body.mounts.iter().map(|&mount| side.joint(side.model.mounts()[mount].joint)).collect();
            joints.sort_unstable();
            Item { name: body.name.clone(), facts: vec![text("bolted to", joints.join(", "))] }
        })
        .collect()
}

/// The bolts of one body by the joints that they stand at.
pub(super) fn mounts(side: &Side<'_>, body: BodyId) -> Vec<Item> {
    let mounts = side.model.mounts();
    let of = |mount: &Mount| Item { name: side.joint(mount.joint).to_owned(), facts: mount_facts(side, mount) };
    side.model.bodies()[body].mounts.iter().map(|&mount| of(&mounts[mount])).collect()
}

fn mount_facts(side: &Side<'_>, mount: &Mount) -> Vec<Fact> {
    let mut facts: Vec<Fact> = Dof::ALL
        .into_iter()
        .map(|dof| {
            let value = match mount.bonds[dof] {
                Bond::Rigid => Value::Text("rigid".to_owned()),
                Bond::Spring(spring) => stiffness(spring, dof.is_rotation()),
                Bond::Free => Value::Text("free".to_owned()),
            };
            Fact::new(dof.name(), value)
        })
        .collect();
    facts.push(text("bolt", mount.bolt.map_or("", |bolt| side.bolt(bolt))));
    // A bolt's own axis is told of the bolt.
    let of_bolt = mount.bolt.and_then(|bolt| side.model.bolts()[bolt].axis);
    facts.extend(mount.axis.map(|axis| text("axis", direction(axis)).following(of_bolt == Some(axis))));
    facts
}

/// Bodies, and of those in both models their bolts.
pub(super) fn told_bodies(listed: &Listed, a: &Side<'_>, b: &Side<'_>, out: &mut Vec<Change>) {
    let mut of_bodies = Vec::new();
    listed.told(Part::Body, &mut of_bodies);
    // Where a body is bolted is told bolt by bolt.
    for mut change in of_bodies {
        change.details.clear();
        match change.how {
            How::Changed if change.old_name.is_none() => {}
            How::Changed => out.push(Change { how: How::Renamed, ..change }),
            _ => out.push(change),
        }
    }
    for (place, from) in listed.came_from().into_iter().enumerate() {
        let Some(was) = from else { continue };
        let mounts = Listed::of(mounts(a, Id::new(was)), mounts(b, Id::new(place))).by_name_only();
        let before = out.len();
        mounts.told(Part::Mount, out);
        for change in &mut out[before..] {
            change.name = format!("{} at {}", b.bodies[place], change.name);
        }
    }
}

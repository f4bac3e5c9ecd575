//! The vehicle: wheels, axles, suspension, places.

use strutwork_model::model::{Carrier, Corner, Link, LinkKind, Place, Point, Suspension, Vehicle, Wheel};
use strutwork_model::units::{to_mm, to_nm_per_deg};

use super::change::{Change, Part};
use super::facts::{Fact, Item, differ, number, place, same_number, text, yes};
use super::names::Side;

/// The vehicle as one item; `None` where the frame belongs to none.
pub(super) fn vehicle(side: &Side<'_>) -> Option<Item> {
    let vehicle = side.model.vehicle()?;
    let mut facts = vec![
        number("wheelbase", to_mm(vehicle.wheelbase()), "mm"),
        number("front track", to_mm(vehicle.track_front()), "mm"),
        number("rear track", to_mm(vehicle.track_rear()), "mm"),
        number("front share of roll stiffness", vehicle.front_roll_share, ""),
        number("front share of drive", vehicle.front_drive_share, ""),
    ];
    facts.extend(vehicle.front_brake_share.map(|share| number("front share of braking", share, "")));
    facts.extend(vehicle.cg_height.map(|height| number("height of the centre of gravity", to_mm(height), "mm")));
    for (name, axle) in ["front axle", "rear axle"].into_iter().zip(&vehicle.axles) {
        facts.extend(axle.wheel_radius.map(|radius| number(format!("{name}: wheel radius"), to_mm(radius), "mm")));
        facts.push(yes(format!("{name}: inboard brakes"), axle.inboard_brakes));
        facts.extend(axle.shaft_reaction.as_ref().map(|of| text(format!("{name}: shafts react on"), side.carrier(of))));
        facts.extend(
            axle.roll_stiffness.map(|of| number(format!("{name}: roll stiffness"), to_nm_per_deg(of), "N·m/deg")),
        );
    }
    for wheel in Wheel::ALL {
        corner(side, vehicle, wheel, &mut facts);
    }
    Some(Item { name: String::new(), facts })
}

fn corner(side: &Side<'_>, vehicle: &Vehicle, wheel: Wheel, facts: &mut Vec<Fact>) {
    let corner = vehicle.corner(wheel);
    let of = |what: &str| format!("{}: {what}", wheel.name());
    facts.push(place(of("contact patch"), corner.contact));
    match &corner.suspension {
        Suspension::Rigid(carrier) => facts.push(text(of("carried by"), side.carrier(carrier))),
        Suspension::Linked(_) => facts.push(text(of("carried by"), "links")),
    }
    match corner.spring {
        Point::Joint(joint) => facts.push(text(of("spring acts on"), format!("joint {}", side.joint(joint)))),
        Point::OnBody { body, at } => {
            facts.push(text(of("spring acts on"), format!("body {}", side.body(body))));
            facts.push(place(of("place of the spring"), at).following(follows(corner)));
        }
    }
}

/// Whether the place of the spring follows from the contact patch or from the link that is the spring.
fn follows(corner: &Corner) -> bool {
    let Point::OnBody { at, .. } = corner.spring else { return false };
    match &corner.suspension {
        Suspension::Rigid(_) => at == corner.contact,
        Suspension::Linked(links) => {
            links.iter().any(|link| matches!(link.kind, LinkKind::Spring | LinkKind::Strut) && link.chassis == at)
        }
    }
}

/// Contact patches that moved as wheelbase or tracks say are not told beside these. `details` are those of the vehicle.
pub(super) fn told_once(details: &mut Vec<super::Detail>) {
    let has = |what: &str| details.iter().any(|detail| detail.what == what);
    let (base, front, rear) = (has("wheelbase"), has("front track"), has("rear track"));
    let explained = |detail: &super::Detail| {
        let (Some(super::Value::Point(was)), Some(super::Value::Point(is))) = (&detail.before, &detail.after) else {
            return false;
        };
        let Some(wheel) = detail.what.strip_suffix(": contact patch") else { return false };
        let track = if wheel.starts_with("front") { front } else { rear };
        let same = |axis: usize| same_number(was[axis], is[axis]);
        (base || same(0)) && (track || same(1)) && same(2)
    };
    details.retain(|detail| !explained(detail));
}

/// The links of all corners: `front-left upper-front`.
pub(super) fn links(side: &Side<'_>) -> Vec<Item> {
    let Some(vehicle) = side.model.vehicle() else { return Vec::new() };
    let mut items = Vec::new();
    for wheel in Wheel::ALL {
        if let Suspension::Linked(links) = &vehicle.corner(wheel).suspension {
            items.extend(
                links.iter().map(|link| Item {
                    name: format!("{} {}", wheel.name(), link.name),
                    facts: link_facts(side, link),
                }),
            );
        }
    }
    items
}

fn link_facts(side: &Side<'_>, link: &Link) -> Vec<Fact> {
    let mut facts = vec![
        text("kind", link.kind.word()),
        place("upright end", link.upright),
        text("carried by", side.carrier(&link.carrier)),
    ];
    // Where its end stands at the joint that carries it, it moves with the joint.
    let at_joint = matches!(&link.carrier, Carrier::Joints(list) if list.len() == 1
        && side.model.joints()[list[0]].at == link.chassis);
    facts.push(place("chassis end", link.chassis).following(at_joint));
    facts
}

/// Places at which standard cases act.
pub(super) fn places(side: &Side<'_>) -> Vec<Item> {
    let facts = |of: &Place| {
        let mut facts = vec![
            text("role", of.role.word()),
            text("group", of.group.clone()),
            text("carried by", side.carrier(&of.carrier)),
        ];
        facts.push(place("point", of.at).following(is_mean(side, of)));
        facts.extend(of.mass.map(|mass| number("mass", mass, "kg")));
        facts
    };
    side.model.places().iter().map(|of| Item { name: of.name.clone(), facts: facts(of) }).collect()
}

/// Whether a place stands at the mean of its joints, and so moves with them.
fn is_mean(side: &Side<'_>, of: &Place) -> bool {
    let Carrier::Joints(list) = &of.carrier else { return false };
    (0..3).all(|axis| {
        let sum: f64 = list.iter().map(|&joint| side.model.joints()[joint].at[axis]).sum();
        same_number(sum / list.len() as f64, of.at[axis])
    })
}

/// Tells the vehicle.
pub(super) fn told_vehicle(a: &Side<'_>, b: &Side<'_>, out: &mut Vec<Change>) {
    match (vehicle(a), vehicle(b)) {
        (Some(before), Some(after)) => {
            let mut details = differ(&before.facts, &after.facts);
            told_once(&mut details);
            out.extend(Change::of(Part::Vehicle, "", "", details));
        }
        (None, Some(_)) => out.push(Change::added(Part::Vehicle, "", String::new())),
        (Some(_), None) => out.push(Change::gone(Part::Vehicle, "", String::new())),
        (None, None) => {}
    }
}

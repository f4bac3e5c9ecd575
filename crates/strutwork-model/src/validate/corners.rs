//! Corners: what stands between each wheel and the frame, and where twist is applied.

use super::vehicle::contact;
use super::{Log, Lookup, carriers};
use crate::codes;
use crate::model::{Carrier, Corner, Link, LinkKind, Point, Suspension, Wheel};
use crate::spec::{CornerEntry, Spot, VehicleEntry, Written};

/// The corner of a wheel; `links` are those of suspension.csv, `None` where one is faulty.
pub(super) fn check(
    entry: &VehicleEntry,
    wheel: Wheel,
    links: Option<&[Link]>,
    look: &Lookup<'_>,
    log: &mut Log,
) -> Option<Corner> {
    let name = wheel.name();
    let linked = look.linked[wheel as usize];
    // A linked corner may do without its table: suspension.csv says what it needs.
    let bare =
        CornerEntry { wheel: Written { value: name.to_owned(), spot: entry.vehicle.spot }, ..Default::default() };
    let corner = match &entry.corners[wheel as usize] {
        Some(corner) => corner,
        None if linked => &bare,
        None if !look.corners_known => return None,
        None => {
            let message = format!("the vehicle has no corner `{name}`");
            let help = format!(
                "add `[vehicle.corners.{name}]` with `joints = [\"…\"]` or `body = \"…\"`, or its links to \
                 suspension.csv; all four are needed"
            );
            log.error(codes::MISSING_KEY, entry.vehicle.spot, name, message, help);
            return None;
        }
    };
    let who = format!("corner `{name}`");
    if linked && !corner.carrier.is_empty() {
        let message =
            format!("{who} has links in suspension.csv, and model.toml says that joints or a body take its force");
        let help = "take `joints` and `body` out of its table, or its rows out of suspension.csv";
        log.error(codes::LINKED_AND_CARRIED, carrier_spot(corner), name, message, help);
        return None;
    }
    let suspension =
        if linked { links.map(|links| Suspension::Linked(links.to_vec())) } else { rigid(corner, &who, look, log) };
    let contact = contact(entry, corner, wheel, log);
    let spring = match &corner.spring_joint {
        Some(joint) => look.joint(joint, &who, log).map(Point::Joint),
        None => suspension.as_ref().zip(contact).and_then(|(held, contact)| spring(held, contact, corner, &who, log)),
    };
    Some(Corner { contact: contact?, suspension: suspension?, spring: spring? })
}

fn carrier_spot(corner: &CornerEntry) -> Option<Spot> {
    use crate::spec::CarrierWritten::{Body, Joints, Upright};
    match &corner.carrier {
        Joints(joints) => joints.first().and_then(|joint| joint.spot),
        Body(name) | Upright(name) => name.spot,
    }
}

fn rigid(corner: &CornerEntry, who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Suspension> {
    if corner.carrier.is_empty() && look.corners_known {
        let help =
            "add `joints = [\"…\"]` or `body = \"…\"`: what takes the wheel's force; or its links to suspension.csv";
        let message = format!("{who} has no joints, no body and no links");
        log.error(codes::CORNER_NOT_CARRIED, corner.wheel.spot, &corner.wheel, message, help);
    }
    carriers::on_frame(&corner.carrier, who, look, log).map(Suspension::Rigid)
}

/// Where twist is applied where no joint is named.
fn spring(held: &Suspension, contact: [f64; 3], corner: &CornerEntry, who: &str, log: &mut Log) -> Option<Point> {
    let links = match held {
        Suspension::Rigid(carrier) => return point(carrier, contact),
        Suspension::Linked(links) => links,
    };
    let of = |kind: LinkKind| links.iter().find(|link| link.kind == kind);
    if let Some(spring) = of(LinkKind::Spring).or_else(|| of(LinkKind::Strut)) {
        return point(&spring.carrier, spring.chassis);
    }
    let message = format!("{who}: none of its links is a spring or a strut, so nothing says where twist is applied");
    let help = "write `spring` as the `kind` of the link that is the spring, or name a joint as `spring_joint`";
    log.error(codes::MISSING_KEY, corner.wheel.spot, &corner.wheel, message, help);
    None
}

/// The first of joints, or this place on a body.
fn point(carrier: &Carrier, at: [f64; 3]) -> Option<Point> {
    match carrier {
        Carrier::Joints(joints) => joints.first().copied().map(Point::Joint),
        Carrier::Body(body) => Some(Point::OnBody { body: *body, at }),
        Carrier::Upright(_) => None,
    }
}

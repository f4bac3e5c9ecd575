//! Links that hold uprights: each good by itself, and six unknown forces a corner.

use std::collections::BTreeMap;

use super::joints::SAME_PLACE_MM;
use super::{Log, Lookup, carriers, words_help};
use crate::codes;
use crate::ids::{IndexVec, JointId};
use crate::model::{Carrier, Joint, Link, LinkKind, Wheel};
use crate::spec::{LinkRow, ModelSpec, Written};
use crate::units::{MM, to_mm};

/// What holds an upright: three forces and three moments of it must vanish.
const NEEDED: usize = 6;

/// The links of each corner; `None` where one is faulty.
pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    joints: &IndexVec<JointId, Joint>,
    log: &mut Log,
) -> [Option<Vec<Link>>; 4] {
    if let (Some(first), None) = (spec.suspension.first(), &spec.vehicle) {
        let help = "add `[vehicle]` to model.toml, or take suspension.csv out of the folder";
        let message = "suspension.csv says how wheels are linked, and model.toml has no vehicle";
        let file = first.corner.spot.map(|spot| crate::spec::Spot::file(spot.file));
        log.error(codes::NO_VEHICLE, file, "vehicle", message, help);
    }
    let mut links: [Option<Vec<Link>>; 4] = [const { Some(Vec::new()) }; 4];
    let mut names: BTreeMap<(Wheel, &str), &LinkRow> = BTreeMap::new();
    for row in &spec.suspension {
        let who = format!("link `{}`", row.link.value);
        let wheel = carriers::wheel(&row.corner, &who, log);
        let named = super::names::is_name(&row.link, "link", log);
        let link = one(row, look, joints, log);
        let Some(wheel) = wheel else { continue };
        let corner = &mut links[wheel as usize];
        *corner = corner.take().zip(link.filter(|_| named)).map(|(mut corner, link)| {
            corner.push(link);
            corner
        });
        if let (true, Some(first)) = (named, names.insert((wheel, &row.link.value), row)) {
            let place = first.link.spot.map(|spot| format!(", first on line {}", spot.line)).unwrap_or_default();
            let message = format!("the corner `{}` has two links called `{}`{place}", wheel.name(), row.link.value);
            let help = "give each link of a corner a name of its own, or take one of the two out";
            log.error(codes::DUPLICATE_NAME, row.link.spot, &row.link, message, help);
        }
    }
    for wheel in Wheel::ALL.into_iter().filter(|_| look.corners_known) {
        let rows = || spec.suspension.iter().filter(|row| row.corner.value == wheel.name());
        if let (Some(links), Some(first)) = (&links[wheel as usize], rows().next()) {
            count(wheel, links, &first.corner, log);
        }
    }
    links
}

fn one(row: &LinkRow, look: &Lookup<'_>, joints: &IndexVec<JointId, Joint>, log: &mut Log) -> Option<Link> {
    let name = &row.link;
    let who = format!("link `{}` of `{}`", name.value, row.corner.value);
    if row.carrier.is_empty() {
        let help = "name the joints that take its force in `joints`, separated by spaces, or write `body: NAME`";
        log.error(
            codes::NO_CARRIER,
            name.spot,
            name,
            format!("nothing on the frame takes the force of the {who}"),
            help,
        );
    }
    let carrier = carriers::on_frame(&row.carrier, &who, look, log);
    let upright = point(&row.upright_mm, name, "its end on the upright", log);
    let chassis = chassis(row, carrier.as_ref(), joints, &who, log);
    let kind = match row.kind.as_str() {
        "" => Some(LinkKind::Link),
        word => LinkKind::ALL.into_iter().find(|kind| kind.word() == word),
    };
    if kind.is_none() {
        let message = format!("{who}: `{}` is not a kind of link", row.kind.value);
        let help = words_help(&row.kind, &LinkKind::ALL.map(LinkKind::word));
        log.error(codes::UNKNOWN_WORD, row.kind.spot, &row.kind, message, help);
    }
    let (upright, chassis, kind) = (upright?, chassis?, kind?);
    if kind != LinkKind::Pivot && to_mm(distance(upright, chassis)) < SAME_PLACE_MM {
        let message = format!("the {who} has no length: both its ends stand at one place, so it has no direction");
        let help = "correct the point on the upright or on the frame";
        log.error(codes::LINK_OF_NO_LENGTH, name.spot, name, message, help);
        return None;
    }
    Some(Link { name: name.value.clone(), kind, upright, chassis, carrier: carrier? })
}

/// Its end on the frame: as given, or at its only joint.
fn chassis(
    row: &LinkRow,
    carrier: Option<&Carrier>,
    joints: &IndexVec<JointId, Joint>,
    who: &str,
    log: &mut Log,
) -> Option<[f64; 3]> {
    let name = &row.link;
    let missing = |message: String, help: &str, log: &mut Log| {
        log.error(codes::POINT_MISSING, name.spot, name, message, help);
        None
    };
    match row.chassis_mm {
        [Some(x), Some(y), Some(z)] => point(&[x, y, z], name, "its end on the frame", log),
        [None, None, None] => match carrier? {
            Carrier::Joints(list) => match list.as_slice() {
                &[joint] => Some(joints[joint].at),
                _ => missing(
                    format!("{who} ends on several joints, and nothing says where between them"),
                    "give `chassis_x_mm`, `chassis_y_mm`, `chassis_z_mm`",
                    log,
                ),
            },
            Carrier::Body(_) | Carrier::Upright(_) => missing(
                format!("{who} ends on a body, and nothing says where"),
                "give `chassis_x_mm`, `chassis_y_mm`, `chassis_z_mm`",
                log,
            ),
        },
        _ => missing(
            format!("{who}: its end on the frame is given in part"),
            "fill in all three of `chassis_x_mm`, `chassis_y_mm`, `chassis_z_mm`, or none",
            log,
        ),
    }
}

fn point(written: &[Written<f64>; 3], name: &str, what: &str, log: &mut Log) -> Option<[f64; 3]> {
    let point = written.map(|value| log.finite(&value, name, what) * MM);
    point.iter().all(|value| value.is_finite()).then_some(point)
}

/// Six unknown forces hold an upright: fewer leave it loose, more cannot be told apart by equilibrium.
fn count(wheel: Wheel, links: &[Link], at: &Written<String>, log: &mut Log) {
    let unknowns: usize = links.iter().map(|link| link.kind.unknowns()).sum();
    if unknowns == NEEDED {
        return;
    }
    let of = |kind: LinkKind| links.iter().filter(|link| link.kind == kind).count();
    let parts: Vec<String> = LinkKind::ALL
        .into_iter()
        .filter(|&kind| of(kind) > 0)
        .map(|kind| format!("{} × {} ({} each)", of(kind), kind.word(), kind.unknowns()))
        .collect();
    let message = format!(
        "the corner `{}` has {unknowns} unknown forces, and the equilibrium of its upright gives six: {}",
        wheel.name(),
        parts.join(", ")
    );
    let sprung = of(LinkKind::Spring) + of(LinkKind::Strut) > 0;
    let help = match (unknowns < NEEDED, sprung) {
        (true, false) => format!(
            "{} missing, among them what carries the wheel's load: no row is a `spring` or a `strut`; {LAYOUTS}",
            forces(NEEDED - unknowns)
        ),
        (true, true) => format!("{} missing, so the upright can move; {LAYOUTS}", forces(NEEDED - unknowns)),
        (false, _) => format!(
            "{} too many: take out what does not locate the wheel (an anti-roll bar, a second spring), or a leg that \
             stands twice; {LAYOUTS}",
            forces(unknowns - NEEDED)
        ),
    };
    log.error(codes::LINK_COUNT, at.spot, wheel.name(), message, help);
}

const LAYOUTS: &str = "double wishbone: four legs, track rod, spring; strut: `strut`, two legs, track rod; trailing arm: \
                       `pivot`, `guide`, `spring`";

fn forces(number: usize) -> String {
    if number == 1 { "one force is".to_owned() } else { format!("{number} forces are") }
}

fn distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    ((b[0] - a[0]).powi(2) + (b[1] - a[1]).powi(2) + (b[2] - a[2]).powi(2)).sqrt()
}

//! What is attached to the frame: skins, bodies, suspension and wheels.

use strutwork_model::model::{Carrier, Corner, LinkKind, Model, Suspension, Vehicle, Wheel};

use super::ink;
use super::svg::{Path, Svg};
use super::view::Sheet;

/// Distance of the lines that hatch a panel, px.
const HATCH: f64 = 7.0;
/// With more panels than this, they are tinted and not hatched.
const FEW_PANELS: usize = 120;

/// The skins: a light tint, hatched, behind everything else.
pub(super) fn panels(svg: &mut Svg, model: &Model, sheet: &Sheet) {
    if model.panels().is_empty() {
        return;
    }
    let hatched = model.panels().len() <= FEW_PANELS;
    let mut areas = Path::new();
    let mut lines = Path::new();
    for panel in model.panels() {
        let corners: Vec<(f64, f64)> = panel.joints.iter().map(|id| sheet.at(model.joints()[*id].at)).collect();
        outline(&mut areas, &corners);
        if hatched {
            hatch(&mut lines, &corners, HATCH);
        }
    }
    svg.path(&areas, &format!("fill=\"{}\" fill-opacity=\".5\" stroke=\"none\"", ink::TINT));
    svg.path(&lines, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\".6\"", ink::FAINT));
}

/// A closed outline.
pub(super) fn outline(path: &mut Path, corners: &[(f64, f64)]) {
    let Some((first, rest)) = corners.split_first() else { return };
    path.start(*first);
    rest.iter().for_each(|corner| path.to(*corner));
    path.shut();
}

/// Lines rising to the right, `step` px apart, across the inside of an outline.
pub(super) fn hatch(path: &mut Path, corners: &[(f64, f64)], step: f64) {
    // Along such a line x + y is the same; lines of neighbouring panels fall on one another.
    let level = |at: (f64, f64)| at.0 + at.1;
    let low = corners.iter().map(|at| level(*at)).fold(f64::INFINITY, f64::min);
    let high = corners.iter().map(|at| level(*at)).fold(f64::NEG_INFINITY, f64::max);
    if !(low.is_finite() && high.is_finite()) {
        return;
    }
    let mut line = (low / step).ceil();
    while line * step < high {
        let at = line * step;
        let mut cuts: Vec<(f64, f64)> = Vec::new();
        for (place, from) in corners.iter().enumerate() {
            let to = corners[(place + 1) % corners.len()];
            let (a, b) = (level(*from) - at, level(to) - at);
            // An end that lies on the line counts for one of the two edges that meet there.
            if (a < 0.0) != (b < 0.0) {
                let share = a / (a - b);
                cuts.push((from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share));
            }
        }
        cuts.sort_by(|a, b| a.0.total_cmp(&b.0));
        for pair in cuts.chunks_exact(2) {
            path.start(pair[0]);
            path.to(pair[1]);
        }
        line += 1.0;
    }
}

/// The bodies: from the reference point a line to every mount, which is a small square.
pub(super) fn bodies(svg: &mut Svg, model: &Model, sheet: &Sheet) {
    if model.bodies().is_empty() {
        return;
    }
    let mut arms = Path::new();
    for body in model.bodies() {
        for mount in &body.mounts {
            arms.start(sheet.at(body.at));
            arms.to(sheet.at(model.joints()[model.mounts()[*mount].joint].at));
        }
    }
    svg.path(&arms, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.3\" stroke-dasharray=\"6 2\"", ink::BODY));
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.1\"", ink::PAPER, ink::BODY));
    for mount in model.mounts() {
        let (x, y) = sheet.at(model.joints()[mount.joint].at);
        svg.rectangle((x - 3.2, y - 3.2), (6.4, 6.4), "");
    }
    svg.close();
    svg.open(&format!("fill=\"{}\"", ink::BODY));
    for body in model.bodies() {
        let (x, y) = sheet.at(body.at);
        let mut diamond = Path::new();
        outline(&mut diamond, &[(x, y - 5.0), (x + 5.0, y), (x, y + 5.0), (x - 5.0, y)]);
        svg.path(&diamond, "");
    }
    svg.close();
}

/// Links, springs and wheels, and what carries a wheel that has no links.
pub(super) fn suspension(svg: &mut Svg, model: &Model, sheet: &Sheet) {
    let Some(vehicle) = model.vehicle() else { return };
    let (mut carried, mut links, mut springs, mut rims) = (Path::new(), Path::new(), Path::new(), Path::new());
    for (corner, wheel) in vehicle.corners.iter().zip(Wheel::ALL) {
        let centre = centre(vehicle, wheel);
        let hub = sheet.at(centre.unwrap_or(corner.contact));
        for end in upright_ends(model, corner) {
            carried.start(hub);
            carried.to(sheet.at(end));
        }
        if let Suspension::Linked(all) = &corner.suspension {
            for link in all {
                let (from, to) = (sheet.at(link.upright), sheet.at(link.chassis));
                match link.kind {
                    LinkKind::Spring | LinkKind::Strut => spring(&mut springs, from, to),
                    LinkKind::Link | LinkKind::Pivot | LinkKind::Guide => {
                        links.start(from);
                        links.to(to);
                    }
                }
            }
        }
        if let Some(centre) = centre {
            rim(&mut rims, sheet, centre, centre[2] - corner.contact[2]);
        }
    }
    svg.open("fill=\"none\" stroke-linejoin=\"round\"");
    svg.path(&rims, &format!("stroke=\"{}\" stroke-width=\".8\"", ink::GREY));
    svg.path(&carried, &format!("stroke=\"{}\" stroke-width=\".8\" stroke-dasharray=\"1.5 2.5\"", ink::BLUE));
    svg.path(&links, &format!("stroke=\"{}\" stroke-width=\"1\"", ink::BLUE));
    svg.path(&springs, &format!("stroke=\"{}\" stroke-width=\"1\"", ink::BLUE));
    svg.close();
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\".9\"", ink::PAPER, ink::BLUE));
    for corner in &vehicle.corners {
        if let Suspension::Linked(all) = &corner.suspension {
            for link in all {
                svg.circle(sheet.at(link.upright), 1.8);
                svg.circle(sheet.at(link.chassis), 1.8);
            }
        }
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.2\"", ink::PAPER, ink::BLUE));
    for corner in &vehicle.corners {
        svg.circle(sheet.at(corner.contact), 4.5);
    }
    svg.close();
}

/// Where a wheel turns, where its radius is given.
fn centre(vehicle: &Vehicle, wheel: Wheel) -> Option<[f64; 3]> {
    let [x, y, z] = vehicle.corner(wheel).contact;
    vehicle.axles[wheel.axle()].wheel_radius.map(|radius| [x, y, z + radius])
}

/// What the wheel's force goes to first: the upright's ends of the links, or what carries a rigid corner.
fn upright_ends(model: &Model, corner: &Corner) -> Vec<[f64; 3]> {
    match &corner.suspension {
        Suspension::Linked(links) => links.iter().map(|link| link.upright).collect(),
        Suspension::Rigid(Carrier::Joints(joints)) => joints.iter().map(|id| model.joints()[*id].at).collect(),
        Suspension::Rigid(Carrier::Body(body)) => vec![model.bodies()[*body].at],
        Suspension::Rigid(Carrier::Upright(_)) => Vec::new(),
    }
}

/// The places that a drawing with the suspension on it has to hold.
pub(super) fn suspension_places(model: &Model) -> Vec<[f64; 3]> {
    let Some(vehicle) = model.vehicle() else { return Vec::new() };
    let mut places = Vec::new();
    for (corner, wheel) in vehicle.corners.iter().zip(Wheel::ALL) {
        places.push(corner.contact);
        places.extend(upright_ends(model, corner));
        if let Some([x, y, z]) = centre(vehicle, wheel) {
            let radius = z - corner.contact[2];
            places.extend([[x - radius, y, z], [x + radius, y, z], [x, y, z + radius]]);
        }
    }
    places
}

/// A circle in the x–z plane, as it appears.
fn rim(path: &mut Path, sheet: &Sheet, [x, y, z]: [f64; 3], radius: f64) {
    const PARTS: usize = 40;
    for part in 0..=PARTS {
        let angle = std::f64::consts::TAU * part as f64 / PARTS as f64;
        let at = sheet.at([x + radius * angle.cos(), y, z + radius * angle.sin()]);
        if part == 0 { path.start(at) } else { path.to(at) }
    }
}

/// A zigzag between two straight ends.
fn spring(path: &mut Path, from: (f64, f64), to: (f64, f64)) {
    const TURNS: usize = 6;
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy);
    path.start(from);
    if length > 16.0 {
        let half = 3.2;
        let at = |along: f64, across: f64| {
            (from.0 + dx * along - dy / length * across, from.1 + dy * along + dx / length * across)
        };
        path.to(at(0.2, 0.0));
        for turn in 0..TURNS {
            let side = if turn % 2 == 0 { half } else { -half };
            path.to(at(0.2 + 0.6 * (turn as f64 + 0.5) / TURNS as f64, side));
        }
        path.to(at(0.8, 0.0));
    }
    path.to(to);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ends of the lines of a path, px.
    fn ends(path: Path) -> Vec<f64> {
        let mut svg = Svg::new(10.0, 10.0, "figure", "test");
        svg.path(&path, "");
        let out = svg.finish();
        let data = out.split(" d=\"").nth(1).and_then(|tail| tail.split('"').next()).unwrap_or_default().to_owned();
        let starts = data.split('M').skip(1).map(|line| line.split('l').next().unwrap_or_default().to_owned());
        starts.flat_map(|pair| pair.split(' ').map(|n| n.parse::<f64>().unwrap()).collect::<Vec<_>>()).collect()
    }

    #[test]
    fn hatching_stays_inside_its_outline() {
        // x + y = 10 and 20 cross the square; 0 and 40 only touch its corners.
        let square = [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)];
        let mut path = Path::new();
        hatch(&mut path, &square, 10.0);
        assert_eq!(ends(path), [0.0, 10.0, 0.0, 20.0, 10.0, 20.0]);
        // A notch is not hatched: the line x + y = 20 meets this outline in four places.
        let notched = [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (10.0, 5.0), (0.0, 20.0)];
        let mut path = Path::new();
        hatch(&mut path, &notched, 30.0);
        let cuts = ends(path);
        assert!(cuts.len() == 2 && cuts[0] > 10.0, "{cuts:?}");
    }

    #[test]
    fn an_outline_that_is_no_area_is_not_hatched() {
        let mut path = Path::new();
        hatch(&mut path, &[], 5.0);
        hatch(&mut path, &[(f64::NAN, 0.0), (1.0, 1.0), (2.0, 0.0)], 5.0);
        hatch(&mut path, &[(3.0, 4.0); 4], 5.0);
        assert!(path.is_empty());
    }
}

//! Where tubes are welded: which end, to which other tube, under which angle.

use std::f64::consts::PI;

use strutwork_model::model::{Model, Section, Shape};
use strutwork_model::{IndexVec, JointId, TubeId};

use crate::code::weld::Outline;

/// Two tubes are one line through their joint where they bend by less than this, as a cosine: 5°, as in the rule for soft joints.
const STRAIGHT: f64 = 0.996_194_698_091_745_5;
/// Two tubes that both end and bend by less than this are cut to a mitre, as a cosine: 30° (common practice, no source).
const MITRE: f64 = 0.866_025_403_784_438_6;
/// A tube that lies flatter than this on the face is taken as standing at this angle, rad: 15°. A longer weld is not counted on.
const FLATTEST: f64 = PI / 12.0;

/// The welded end of a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldedEnd {
    /// The tube.
    pub tube: TubeId,
    /// Whether it is the tube's `to` end.
    pub at_to: bool,
    /// The joint at that end.
    pub joint: JointId,
    /// What it is welded to: the tube that runs through, else the widest that ends there.
    pub host: TubeId,
    /// θ between tube and face, rad, up to π/2.
    pub angle: f64,
    /// Whether it stands on the host's wall; otherwise both are cut and meet end to end.
    pub on_wall: bool,
    /// Along the tube from its end, which is the crossing of the axes, to the wall that it stands on, m; 0 where it is cut.
    pub to_face: f64,
    /// Unit vector across the tube in the plane of tube and face normal, as parts along the tube's y and z.
    pub in_plane: [f64; 2],
    /// Unit vector square to that plane, likewise.
    pub across: [f64; 2],
}

/// All welds of a frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Joined {
    /// Joint by joint, in the order of the tubes.
    pub welds: Vec<WeldedEnd>,
    /// For each tube and each of its ends that a weld heats, its own or one at the same joint: how far from the end the weld
    /// reaches along the tube, m. `None` where nothing is welded.
    pub heated: IndexVec<TubeId, [Option<f64>; 2]>,
}

/// A tube's end at a joint.
#[derive(Debug, Clone, Copy)]
struct End {
    tube: TubeId,
    at_to: bool,
    /// From the joint into the tube.
    out: [f64; 3],
}

/// Finds every weld: at a joint of two tubes or more each end is welded, but for those of the tube that the others stand on.
///
/// That tube is the one that runs through in two straight pieces of one section and material, the widest of these; these two
/// ends have no weld of their own, as they are one tube in the workshop. Else it is the wider of two in one line, which are
/// spliced; else the widest that ends there. Of equals the one of greater area, then the first.
///
/// # Assumes
/// Whatever meets at a joint is welded there; brackets, panels and bodies are not looked at.
///
/// # Source
/// Common practice, no source.
pub fn joined(model: &Model) -> Joined {
    let mut at_joint: IndexVec<JointId, Vec<End>> = model.joints().ids().map(|_| Vec::new()).collect();
    for (id, tube) in model.tubes().iter_with_id() {
        let [a, b] = model.tube_ends(id);
        let out = unit([0, 1, 2].map(|axis| b[axis] - a[axis]));
        at_joint[tube.from].push(End { tube: id, at_to: false, out });
        at_joint[tube.to].push(End { tube: id, at_to: true, out: out.map(|part| -part) });
    }
    let mut welds = Vec::new();
    let mut heated: IndexVec<TubeId, [Option<f64>; 2]> = model.tubes().ids().map(|_| [None; 2]).collect();
    for (joint, ends) in at_joint.iter_with_id() {
        let Some(on) = stood_on(model, ends) else { continue };
        let before = welds.len();
        for (place, end) in ends.iter().enumerate() {
            if place != on.host && Some(place) != on.other_half {
                let host = &ends[on.host];
                welds.push(meeting(model, joint, end, host, on.other_half.is_some()));
            }
        }
        for weld in &welds[before..] {
            heated[weld.tube][usize::from(weld.at_to)] = Some(weld.to_face);
            // Half of what stands on it, to either side of the joint.
            let half = if weld.on_wall { half_footprint(model, weld) } else { 0.0 };
            for half_of_host in std::iter::once(on.host).chain(on.other_half) {
                let End { tube, at_to, .. } = ends[half_of_host];
                let reached = &mut heated[tube][usize::from(at_to)];
                *reached = Some(reached.unwrap_or(0.0).max(half));
            }
        }
    }
    Joined { welds, heated }
}

/// What the other tubes of a joint are welded to, by places among the ends.
struct StoodOn {
    host: usize,
    /// The second piece of a tube that runs through.
    other_half: Option<usize>,
}

fn stood_on(model: &Model, ends: &[End]) -> Option<StoodOn> {
    if ends.len() < 2 {
        return None;
    }
    let size = |place: usize| {
        let section = &model.sections()[model.tubes()[ends[place].tube].section];
        (breadth(section), section.area)
    };
    let wider = |a: usize, b: usize| size(a) > size(b);
    let (mut one_piece, mut spliced): (Option<(usize, usize)>, Option<usize>) = (None, None);
    for a in 0..ends.len() {
        for b in a + 1..ends.len() {
            if dot(ends[a].out, ends[b].out) > -STRAIGHT {
                continue;
            }
            let [first, second] = [a, b].map(|place| &model.tubes()[ends[place].tube]);
            if first.section == second.section && first.material == second.material {
                if one_piece.is_none_or(|(best, _)| wider(a, best)) {
                    one_piece = Some((a, b));
                }
            } else {
                let widest = if wider(b, a) { b } else { a };
                if spliced.is_none_or(|best| wider(widest, best)) {
                    spliced = Some(widest);
                }
            }
        }
    }
    if let Some((host, other)) = one_piece {
        return Some(StoodOn { host, other_half: Some(other) });
    }
    let widest = || (1..ends.len()).fold(0, |best, place| if wider(place, best) { place } else { best });
    Some(StoodOn { host: spliced.unwrap_or_else(widest), other_half: None })
}

/// The least outside size, m; 0 where it is not known.
fn breadth(section: &Section) -> f64 {
    match section.shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => height.min(width),
        Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => diameter,
        Shape::Properties => 0.0,
    }
}

/// How an end meets the tube that it is welded to.
fn meeting(model: &Model, joint: JointId, end: &End, host: &End, runs_through: bool) -> WeldedEnd {
    let [_, y, z] = model.local_axes(end.tube);
    let cut = !runs_through && -dot(end.out, host.out) > MITRE;
    let (normal, half_depth) = if cut {
        (unit([0, 1, 2].map(|axis| end.out[axis] - host.out[axis])), 0.0)
    } else {
        face(model, end.out, host)
    };
    let rise = dot(end.out, normal);
    let angle = snapped_angle(rise.clamp(0.0, 1.0).asin().max(FLATTEST));
    // The way it leans, in the face; a square cut leans nowhere, and is seen along the host, or along its own z.
    let lean = [0, 1, 2].map(|axis| end.out[axis] - rise * normal[axis]);
    let lean = if dot(lean, lean) > 1e-12 {
        unit(lean)
    } else if cut {
        z
    } else {
        host.out
    };
    let across = unit(cross(normal, lean));
    let in_plane = cross(across, end.out);
    let parts = |direction: [f64; 3]| [y, z].map(|axis| snapped(dot(direction, axis)));
    WeldedEnd {
        tube: end.tube,
        at_to: end.at_to,
        joint,
        host: host.tube,
        on_wall: !cut,
        angle,
        to_face: half_depth / angle.sin(),
        in_plane: parts(in_plane),
        across: parts(across),
    }
}

/// The tube's outline, seen from the plane of tube and face normal; `None` for a section given by its properties alone.
pub fn outline_of(section: &Section, end: &WeldedEnd) -> Option<Outline> {
    // The side that lies nearest to the plane counts as lying in it.
    let z_in_plane = end.in_plane[1].abs() >= end.in_plane[0].abs();
    let seen = |height: f64, width: f64| if z_in_plane { (height, width) } else { (width, height) };
    match section.shape {
        Shape::Hollow { height, width, outer_radius, .. } => {
            let (depth, width) = seen(height, width);
            Some(Outline::Rectangular { depth, width, corner: outer_radius })
        }
        Shape::Flat { height, width } => {
            let (depth, width) = seen(height, width);
            Some(Outline::Rectangular { depth, width, corner: 0.0 })
        }
        Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => Some(Outline::Round { diameter }),
        Shape::Properties => None,
    }
}

/// The face that a tube stands on: its normal towards the tube, and how far it lies from the host's axis, m. Of a rectangular
/// host the face through which the tube leaves its axis, of a round one the place at the tube's foot.
fn face(model: &Model, out: [f64; 3], host: &End) -> ([f64; 3], f64) {
    let [x, y, z] = model.local_axes(host.tube);
    let section = &model.sections()[model.tubes()[host.tube].section];
    let (normal, depth) = match section.shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => {
            if (dot(out, z) / height).abs() >= (dot(out, y) / width).abs() { (z, height) } else { (y, width) }
        }
        Shape::Round { .. } | Shape::SolidRound { .. } | Shape::Properties => {
            let along = dot(out, x);
            let across = [0, 1, 2].map(|axis| out[axis] - along * x[axis]);
            (if dot(across, across) > 1e-12 { unit(across) } else { z }, breadth(section))
        }
    };
    (if dot(normal, out) < 0.0 { normal.map(|part| -part) } else { normal }, depth / 2.0)
}

/// Half of what a tube covers along the tube that it stands on, m; 0 where its outline is not known.
fn half_footprint(model: &Model, weld: &WeldedEnd) -> f64 {
    let section = &model.sections()[model.tubes()[weld.tube].section];
    outline_of(section, weld).map_or(0.0, |outline| outline.line(weld.angle).sides[0] / 2.0)
}

/// Rounding is taken off, so that a tube that stands in a plane brings nothing out of it.
fn snapped(part: f64) -> f64 {
    if part.abs() < 1e-12 {
        0.0
    } else if (part.abs() - 1.0).abs() < 1e-12 {
        part.signum()
    } else {
        part
    }
}

/// A right angle but for rounding is a right angle.
fn snapped_angle(angle: f64) -> f64 {
    if angle > PI / 2.0 - 1e-7 { PI / 2.0 } else { angle }
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// A vector of length 1; validation refuses tubes without length.
fn unit(vector: [f64; 3]) -> [f64; 3] {
    let length = dot(vector, vector).sqrt();
    vector.map(|part| part / length)
}

#[cfg(test)]
mod tests;

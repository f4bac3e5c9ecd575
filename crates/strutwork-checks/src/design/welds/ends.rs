//! Where tubes are welded: which end, to which other tube, under which angle.

use std::f64::consts::PI;

use strutwork_model::model::{Model, Section, Shape};
use strutwork_model::{IndexVec, JointId, TubeId};

use crate::code::weld::Outline;
use crate::design::joints::chord;
use crate::design::joints::ends::End;
use crate::design::joints::vectors::{Vector, cross, dot, less, times, unit};

/// Two pieces of one section and material are one tube where they bend by less than this, as a cosine: 5°, as in the rule for
/// soft joints.
const ONE_PIECE: f64 = 0.996_194_698_091_745_5;
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
    /// What it is welded to: the chord of the joint.
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

/// Finds every weld: at a joint of two tubes or more each end is welded, but for those of the tube that the others stand on.
///
/// That tube is the chord of the joint check (D030): the one that runs straight through, the largest of these; failing that,
/// the largest that ends there. Where its two pieces are of one material and bend by less than 5° they are one tube in the
/// workshop and have no weld of their own; else they are spliced.
///
/// # Assumes
/// Whatever meets at a joint is welded there; brackets, panels and bodies are not looked at.
///
/// # Source
/// Common practice, no source.
pub fn joined(model: &Model) -> Joined {
    let mut at_joint: IndexVec<JointId, Vec<End>> = model.joints().ids().map(|_| Vec::new()).collect();
    for (id, tube) in model.tubes().iter_with_id() {
        at_joint[tube.from].push(End::of(model, id, false));
        at_joint[tube.to].push(End::of(model, id, true));
    }
    let mut welds = Vec::new();
    let mut heated: IndexVec<TubeId, [Option<f64>; 2]> = model.tubes().ids().map(|_| [None; 2]).collect();
    let mut heat = |tube: TubeId, at_to: bool, reach: f64| {
        let known = &mut heated[tube][usize::from(at_to)];
        *known = Some(known.unwrap_or(0.0).max(reach));
    };
    for (joint, ends) in at_joint.iter_with_id() {
        let Some((first, second)) = chord::find(model, ends) else { continue };
        let host = &ends[first];
        for (place, end) in ends.iter().enumerate().filter(|&(place, _)| place != first) {
            let goes_on = Some(place) == second;
            if goes_on && one_piece(model, host, end) {
                continue;
            }
            let weld = meeting(model, joint, end, host, second.is_none() || goes_on);
            heat(weld.tube, weld.at_to, weld.to_face);
            // To either side of the joint half of what stands on the host.
            let half = if weld.on_wall { half_footprint(model, &weld) } else { 0.0 };
            for piece in [Some(first), second].into_iter().flatten() {
                heat(ends[piece].tube, ends[piece].at_to, half);
            }
            welds.push(weld);
        }
    }
    Joined { welds, heated }
}

/// Whether the two pieces of a tube that runs through are one tube in the workshop.
fn one_piece(model: &Model, a: &End, b: &End) -> bool {
    let [first, second] = [a, b].map(|end| model.tubes()[end.tube].material);
    first == second && dot(a.out, b.out) <= -ONE_PIECE
}

/// How an end meets the tube that it is welded to.
fn meeting(model: &Model, joint: JointId, end: &End, host: &End, both_end: bool) -> WeldedEnd {
    let [y, z] = end.across;
    let cut = both_end && -dot(end.out, host.out) > MITRE;
    let (normal, half_depth) = if cut { (unit(less(end.out, host.out)), 0.0) } else { face(model, end.out, host) };
    let rise = dot(end.out, normal);
    let angle = snapped_angle(rise.clamp(0.0, 1.0).asin().max(FLATTEST));
    // The way it leans, in the face; a square cut leans nowhere, and is seen along the host, or along its own z.
    let lean = less(end.out, times(rise, normal));
    let lean = if dot(lean, lean) > 1e-12 {
        unit(lean)
    } else if cut {
        z
    } else {
        host.out
    };
    let across = unit(cross(normal, lean));
    let in_plane = cross(across, end.out);
    let parts = |direction: Vector| [y, z].map(|axis| snapped(dot(direction, axis)));
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
fn face(model: &Model, out: Vector, host: &End) -> (Vector, f64) {
    let [y, z] = host.across;
    let section = &model.sections()[model.tubes()[host.tube].section];
    let (normal, depth) = match section.shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => {
            if (dot(out, z) / height).abs() >= (dot(out, y) / width).abs() { (z, height) } else { (y, width) }
        }
        Shape::Round { .. } | Shape::SolidRound { .. } | Shape::Properties => {
            let across = less(out, times(dot(out, host.out), host.out));
            (if dot(across, across) > 1e-12 { unit(across) } else { z }, section.depth().unwrap_or(0.0))
        }
    };
    (if dot(normal, out) < 0.0 { times(-1.0, normal) } else { normal }, depth / 2.0)
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

#[cfg(test)]
mod tests;

//! How a joint is read: its chord, and each brace with its face, its plane and its neighbours. No load case is asked.

use strutwork_model::model::{Route, Section, Shape};
use strutwork_model::{JointId, Model};

use super::beside;
use super::chord::{self, STRAIGHT};
use super::ends::{End, is_hollow};
use super::vectors::{Vector, cross, dot, less, times, unit};
use crate::code::joint::{Brace, Chord, Kind, Outline};

/// A brace further than this from a face of the chord, or turned against its plane by more, is outside the tables; braces
/// nearer to each other than this are in one plane. As a cosine: 15°. Engineering judgement, no source.
const NEAR: f64 = 0.965_925_826_289_068_3;

/// Off the middle of the face by more than this share of the chord's width a brace is not centred: common practice, no source.
const OFF_CENTRE: f64 = 0.01;

/// A joint with a chord.
pub(super) struct Reading {
    pub(super) joint: JointId,
    /// The chord's one or two ends here.
    pub(super) chord: Vec<End>,
    pub(super) braces: Vec<Branch>,
    /// Ends that are not judged, each with the reason.
    pub(super) left: Vec<(End, &'static str)>,
}

/// One brace, as the joint's geometry gives it.
pub(super) struct Branch {
    pub(super) end: End,
    /// The chord as this brace meets it; without stress.
    pub(super) chord: Chord,
    /// Sense of its force left open.
    pub(super) brace: Brace,
    /// Axes of the moments in the plane and out of it, in the tube's local y and z.
    pub(super) moment_axes: [[f64; 2]; 2],
    /// Which plane of the joint it is in.
    pub(super) plane: usize,
    /// Whether it stands on the plane's first side of the chord.
    pub(super) first_side: bool,
    /// Towards which of the chord's local axes the face looks that it stands on; empty on a round chord.
    pub(super) face: &'static str,
    /// Where its axis meets the face, m along the chord, and by how much that place moves for a metre further out.
    pub(super) foot: [f64; 2],
    /// Why the tables do not cover it, whatever acts.
    pub(super) reasons: Vec<String>,
    /// Braces on the same side of the same plane.
    pub(super) beside: Vec<Beside>,
    /// Whether a brace stands on the other side of the same plane.
    pub(super) across: bool,
}

/// A neighbour on the same side.
#[derive(Debug, Clone, Copy)]
pub(super) struct Beside {
    /// Its place among the joint's braces.
    pub(super) place: usize,
    /// The K or N joint that both make.
    pub(super) kind: Kind,
    /// Whether they stand so far apart that each is a joint of its own.
    pub(super) apart: bool,
}

/// Reads a joint from the ends that meet there; `None` where there is nothing to judge: fewer than two tubes, or one tube that
/// goes on as another of the same section.
pub(super) fn read(model: &Model, joint: JointId, ends: &[End]) -> Option<Reading> {
    let (first, second) = chord::find(model, ends)?;
    let chord_ends: Vec<End> = [Some(first), second].into_iter().flatten().map(|place| ends[place]).collect();
    let others = ends.iter().enumerate().filter(|&(place, _)| place != first && Some(place) != second);
    let mut reading = Reading { joint, chord: chord_ends, braces: Vec::new(), left: Vec::new() };
    let carrier = &reading.chord[0];
    let section = carrier.section(model);
    let weaker = reading.chord.iter().map(|end| end.yield_stress(model)).reduce(|a, b| Some(a?.min(b?))).flatten();
    let mut planes: Vec<Vector> = Vec::new();
    for (_, end) in others {
        let why = if !is_hollow(section) {
            "the chord is not a hollow section"
        } else if !is_hollow(end.section(model)) {
            "not a hollow section joint"
        } else if dot(end.out, carrier.out).abs() >= STRAIGHT {
            "in line with the chord, not on its face"
        } else if let (Some(of_chord), Some(own)) = (weaker, end.yield_stress(model)) {
            match branch(model, end, carrier, [of_chord, own], &mut planes) {
                Some(mut found) => {
                    found.reasons.extend(second.is_none().then(chord_ends_here));
                    reading.braces.push(found);
                    continue;
                }
                None => "not a hollow section joint",
            }
        } else {
            "no yield strength given"
        };
        reading.left.push((*end, why));
    }
    if reading.braces.is_empty() && reading.left.is_empty() {
        return None;
    }
    together(&mut reading.braces);
    Some(reading)
}

fn chord_ends_here() -> String {
    "end of chord: no tube runs through, which is none of the code's joint types".to_owned()
}

/// The chord's sizes and strength, with h₀ along its local y or z.
fn chord_of(model: &Model, end: &End, section: &Section, depth_along_z: bool, yield_stress: f64) -> Option<Chord> {
    let (outline, wall) = outline(section, depth_along_z)?;
    let material = &model.materials()[model.tubes()[end.tube].material];
    // Curve a for hot finished, c for cold formed hollow sections.
    let imperfection = if section.route == Some(Route::HotFinished) { 0.21 } else { 0.49 };
    Some(Chord {
        outline,
        wall,
        yield_stress,
        youngs: material.youngs,
        area: section.area,
        imperfection,
        stress_ratio: 0.0,
    })
}

fn outline(section: &Section, depth_along_z: bool) -> Option<(Outline, f64)> {
    match section.shape {
        Shape::Hollow { height, width, wall, .. } => {
            let (depth, width) = if depth_along_z { (height, width) } else { (width, height) };
            Some((Outline::Rectangular { depth, width }, wall))
        }
        Shape::Round { diameter, wall } => Some((Outline::Round { diameter }, wall)),
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => None,
    }
}

/// One brace on the chord; `planes` are those found so far, by the direction square to the chord.
fn branch(
    model: &Model,
    end: &End,
    carrier: &End,
    [of_chord, own]: [f64; 2],
    planes: &mut Vec<Vector>,
) -> Option<Branch> {
    let along = carrier.out;
    let square = unit(less(end.out, times(dot(end.out, along), along)));
    let section = carrier.section(model);
    let mut reasons = Vec::new();
    let (normal, face, on_z) = match section.shape {
        Shape::Hollow { height, width, .. } => {
            let found = face(square, carrier.across, [width, height]);
            let lean = dot(square, found.0);
            if lean < NEAR {
                let degrees = lean.min(1.0).acos().to_degrees();
                reasons.push(format!("skew to the chord's faces by {degrees:.0}°, judged on the nearest"));
            }
            found
        }
        _ => (square, "", true),
    };
    // Planes of a rectangular chord are those of its faces; of a round one those of its braces.
    let plane = planes.iter().position(|known| dot(*known, normal).abs() >= NEAR).unwrap_or_else(|| {
        planes.push(normal);
        planes.len() - 1
    });
    let chord = chord_of(model, carrier, section, on_z, of_chord)?;
    let out_of_plane = cross(along, square);
    let (brace, turned) = brace_of(model, end, out_of_plane, dot(end.out, along).abs().acos(), own)?;
    reasons.extend(turned);
    // The height of the face over the chord's axis, then along the brace's axis to it.
    let from_chord = less(end.at, carrier.at);
    let reach = (chord.outline.depth() / 2.0 - dot(from_chord, square)) / dot(end.out, square);
    let lean = dot(end.out, along) / dot(end.out, square);
    let foot = [dot(from_chord, along) + reach * dot(end.out, along), lean];
    let off = dot(from_chord, out_of_plane).abs();
    if off > OFF_CENTRE * chord.outline.width() {
        reasons.push(format!("the brace's axis passes {:.1} mm beside the chord's", off * 1e3));
    }
    let in_own = |axis: Vector| end.across.map(|own| dot(own, axis));
    let moment_axes = [in_own(out_of_plane), in_own(cross(end.out, out_of_plane))];
    let first_side = dot(planes[plane], normal) > 0.0;
    let (end, beside, across) = (*end, Vec::new(), false);
    Some(Branch { end, chord, brace, moment_axes, plane, first_side, face, foot, reasons, beside, across })
}

/// The face of a rectangular chord that a direction square to it leaves by: its normal, its name, and whether it is one of the
/// two across local z. `sizes` along y and z.
fn face(square: Vector, [y, z]: [Vector; 2], [width, height]: [f64; 2]) -> (Vector, &'static str, bool) {
    let (over_y, over_z) = (dot(square, y), dot(square, z));
    // A hair in favour of z, so that a brace over a corner does not change faces by rounding.
    if over_z.abs() / height * (1.0 + 1e-9) >= over_y.abs() / width {
        if over_z > 0.0 { (z, "+z", true) } else { (times(-1.0, z), "−z", true) }
    } else if over_y > 0.0 {
        (y, "+y", false)
    } else {
        (times(-1.0, y), "−y", false)
    }
}

/// The brace's sizes seen from its plane, and why that is not quite so.
fn brace_of(
    model: &Model,
    end: &End,
    out_of_plane: Vector,
    angle: f64,
    yield_stress: f64,
) -> Option<(Brace, Option<String>)> {
    let section = end.section(model);
    let [over_y, over_z] = end.across.map(|own| dot(own, out_of_plane).abs());
    // Bending in the plane is about the axis square to it: about y where z lies in the plane.
    let about_y = over_y >= over_z;
    let (outline, wall) = outline(section, about_y)?;
    let ordered = |y: f64, z: f64| if about_y { [y, z] } else { [z, y] };
    let best = over_y.max(over_z).min(1.0);
    let mut why = None;
    if !outline.is_round() && best < NEAR {
        why =
            Some(format!("brace turned {:.0}° about its own axis against the joint's plane", best.acos().to_degrees()));
    }
    let youngs = model.materials()[model.tubes()[end.tube].material].youngs;
    if !(190e9..=220e9).contains(&youngs) {
        why = Some(format!("a brace with E = {:.0} MPa is not of steel", youngs / 1e6));
    }
    let brace = Brace {
        outline,
        wall,
        yield_stress,
        area: section.area,
        plastic: ordered(section.wpl_y?, section.wpl_z?),
        elastic: ordered(section.wel_y?, section.wel_z?),
        angle,
        compressed: false,
    };
    Some((brace, why))
}

/// What braces are to each other: neighbours, opposite ones, planes.
fn together(braces: &mut [Branch]) {
    let planes = braces.iter().map(|branch| branch.plane + 1).max().unwrap_or(0);
    for place in 0..braces.len() {
        let one = &braces[place];
        let mates = |same_side: bool| {
            let same =
                move |other: &Branch| other.plane == one.plane && (other.first_side == one.first_side) == same_side;
            braces.iter().enumerate().filter(move |(other, branch)| *other != place && same(branch))
        };
        let beside: Vec<Beside> = mates(true).map(|(other, branch)| beside::of(one, branch, other)).collect();
        let across = mates(false).next().is_some();
        let mut said = Vec::new();
        if planes > 1 {
            said.push(format!("multi-planar: braces in {planes} planes, judged plane by plane"));
        }
        if beside.len() > 1 {
            said.push(format!("{} braces on one face, judged in pairs", beside.len() + 1));
        }
        let one = &mut braces[place];
        (one.beside, one.across) = (beside, across);
        one.reasons.extend(said);
    }
}

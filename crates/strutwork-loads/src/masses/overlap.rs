//! How much of the tubes' mass is counted twice where centre lines meet at a joint.

use nalgebra::Vector3;
use strutwork_model::ids::Id;
use strutwork_model::model::{Model, Shape};
use strutwork_model::{JointId, TubeId};

/// Two tubes run straight through a joint where their directions differ by less than 1°, as a cosine.
const STRAIGHT: f64 = 0.999_847_695_156_391_2;

/// One end of a tube at a joint.
struct End {
    tube: TubeId,
    /// Unit vector from the joint along the tube.
    away: Vector3<f64>,
    /// Mean outer size of the section, m; `None` where only its properties are known.
    depth: Option<f64>,
    /// Whether the user moved the end off the joint already.
    offset: bool,
}

/// Mass that centre-line lengths count twice at joints, kg: every tube that meets a chord is cut at the chord's face, half
/// its depth short of the joint.
///
/// # Assumes
/// The chord of a joint is its deepest tube; of several as deep one that runs straight through, and of those the first. The
/// depth of a rectangle is the mean of its sides. Ends with an offset are not counted: the user has cut them already; nor
/// are sections given by their properties alone. Square cuts: a slanting brace is cut at its axis.
///
/// # Source
/// Common practice, no source.
pub fn overlap(model: &Model) -> f64 {
    let mut ends: Vec<Vec<End>> = model.joints().iter().map(|_| Vec::new()).collect();
    for (tube, row) in model.tubes().iter_with_id() {
        let [from, to] = model.tube_ends(tube).map(Vector3::from);
        let Some(along) = (to - from).try_normalize(0.0) else { continue };
        let depth = depth(model.sections()[row.section].shape);
        let mut put = |joint: JointId, away, end_offset: [f64; 3]| {
            ends[joint.index()].push(End { tube, away, depth, offset: end_offset != [0.0; 3] });
        };
        put(row.from, along, row.end_from.offset);
        put(row.to, -along, row.end_to.offset);
    }
    ends.iter().map(|ends| at_joint(model, ends)).sum()
}

fn at_joint(model: &Model, ends: &[End]) -> f64 {
    let straight = |one: &End, other: &End| one.away.dot(&other.away) < -STRAIGHT;
    let mut chord: Option<(&End, f64, bool)> = None;
    for end in ends {
        let Some(depth) = end.depth else { continue };
        let through = ends.iter().any(|other| straight(end, other));
        if chord.is_none_or(|(_, deepest, straight)| (depth, through) > (deepest, straight)) {
            chord = Some((end, depth, through));
        }
    }
    let Some((chord, depth, _)) = chord else { return 0.0 };
    let cut = |end: &&End| end.tube != chord.tube && !end.offset && end.depth.is_some() && !straight(end, chord);
    ends.iter().filter(cut).map(|end| line_mass(model, end.tube) * depth / 2.0).sum()
}

fn line_mass(model: &Model, tube: TubeId) -> f64 {
    let row = &model.tubes()[tube];
    model.sections()[row.section].area * model.materials()[row.material].density
}

fn depth(shape: Shape) -> Option<f64> {
    match shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => Some((height + width) / 2.0),
        Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => Some(diameter),
        Shape::Properties => None,
    }
}

//! A natural mode or a way of buckling: the frame at rest and bent, with the other way it bends as a style rule, so that
//! the page can let it swing without a script.

use strutwork_model::{IndexVec, JointId, Model, Subdivided, TubeId};
use strutwork_solve::modes::{BentPiece, ModeName, bent_pieces};

use super::furniture::{self, STRIP};
use super::svg::{Path, Svg};
use super::view::{self, Sheet, Shown, frame_size};
use super::{WIDTH, deformed, ink};
use crate::run::Run;

/// The largest movement appears as about this share of the frame's size.
const SHOWN_SHARE: f64 = 0.06;
/// A tube in several pieces is drawn as one curve where that misses none of its joints by more, px.
const CLOSE: f64 = 0.25;
/// Natural modes that are drawn, and cases whose lowest load factor is.
const MODES: usize = 6;
const FACTORS: usize = 4;
/// Share of the strain energy that the marked tubes hold together.
const MARKED: f64 = 0.5;
/// Marked are at most so many tubes: where more are strained, the frame as a whole is.
const FEW: usize = 6;

/// A picture that can move.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Swinging {
    /// What the page calls it: letters, digits and `-`.
    pub id: String,
    /// The drawing, a whole `svg` element: still until the page lets it swing.
    pub svg: String,
    /// Style rules with the other way that it bends.
    pub rules: String,
    /// What it shows, in a few words.
    pub label: String,
    /// How to read it.
    pub caption: String,
}

/// What bends how.
struct Shape<'a> {
    id: String,
    label: String,
    fine: &'a Subdivided,
    joints: &'a IndexVec<JointId, [f64; 6]>,
    bodies: &'a [[f64; 6]],
    marked: Vec<TubeId>,
}

/// The lowest natural modes.
pub fn modes(run: &Run<'_>) -> Vec<Swinging> {
    let Some(modes) = &run.asked.modes else { return Vec::new() };
    let fine = run.model.subdivided(run.asked.pieces);
    let each = modes.modes.iter().enumerate().take(MODES);
    each.map(|(place, mode)| {
        let number = modes.rigid + place + 1;
        let name = mode.name.words(run.model);
        let marked = match &mode.name {
            ModeName::Local(tubes, _) => tubes.clone(),
            _ => Vec::new(),
        };
        draw(
            run,
            &Shape {
                id: format!("mode-{number}"),
                label: format!("Mode {number}, {:.1} Hz: {name}", mode.frequency),
                fine: &fine,
                joints: &mode.joints,
                bodies: &mode.bodies,
                marked,
            },
        )
    })
    .collect()
}

/// The lowest way of buckling of the cases that buckle soonest.
pub fn buckling(run: &Run<'_>) -> Vec<Swinging> {
    let all = run.asked.buckling.iter().flatten();
    let mut lowest: Vec<_> = all.filter_map(|of| Some((of, of.positive.first()?))).collect();
    lowest.sort_by(|a, b| a.1.factor.total_cmp(&b.1.factor));
    let each = lowest.iter().enumerate().take(FACTORS);
    each.map(|(place, (of, mode))| {
        let mut held = 0.0;
        let bowing = mode.bowing().into_iter().take_while(|(_, share)| {
            let wanted = held < MARKED;
            held += share;
            wanted
        });
        let marked: Vec<TubeId> = bowing.map(|(tube, _)| tube).collect();
        draw(
            run,
            &Shape {
                id: format!("buckling-{}", place + 1),
                label: format!("Case {}, load factor {:.3}", of.case, mode.factor),
                fine: &run.model.subdivided_at(&of.cuts),
                joints: &mode.joints,
                bodies: &mode.bodies,
                marked: if marked.len() <= FEW { marked } else { Vec::new() },
            },
        )
    })
    .collect()
}

fn draw(run: &Run<'_>, shape: &Shape<'_>) -> Swinging {
    let model = run.model;
    let view = view::main(model);
    let sheet = Sheet::fit(model, view, Shown::Frame, (WIDTH, 340.0), 44.0);
    let drawing = sheet.height.max(130.0);
    let pieces = bent_pieces(shape.fine, shape.joints);
    let enlarged = enlargement(model, &pieces, shape.bodies);
    let mut svg = Svg::new(WIDTH, drawing + STRIP, "frame", &shape.label);

    let rest = deformed::straight(model, &sheet);
    svg.open("fill=\"none\"");
    svg.path(&rest, &format!("stroke=\"{}\" stroke-width=\".8\"", ink::GREY));
    let marked = |tube: TubeId| shape.marked.contains(&tube);
    let frame = |times: f64| tubes(&pieces, &sheet, times * enlarged, |tube| !marked(tube));
    let bowed = |times: f64| tubes(&pieces, &sheet, times * enlarged, marked);
    let carried = |times: f64| bodies(model, shape, &sheet, times * enlarged);
    let ways: [(&str, [Path; 2], String); 3] = [
        ("f", [1.0, -1.0].map(frame), format!("stroke=\"{}\" stroke-width=\"1.2\"", ink::INK)),
        ("t", [1.0, -1.0].map(bowed), format!("stroke=\"{}\" stroke-width=\"1.8\"", ink::RED)),
        (
            "b",
            [1.0, -1.0].map(carried),
            format!("stroke=\"{}\" stroke-width=\"1.1\" stroke-dasharray=\"6 2\"", ink::BODY),
        ),
    ];
    let mut rules = String::new();
    for (part, [one, other], look) in &ways {
        let name = format!("{}-{part}", shape.id);
        svg.path(one, &format!("class=\"swing {name}\" {look}"));
        if !other.is_empty() {
            rules.push_str(&format!(
                ".{name}{{animation-name:{name}}}@keyframes {name}{{to{{d:path(\"{}\")}}}}\n",
                other.text()
            ));
        }
    }
    svg.close();
    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, WIDTH - 26.0, drawing + 22.0);
    let red = if shape.marked.is_empty() { "" } else { "; red: the tubes that bow most" };
    let broken = if model.bodies().is_empty() { "" } else { "; broken lines: bodies" };
    Swinging {
        id: shape.id.clone(),
        svg: svg.finish(),
        rules,
        label: shape.label.clone(),
        caption: format!(
            "{}. The size of the movement means nothing; grey: the frame at rest{red}{broken}.",
            shape.label
        ),
    }
}

/// What the movement is multiplied by.
fn enlargement(model: &Model, pieces: &[BentPiece], bodies: &[[f64; 6]]) -> f64 {
    let size = |three: &[f64]| three.iter().map(|value| value * value).sum::<f64>().sqrt();
    let ends = pieces.iter().flat_map(|piece| piece.moved).map(|moved| size(&moved));
    let largest = ends.chain(bodies.iter().map(|moved| size(&moved[..3]))).fold(0.0, f64::max);
    if largest > 0.0 { SHOWN_SHARE * frame_size(model) / largest } else { 0.0 }
}

/// The bent tubes that are wanted. Bent to either side the path has the same parts, so that a page can go from one to the other.
fn tubes(pieces: &[BentPiece], sheet: &Sheet, times: f64, wanted: impl Fn(TubeId) -> bool) -> Path {
    let mut path = Path::new();
    for tube in pieces.chunk_by(|a, b| a.tube == b.tube).filter(|tube| wanted(tube[0].tube)) {
        let whole = whole(tube);
        let one = [whole];
        let drawn = if misses(tube, &whole) * sheet.scale * times.abs() <= CLOSE { &one[..] } else { tube };
        for (place, piece) in drawn.iter().enumerate() {
            let [start, near, far, end] = corners(piece, times).map(|corner| sheet.at(corner));
            if place == 0 {
                path.start(start);
            }
            path.curve(near, far, end);
        }
    }
    path
}

/// A tube as one piece.
fn whole(tube: &[BentPiece]) -> BentPiece {
    let (first, last) = (tube[0], tube[tube.len() - 1]);
    // A slope is for the length of its piece.
    let stretched = |piece: BentPiece, end: usize| {
        let share = piece.along[1] - piece.along[0];
        piece.slopes[end].map(|value| value / share)
    };
    BentPiece {
        tube: first.tube,
        along: [first.along[0], last.along[1]],
        ends: [first.ends[0], last.ends[1]],
        moved: [first.moved[0], last.moved[1]],
        slopes: [stretched(first, 0), stretched(last, 1)],
    }
}

/// The movement at a place of a piece, 0 to 1 along it, in the measure of the shape.
pub(crate) fn curve_at(piece: &BentPiece, s: f64) -> [f64; 3] {
    let [h1, h3] = [1.0 - 3.0 * s * s + 2.0 * s * s * s, 3.0 * s * s - 2.0 * s * s * s];
    let [h2, h4] = [s - 2.0 * s * s + s * s * s, s * s * s - s * s];
    std::array::from_fn(|axis| {
        h1 * piece.moved[0][axis] + h2 * piece.slopes[0][axis] + h3 * piece.moved[1][axis] + h4 * piece.slopes[1][axis]
    })
}

/// By how much one curve misses the joints between the pieces, in the measure of the shape.
fn misses(tube: &[BentPiece], whole: &BentPiece) -> f64 {
    let inner = tube.iter().skip(1);
    inner
        .map(|piece| {
            let at = curve_at(whole, piece.along[0]);
            (0..3).map(|axis| (at[axis] - piece.moved[0][axis]).powi(2)).sum::<f64>().sqrt()
        })
        .fold(0.0, f64::max)
}

/// The four corners of a cubic curve from its ends and how it leaves them: exact.
fn corners(piece: &BentPiece, times: f64) -> [[f64; 3]; 4] {
    let at = |end: usize, axis: usize| piece.ends[end][axis] + times * piece.moved[end][axis];
    let leaves =
        |end: usize, axis: usize| (piece.ends[1][axis] - piece.ends[0][axis] + times * piece.slopes[end][axis]) / 3.0;
    [
        std::array::from_fn(|axis| at(0, axis)),
        std::array::from_fn(|axis| at(0, axis) + leaves(0, axis)),
        std::array::from_fn(|axis| at(1, axis) - leaves(1, axis)),
        std::array::from_fn(|axis| at(1, axis)),
    ]
}

/// From each body's moved reference point to its moved mounts.
fn bodies(model: &Model, shape: &Shape<'_>, sheet: &Sheet, times: f64) -> Path {
    let moved = |at: [f64; 3], movement: &[f64; 6]| [0, 1, 2].map(|axis| at[axis] + times * movement[axis]);
    let mut path = Path::new();
    for (body, movement) in model.bodies().iter().zip(shape.bodies) {
        for mount in &body.mounts {
            let joint = model.mounts()[*mount].joint;
            let (from, to) = (moved(body.at, movement), moved(model.joints()[joint].at, &shape.joints[joint]));
            let between = |share: f64| sheet.at([0, 1, 2].map(|axis| from[axis] + (to[axis] - from[axis]) * share));
            path.start(sheet.at(from));
            path.curve(between(1.0 / 3.0), between(2.0 / 3.0), sheet.at(to));
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use strutwork_model::ids::Id;

    use super::*;

    fn piece(moved: [f64; 2], slopes: [f64; 2], ends: [f64; 2]) -> BentPiece {
        BentPiece {
            tube: TubeId::new(0),
            along: ends,
            ends: ends.map(|x| [x, 0.0, 0.0]),
            moved: moved.map(|z| [0.0, 0.0, z]),
            slopes: slopes.map(|z| [0.0, 0.0, z]),
        }
    }

    /// z = s³, cut at a fifth: a slope is for the length of its piece.
    #[test]
    fn uneven_parts_of_a_cubic_are_one_curve() {
        let parts = [piece([0.0, 0.008], [0.0, 0.024], [0.0, 0.2]), piece([0.008, 1.0], [0.096, 2.4], [0.2, 1.0])];
        let whole = whole(&parts);
        assert!(misses(&parts, &whole) < 1e-15);
        assert!((whole.slopes[1][2] - 3.0).abs() < 1e-12, "{whole:?}");
    }

    /// z = s³ in two halves: one curve follows it exactly, and its corners are those of Bernstein's polynomials.
    #[test]
    fn halves_of_a_cubic_are_one_curve() {
        let halves = [piece([0.0, 0.125], [0.0, 0.375], [0.0, 0.5]), piece([0.125, 1.0], [0.375, 1.5], [0.5, 1.0])];
        let whole = whole(&halves);
        assert!(misses(&halves, &whole) < 1e-15);
        let z = corners(&whole, 1.0).map(|corner| corner[2]);
        assert!(z.iter().zip([0.0, 0.0, 0.0, 1.0]).all(|(a, b)| (a - b).abs() < 1e-15), "{z:?}");
        let bent = [halves[0], piece([0.125, 1.1], [0.375, 1.5], [0.5, 1.0])];
        assert!(misses(&bent, &super::whole(&bent)) > 0.01);
    }
}

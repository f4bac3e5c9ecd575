//! Plain names of natural modes, from their shapes.
//!
//! The movement of the joints is fitted with the shapes that a frame moves in as a whole. What fits none is local or mixed.

use nalgebra::{DMatrix, DVector};
use strutwork_model::ids::Id;
use strutwork_model::{BodyId, Model, Subdivided, TubeId};

use super::Mode;
use super::family::{Frame, Shape};

/// Frames of fewer tubes have no local modes: each tube is the frame.
const FEW: usize = 8;
/// Share of the greatest movement that joints keep below in a local mode.
const STILL: f64 = 0.35;
/// Share of the squared movement that a shape must follow to give its name.
const FOLLOWS: f64 = 0.5;
/// Share of what the first shape leaves over that a second must follow to be named too.
const WITH: f64 = 0.2;
/// Share of the strain energy in tubes below which a body moves on its bushes.
const IN_BUSHES: f64 = 0.3;
/// Tubes that are named; more are counted.
const NAMED: usize = 3;

/// What a natural mode looks like. All limits of this naming are common practice, no source.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum ModeName {
    /// The frame as a whole.
    Whole {
        /// Its shape.
        shape: Shape,
        /// 1 for the lowest mode of this shape.
        order: usize,
        /// A second shape in it.
        with: Option<Shape>,
    },
    /// Tubes bow between joints that stay nearly still, or little but they is strained: those with most strain energy, and
    /// how many more are needed for half of it.
    Local(Vec<TubeId>, usize),
    /// A body on its bushes.
    Body(BodyId),
    /// None of these.
    #[default]
    Mixed,
}

impl ModeName {
    /// In words.
    pub fn words(&self, model: &Model) -> String {
        match self {
            Self::Whole { shape, order, with } => {
                let with = with.map_or_else(String::new, |other| format!(", with {}", other.word()));
                format!("{} {}{with}", ordinal(*order), shape.word())
            }
            Self::Local(tubes, more) => {
                let names: Vec<&str> = tubes.iter().map(|tube| model.tubes()[*tube].name.as_str()).collect();
                let more = if *more > 0 { format!(" and {more} more") } else { String::new() };
                let word = if names.len() == 1 { "tube" } else { "tubes" };
                format!("local mode of {word} {}{more}", names.join(", "))
            }
            Self::Body(body) => format!("{} on its bushes", model.bodies()[*body].name),
            Self::Mixed => "mixed".to_owned(),
        }
    }
}

fn ordinal(order: usize) -> String {
    const WORDS: [&str; 6] = ["first", "second", "third", "fourth", "fifth", "sixth"];
    let ending = match (order % 10, order % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    WORDS.get(order.wrapping_sub(1)).map_or_else(|| format!("{order}{ending}"), |word| (*word).to_owned())
}

/// Names all modes of a frame, lowest first; `free` where nothing holds it.
pub(super) fn name(model: &Model, fine: &Subdivided, free: bool, modes: &mut [Mode]) {
    let few = model.tubes().len() < FEW;
    let joints = model.joints().len();
    let seen = if few { fine.model.joints().len() } else { joints };
    let places: Vec<[f64; 3]> = fine.model.joints().iter().take(seen).map(|joint| joint.at).collect();
    let frame = Frame::of(&places);
    let families = frame.families(free);
    let mut counted: Vec<(Shape, usize)> = Vec::new();
    for mode in modes {
        let mut name = shape_of(model, mode, &frame, &families, few, joints);
        if let ModeName::Whole { shape, order, .. } = &mut name {
            *order = match counted.iter_mut().find(|(known, _)| known == shape) {
                Some((_, count)) => {
                    *count += 1;
                    *count
                }
                None => {
                    counted.push((*shape, 1));
                    1
                }
            };
        }
        mode.name = name;
    }
}

fn shape_of(
    model: &Model,
    mode: &Mode,
    frame: &Frame,
    families: &[(Shape, DMatrix<f64>)],
    few: bool,
    joints: usize,
) -> ModeName {
    if mode.energy.iter().sum::<f64>() < IN_BUSHES
        && let Some(body) = most_moved(&mode.bodies)
    {
        return ModeName::Body(BodyId::new(body));
    }
    let sizes: Vec<f64> = mode.joints.iter().map(|six| size(&six[..3])).collect();
    let greatest = |sizes: &[f64]| sizes.iter().copied().fold(0.0, f64::max);
    if !few && greatest(&sizes[..joints]) < STILL * greatest(&sizes) {
        return local(mode);
    }
    if frame.only_turns(mode) {
        return ModeName::Whole { shape: Shape::Torsion, order: 1, with: None };
    }
    let moved =
        DVector::from_iterator(frame.len(), mode.joints.iter().take(frame.len() / 3).flat_map(|six| six[..3].to_vec()));
    let whole = moved.norm_squared();
    let (shape, share, rest) = best(families, &moved, whole);
    let (second, more, _) = best(families, &rest, whole);
    if share + more < FOLLOWS {
        return if !few && halves(mode).len() * FEW <= model.tubes().len() { local(mode) } else { ModeName::Mixed };
    }
    ModeName::Whole { shape, order: 1, with: (more > WITH && second != shape).then_some(second) }
}

/// The shape that follows a movement best, the share of `whole` that it follows, and what it leaves over.
fn best(families: &[(Shape, DMatrix<f64>)], moved: &DVector<f64>, whole: f64) -> (Shape, f64, DVector<f64>) {
    let mut best = (Shape::Torsion, -1.0, moved.clone());
    for (shape, basis) in families {
        let followed = basis * basis.tr_mul(moved);
        let share = followed.norm_squared() / whole;
        // A shape that follows as well as one before it is no better.
        if share > best.1 * 1.02 + 1e-9 {
            best = (*shape, share, moved - followed);
        }
    }
    best
}

/// The tubes that hold half of the strain energy, most first.
fn halves(mode: &Mode) -> Vec<TubeId> {
    let mut tubes: Vec<(TubeId, f64)> = mode.energy.iter_with_id().map(|(tube, share)| (tube, *share)).collect();
    tubes.sort_by(|a, b| b.1.total_cmp(&a.1));
    let half = tubes.iter().map(|(_, share)| share).sum::<f64>() / 2.0;
    let mut held = 0.0;
    let needed = tubes.iter().take_while(|(_, share)| {
        let wanted = held < half;
        held += share;
        wanted
    });
    needed.map(|(tube, _)| *tube).collect()
}

fn local(mode: &Mode) -> ModeName {
    let mut tubes = halves(mode);
    let more = tubes.len().saturating_sub(NAMED);
    tubes.truncate(NAMED);
    ModeName::Local(tubes, more)
}

fn most_moved(bodies: &[[f64; 6]]) -> Option<usize> {
    let sizes = bodies.iter().map(|six| size(&six[..3])).enumerate();
    sizes.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(body, _)| body)
}

fn size(three: &[f64]) -> f64 {
    three.iter().map(|value| value * value).sum::<f64>().sqrt()
}

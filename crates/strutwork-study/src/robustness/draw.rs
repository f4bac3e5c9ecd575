//! Frames drawn by lot.

use strutwork_model::Model;
use strutwork_model::ids::Id;
use strutwork_model::model::{Section, Shape};
use strutwork_model::spec::ModelSpec;
use strutwork_model::units::{MM, to_mm};

use super::stock::{Piece, changed, pieces};
use super::{BandTask, Spread, Tolerances};
use crate::random::Random;
use crate::sizing::entry;

/// Draws of one piece before the nearest to the mass tolerance is taken.
const DRAWS: usize = 10_000;
/// EN 10219-2 begins here.
const THINNEST: f64 = 2.0 * MM;

/// What is drawn, and what a reader must know of it.
pub(super) struct Drawer {
    pub pieces: Vec<Piece>,
    pub remarks: Vec<String>,
}

impl Drawer {
    pub(super) fn of(task: &BandTask<'_>, model: &Model) -> Self {
        let (pieces, fixed) = pieces(model, task.tolerances.sharing);
        let mut remarks = Vec::new();
        if !fixed.is_empty() {
            remarks.push(format!("Sections without a wall do not vary: {}.", fixed.join(", ")));
        }
        let thin = |piece: &&Piece| piece.section.thickness().is_some_and(|wall| wall < THINNEST - 1e-9);
        let mut names: Vec<&str> = pieces.iter().filter(thin).map(|piece| piece.section.name.as_str()).collect();
        names.dedup();
        names.sort_unstable();
        names.dedup();
        if !names.is_empty() {
            remarks.push(format!(
                "EN 10219-2 begins at a wall of 2 mm: for {} its tolerances are used outside its scope.",
                names.join(", ")
            ));
        }
        Self { pieces, remarks }
    }

    /// The frame of a number.
    pub(super) fn draw(&self, task: &BandTask<'_>, number: usize) -> ModelSpec {
        let mut random = Random::of_sample(task.seed, number as u64);
        let mut spec = task.spec.clone();
        for (place, piece) in self.pieces.iter().enumerate() {
            let name = format!("drawn {place}");
            spec.sections.push(entry(&name, &one(&piece.section, &task.tolerances, &mut random)));
            for tube in &piece.tubes {
                spec.tubes[tube.index()].section = name.as_str().into();
            }
        }
        if task.tolerances.joints > 0.0 {
            let by = to_mm(task.tolerances.joints);
            for joint in &mut spec.joints {
                for coordinate in [&mut joint.x_mm, &mut joint.y_mm, &mut joint.z_mm] {
                    coordinate.value += by * off(task.tolerances.spread, &mut random);
                }
            }
        }
        spec
    }
}

/// A piece of stock.
fn one(section: &Section, tolerances: &Tolerances, random: &mut Random) -> Section {
    let mut nearest: Option<(f64, Section)> = None;
    for _ in 0..DRAWS {
        let wall = tolerances.wall * off(tolerances.spread, random);
        let sides = outsides(section, tolerances).map(|tolerance| tolerance * off(tolerances.spread, random));
        let Some(drawn) = changed(section, wall, sides) else { continue };
        let heavier = (drawn.area / section.area - 1.0).abs();
        if tolerances.mass.is_none_or(|mass| heavier <= mass) {
            return drawn;
        }
        if nearest.as_ref().is_none_or(|(known, _)| heavier < *known) {
            nearest = Some((heavier, drawn));
        }
    }
    nearest.map_or_else(|| section.clone(), |(_, drawn)| drawn)
}

/// Tolerance of height and width, or of the diameter, m either way.
pub(super) fn outsides(section: &Section, tolerances: &Tolerances) -> [f64; 2] {
    match section.shape {
        Shape::Hollow { height, width, .. } => [height, width].map(|size| tolerances.outside.of(size, false)),
        Shape::Round { diameter, .. } => [tolerances.outside.of(diameter, true), 0.0],
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => [0.0; 2],
    }
}

/// A value within ± 1.
fn off(spread: Spread, random: &mut Random) -> f64 {
    match spread {
        Spread::Even => 2.0 * random.share() - 1.0,
        Spread::Bell => loop {
            // Two numbers drawn evenly make one of a normal distribution (Box and Muller 1958, from memory).
            let (a, b) = (1.0 - random.share(), random.share());
            let value = 0.5 * (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos();
            if value.abs() <= 1.0 {
                break value;
            }
        },
    }
}

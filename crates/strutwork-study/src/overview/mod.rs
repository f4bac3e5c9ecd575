//! What a page tells of a study, gathered while its variants pass by: as much for a million of them as for a thousand.
//!
//! ```text
//! Row ──add──▶ Tally, Front, Cloud, Spread, Effects, Chosen
//! ```
//!
//! What is kept depends on the rows and their order alone, which is that of the variants.

mod axes;
mod bins;
mod chosen;
mod cloud;
mod effects;
mod front;
mod parts;
mod spread;
mod sums;

pub use axes::{Better, Plane};
pub use bins::Bins;
pub use chosen::{BEST, Best, Chosen};
pub use cloud::{Cloud, Density, Point};
pub use effects::{Effects, Estimate, Pair};
pub use front::{Front, FrontMember};
pub use parts::Parts;
pub use spread::Spread;
pub use sums::Sums;

use crate::outcome::{Row, Status};
use crate::study::Study;
use crate::tally::Tally;

/// What a page tells of a study.
#[derive(Debug, Clone)]
pub struct Overview {
    /// Counts and extremes.
    pub tally: Tally,
    /// The two responses that are drawn against each other; `None` where no two pull against each other.
    pub plane: Option<Plane>,
    /// Variants that no other beats in both, of those that keep every constraint.
    pub front: Front,
    /// Where all solved variants lie.
    pub cloud: Cloud,
    /// How each response is spread, in the order of the responses.
    pub spreads: Vec<Spread>,
    /// What parameters do to the responses that are looked at.
    pub effects: Vec<Effects>,
    /// Variants that are shown one by one.
    pub chosen: Chosen,
}

impl Overview {
    /// Nothing seen yet.
    pub fn new(study: &Study) -> Self {
        Self {
            tally: Tally::new(study.responses.len()),
            plane: Plane::of(study),
            front: Front::default(),
            cloud: Cloud::default(),
            spreads: study.responses.iter().map(|_| Spread::default()).collect(),
            effects: effects::looked_at(study).into_iter().map(|place| Effects::new(study, place)).collect(),
            chosen: Chosen::new(study),
        }
    }

    /// Takes a variant in; they come in their order.
    pub fn add(&mut self, row: &Row) {
        self.tally.add(row);
        self.chosen.add(row);
        for effects in &mut self.effects {
            effects.add(row);
        }
        if row.outcome.status != Status::Solved {
            return;
        }
        for (spread, value) in self.spreads.iter_mut().zip(&row.outcome.responses) {
            if let Some(value) = value {
                spread.add(*value);
            }
        }
        if let Some((x, y)) = self.plane.as_ref().and_then(|plane| plane.at(row)) {
            let keeps = row.outcome.feasible != Some(false);
            self.cloud.add(Point { variant: row.variant, x, y, keeps });
            if keeps {
                self.front.add(x, y, row);
            }
        }
    }

    /// The variants that are shown one by one, by their numbers: all of them where there are few, else the first, the best of
    /// each response and the front.
    pub fn shown(&self) -> Vec<&Row> {
        let mut rows: Vec<&Row> =
            self.chosen.rows().chain(self.front.members.iter().map(|member| &member.row)).collect();
        rows.sort_by_key(|row| row.variant);
        rows.dedup_by_key(|row| row.variant);
        rows
    }
}

//! What came out of a study, counted while the variants pass by.

use std::collections::BTreeMap;

use crate::outcome::{Row, Status, Way};

/// The least and the greatest value of a response over solved variants, with the variant of each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extremes {
    /// Value and variant.
    pub least: (f64, u64),
    /// Value and variant.
    pub greatest: (f64, u64),
}

/// Counts and extremes of the variants seen so far; of equals the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// Variants seen.
    pub variants: u64,
    /// How many ended how, in the order of [`Status::ALL`].
    pub ended: [u64; Status::ALL.len()],
    /// How many keep every constraint.
    pub feasible: u64,
    /// For each response.
    pub extremes: Vec<Option<Extremes>>,
    /// The same over the variants that keep every constraint.
    pub of_feasible: Vec<Option<Extremes>>,
    /// How many went which way, of those that any went, in the order of [`Way`].
    pub ways: BTreeMap<Way, u64>,
    /// The first note of each kind of trouble, with its variant.
    pub notes: Vec<(Status, u64, String)>,
}

impl Tally {
    /// Nothing seen yet, of a study with so many responses.
    pub fn new(responses: usize) -> Self {
        Self {
            variants: 0,
            ended: [0; Status::ALL.len()],
            feasible: 0,
            extremes: vec![None; responses],
            of_feasible: vec![None; responses],
            ways: BTreeMap::new(),
            notes: Vec::new(),
        }
    }

    /// How many ended so.
    pub fn count(&self, status: Status) -> u64 {
        Status::ALL.iter().position(|known| *known == status).map_or(0, |place| self.ended[place])
    }

    /// Counts a variant.
    pub fn add(&mut self, row: &Row) {
        let outcome = &row.outcome;
        self.variants += 1;
        *self.ways.entry(outcome.way).or_insert(0) += 1;
        if let Some(place) = Status::ALL.iter().position(|known| *known == outcome.status) {
            self.ended[place] += 1;
        }
        if outcome.status != Status::Solved && self.notes.iter().all(|(status, ..)| *status != outcome.status) {
            self.notes.push((outcome.status, row.variant, outcome.note.clone()));
        }
        let feasible = outcome.feasible == Some(true);
        self.feasible += u64::from(feasible);
        for (place, response) in outcome.responses.iter().enumerate() {
            let Some(value) = *response else { continue };
            widen(&mut self.extremes[place], value, row.variant);
            if feasible {
                widen(&mut self.of_feasible[place], value, row.variant);
            }
        }
    }
}

fn widen(extremes: &mut Option<Extremes>, value: f64, variant: u64) {
    let known = extremes.get_or_insert(Extremes { least: (value, variant), greatest: (value, variant) });
    if value < known.least.0 {
        known.least = (value, variant);
    }
    if value > known.greatest.0 {
        known.greatest = (value, variant);
    }
}

//! Variants that are shown one by one.

use super::axes::Better;
use crate::outcome::{Row, Status};
use crate::study::Study;

/// The best of a response that are kept.
pub const BEST: usize = 10;
/// All variants are kept while they are no more than this, and have no more values than that.
const ROWS: usize = 3000;
const VALUES: usize = 36_000;

/// The best variants by one response, the best first; those that keep every constraint before the others, of equals the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Best {
    /// The place of the response.
    pub response: usize,
    /// Which values are better.
    pub better: Better,
    /// At most [`BEST`].
    pub rows: Vec<Row>,
}

/// Variants that are shown one by one.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen {
    few: usize,
    all: Vec<Row>,
    first: Option<Row>,
    /// Whether every variant seen so far is among them.
    pub complete: bool,
    /// The best by each response that has a better side.
    pub best: Vec<Best>,
}

impl Chosen {
    pub(super) fn new(study: &Study) -> Self {
        let columns = study.parameters.len() + study.responses.len() + 3;
        let best = (0..study.responses.len())
            .filter_map(|response| Some(Best { response, better: study.better(response)?, rows: Vec::new() }));
        let few = ROWS.min(VALUES / columns).max(1);
        Self { few, all: Vec::new(), first: None, complete: true, best: best.collect() }
    }

    pub(super) fn add(&mut self, row: &Row) {
        self.first.get_or_insert_with(|| row.clone());
        if self.complete {
            self.all.push(row.clone());
            if self.all.len() > self.few {
                (self.all, self.complete) = (Vec::new(), false);
            }
        }
        if row.outcome.status == Status::Solved {
            self.best.iter_mut().for_each(|best| best.add(row));
        }
    }

    /// All of them, or the first and the best; some may stand twice.
    pub(super) fn rows(&self) -> impl Iterator<Item = &Row> {
        let best = self.best.iter().flat_map(|best| &best.rows).chain(&self.first);
        self.all.iter().chain(best.filter(|_| !self.complete))
    }
}

impl Best {
    /// How a variant ranks: the less the better.
    fn rank(&self, row: &Row) -> Option<(bool, f64)> {
        let value = row.outcome.responses.get(self.response).copied().flatten()?;
        let rank = if self.better == Better::Less { value } else { -value };
        Some((row.outcome.feasible == Some(false), rank))
    }

    fn add(&mut self, row: &Row) {
        let Some(rank) = self.rank(row) else { return };
        let before = |known: &Row| {
            let known = self.rank(known).unwrap_or((true, f64::INFINITY));
            known.0.cmp(&rank.0).then(known.1.total_cmp(&rank.1)).is_le()
        };
        let place = self.rows.partition_point(before);
        if place < BEST {
            self.rows.insert(place, row.clone());
            self.rows.truncate(BEST);
        }
    }
}

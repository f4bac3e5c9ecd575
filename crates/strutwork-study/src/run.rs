//! Many variants side by side, handed over in their order.

use std::ops::Range;

use rayon::ThreadPool;

use crate::evaluate::Evaluate;
use crate::outcome::Row;
use crate::study::Study;

/// What whoever keeps the rows says after a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// Go on, with at most so many variants in the next batch.
    Next(u64),
    /// Stop here.
    Stop,
}

/// How far a run came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Paused {
    /// The first variant that was not evaluated; the end of the range where all were.
    pub next: u64,
}

/// Evaluates the variants of a range, a batch at a time, on the threads of a pool.
///
/// # Signs and order
/// `keep` gets each batch whole, the variants in their order, whatever the number of threads: what it makes of them has the
/// same bytes on every machine.
///
/// # Errors
/// What `keep` says: the run ends there.
pub fn run<E>(
    study: &Study,
    evaluator: &dyn Evaluate,
    range: Range<u64>,
    pool: &ThreadPool,
    first: u64,
    mut keep: impl FnMut(Vec<Row>) -> Result<Pace, E>,
) -> Result<Paused, E> {
    let mut next = range.start;
    let mut size = first.max(1);
    while next < range.end {
        let end = next.saturating_add(size).min(range.end);
        let rows = pool.install(|| evaluator.evaluate(study, next..end));
        next = end;
        match keep(rows)? {
            Pace::Next(more) => size = more.max(1),
            Pace::Stop => break,
        }
    }
    Ok(Paused { next })
}

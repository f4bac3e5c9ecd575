//! Memory that is used again.

use std::sync::{Mutex, MutexGuard, PoisonError};

/// What factors that are gone, and walks over their fronts, leave for those to come: memory that the system need not hand
/// out, page by page, again.
#[derive(Debug, Default)]
pub(super) struct Pool {
    factors: Mutex<Vec<Vec<f64>>>,
    spares: Mutex<Vec<Spare>>,
}

impl Pool {
    /// `len` values, whatever they are.
    pub(super) fn take(&self, len: usize) -> Vec<f64> {
        let kept = locked(&self.factors).pop();
        kept.filter(|values| values.len() == len).unwrap_or_else(|| vec![0.0; len])
    }

    /// Keeps values for later.
    pub(super) fn give(&self, values: Vec<f64>) {
        locked(&self.factors).push(values);
    }

    /// Buffers for a walk over fronts; there are never more of them than walks at one time.
    pub(super) fn take_spare(&self) -> Spare {
        locked(&self.spares).pop().unwrap_or_default()
    }

    /// Keeps the buffers of a walk.
    pub(super) fn give_spare(&self, spare: Spare) {
        locked(&self.spares).push(spare);
    }
}

fn locked<T>(kept: &Mutex<T>) -> MutexGuard<'_, T> {
    kept.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Buffers of a walk over fronts; one that fits is taken again, the smallest of them.
#[derive(Debug, Default)]
pub(super) struct Spare(Vec<Vec<f64>>);

impl Spare {
    /// A buffer of at least `len` values, whatever they are.
    pub(super) fn take(&mut self, len: usize) -> Vec<f64> {
        let fitting = self.0.iter().enumerate().filter(|(_, buffer)| buffer.len() >= len);
        match fitting.min_by_key(|(_, buffer)| buffer.len()).map(|(place, _)| place) {
            Some(place) => self.0.swap_remove(place),
            None => vec![0.0; len],
        }
    }

    /// Keeps buffers for later, the largest few of those at hand: a long row of fronts would otherwise hoard memory. Very
    /// large ones go back to the system: beside what a front of that size takes, new memory costs little.
    pub(super) fn give(&mut self, buffers: impl IntoIterator<Item = Vec<f64>>) {
        /// As many as the children of one front mostly are, and their parents' own.
        const KEPT: usize = 4;
        /// Values of the largest buffer that is kept.
        const LARGEST: usize = 1 << 22;
        self.0.extend(buffers.into_iter().filter(|buffer| buffer.len() <= LARGEST));
        self.0.sort_by_key(|buffer| std::cmp::Reverse(buffer.len()));
        self.0.truncate(KEPT);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_memory_comes_back() {
        let pool = Pool::default();
        let values = pool.take(100);
        let place = values.as_ptr();
        pool.give(values);
        let again = pool.take(100);
        assert_eq!(again.as_ptr(), place);
        assert_eq!(pool.take(100), [0.0; 100]);
    }

    #[test]
    fn a_later_walk_has_the_buffers_of_an_earlier_one() {
        let pool = Pool::default();
        let mut spare = pool.take_spare();
        let buffer = spare.take(100);
        let place = buffer.as_ptr();
        spare.give([buffer]);
        pool.give_spare(spare);
        let again = pool.take_spare().take(100);
        assert_eq!(again.as_ptr(), place);
    }

    #[test]
    fn the_largest_few_are_kept_and_the_smallest_that_fits_is_taken() {
        let mut spare = Spare::default();
        spare.give([64, 16, 32, 8, 4, 2].map(|len| vec![0.0; len]));
        assert_eq!([10, 10, 1, 1].map(|len| spare.take(len).len()), [16, 32, 8, 64], "four are kept, the largest");
        assert_eq!(spare.take(100).len(), 100, "a new one");
        spare.give([vec![0.0; 2 << 22]]);
        assert_eq!(spare.take(100).len(), 100, "a very large one is not kept");
    }
}

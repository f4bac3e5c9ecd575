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

/// Buffers of a walk over fronts. They are handed out in few sizes, so that what one front leaves fits the next.
#[derive(Debug, Default)]
pub(super) struct Spare {
    buffers: Vec<Vec<f64>>,
    /// Values of all buffers.
    held: usize,
}

impl Spare {
    /// A buffer of at least `len` values, whatever they are, and at most twice as many.
    pub(super) fn take(&mut self, len: usize) -> Vec<f64> {
        let size = Self::size(len);
        match self.buffers.iter().rposition(|buffer| buffer.len() == size) {
            Some(place) => {
                self.held -= size;
                self.buffers.swap_remove(place)
            }
            None => vec![0.0; size],
        }
    }

    /// Keeps buffers for later, as long as all of them together stay small beside the factor of a large frame; those beyond
    /// go back to the system.
    pub(super) fn give(&mut self, buffers: impl IntoIterator<Item = Vec<f64>>) {
        for buffer in buffers {
            if self.held + buffer.len() <= Self::HELD {
                self.held += buffer.len();
                self.buffers.push(buffer);
            }
        }
    }

    /// Values that are kept at most: 64 MiB.
    const HELD: usize = 1 << 23;

    /// The size that holds `len` values: a power of two, or three quarters of one.
    fn size(len: usize) -> usize {
        let size = len.next_power_of_two();
        if len <= size / 4 * 3 { size / 4 * 3 } else { size }
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
    fn buffers_come_in_few_sizes_and_are_kept_up_to_a_bound() {
        let mut spare = Spare::default();
        assert_eq!([0, 1, 2, 5, 9, 13, 100].map(|len| spare.take(len).len()), [0, 1, 2, 6, 12, 16, 128]);
        let buffer = spare.take(100);
        let place = buffer.as_ptr();
        spare.give([vec![0.0; 1024], buffer, vec![0.0; 96]]);
        let again = spare.take(110);
        assert_eq!(again.as_ptr(), place, "neither the larger one nor the smaller");
        assert_eq!(spare.held, 1024 + 96);
        spare.give([vec![0.0; Spare::HELD]]);
        assert_eq!(spare.held, 1024 + 96, "no room for that");
    }
}

//! Variants on all threads.

use std::fmt;
use std::ops::Deref;
use std::sync::{Mutex, MutexGuard, PoisonError};

use rayon::prelude::*;

use super::family::Family;
use super::moved::Outcome;
use super::variant::Variant;
use super::worker::{Work, Worker, Workspace};

/// Variants that a worker takes at a time: a multiple of the lanes of every processor, and the same everywhere, so that the
/// work counted is the same on any number of threads.
const BLOCK: usize = 64;

/// The workers of a family, for any number of threads: there are never more of them than are at work at one time, and their
/// memory is used again.
pub struct Workers<F> {
    family: F,
    /// Memory of those that are not at work.
    idle: Mutex<Vec<Workspace>>,
}

impl<F> fmt::Debug for Workers<F> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Workers").finish_non_exhaustive()
    }
}

impl<F: Deref<Target = Family>> Workers<F> {
    /// Of a family, as it is now: what it keeps for updates must not change afterwards.
    pub fn of(family: F) -> Self {
        Self { family, idle: Mutex::default() }
    }

    /// Does something with a worker.
    pub fn with<T>(&self, work: impl FnOnce(&mut Worker<'_>) -> T) -> T {
        let idle = self.spaces().pop();
        let space = idle.unwrap_or_else(|| Workspace::of(&self.family));
        let mut worker = Worker { family: &self.family, space };
        let done = work(&mut worker);
        self.spaces().push(worker.space);
        done
    }

    /// How they solved variants so far, while none of them is at work.
    pub fn work(&self) -> Work {
        let mut sum = Work::default();
        self.spaces().iter().for_each(|space| sum += space.work);
        sum
    }

    fn spaces(&self) -> MutexGuard<'_, Vec<Workspace>> {
        self.idle.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Family {
    /// Solves variants on as many threads as rayon has, and reads something off each: in the order of the variants, the same
    /// bits on any number of threads. With it the work that was done.
    ///
    /// Memory is taken for each thread and for what is read off, not for the variants' solutions.
    pub fn solve_all<T: Send>(
        &self,
        variants: &[Variant],
        read: impl Fn(usize, Outcome<'_>) -> T + Sync,
    ) -> (Vec<T>, Work) {
        let workers = Workers::of(self);
        let block = |(number, chunk): (usize, &[Variant])| {
            let mut found: Vec<Option<T>> = chunk.iter().map(|_| None).collect();
            workers.with(|worker| {
                worker.solve(chunk, |place, outcome| found[place] = Some(read(number * BLOCK + place, outcome)));
            });
            found
        };
        let blocks: Vec<Vec<Option<T>>> = variants.par_chunks(BLOCK).enumerate().map(block).collect();
        (blocks.into_iter().flatten().flatten().collect(), workers.work())
    }
}

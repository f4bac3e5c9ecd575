//! Variants on all threads.

use std::sync::{Mutex, PoisonError};

use rayon::prelude::*;

use super::family::Family;
use super::moved::Outcome;
use super::variant::Variant;
use super::worker::{Work, Worker};

/// Variants that a worker takes at a time: a multiple of the lanes of every processor, and the same everywhere, so that the
/// work counted is the same on any number of threads.
const BLOCK: usize = 64;

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
        let idle: Mutex<Vec<Worker<'_>>> = Mutex::new(Vec::new());
        let workers = || idle.lock().unwrap_or_else(PoisonError::into_inner);
        let block = |(number, chunk): (usize, &[Variant])| {
            let taken = workers().pop();
            let mut worker = taken.unwrap_or_else(|| self.worker());
            let mut found: Vec<Option<T>> = chunk.iter().map(|_| None).collect();
            worker.solve(chunk, |place, outcome| found[place] = Some(read(number * BLOCK + place, outcome)));
            workers().push(worker);
            found
        };
        let blocks: Vec<Vec<Option<T>>> = variants.par_chunks(BLOCK).enumerate().map(block).collect();
        let mut work = Work::default();
        for worker in workers().iter() {
            work += worker.work();
        }
        (blocks.into_iter().flatten().flatten().collect(), work)
    }
}

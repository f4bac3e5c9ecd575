//! A study that is ready to run, and how a host runs it.

use strutwork_study::{CaseSource, Evaluate, Pace, Row, Study, run};

use crate::host::HostError;

/// Stack of a thread that evaluates variants, bytes: scripts run on it. Only what is used of it is taken from the system.
const STACK_BYTES: usize = 256 << 20;

/// Variants of the first batch, for each thread.
const FIRST_BATCH: u64 = 4;

/// Variants of all others, where nobody waits for them.
const BATCH: u64 = 4096;

/// A study that is ready to run.
pub struct StudyJob<'a> {
    /// What is varied and asked.
    pub study: &'a Study,
    /// What evaluates a variant.
    pub evaluator: &'a dyn Evaluate,
    /// Where load cases come from: also those of the model as it is.
    pub cases: &'a dyn CaseSource,
    /// Digest of everything that decides on the results.
    pub identity: String,
}

/// How the run of a study ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StudyEnd {
    /// Every variant is finished.
    Finished,
    /// This part of the study is finished, or somebody stopped it: what follows in a script must wait for the rest.
    Partly,
}

impl StudyJob<'_> {
    /// The threads that evaluate its variants: so many, or with 0 as many as there are cores (or `RAYON_NUM_THREADS` says).
    ///
    /// # Errors
    /// [`HostError`] where the system starts no threads.
    pub fn threads(count: usize) -> Result<rayon::ThreadPool, HostError> {
        rayon::ThreadPoolBuilder::new().num_threads(count).stack_size(STACK_BYTES).build().map_err(|cause| HostError {
            path: "study".to_owned(),
            reason: format!("no threads can be started: {cause}"),
            environment: true,
        })
    }

    /// How many variants the first batch has.
    pub fn first_batch(pool: &rayon::ThreadPool) -> u64 {
        FIRST_BATCH * pool.current_num_threads() as u64
    }
}

/// Runs all variants and hands them over in order; nothing is kept.
///
/// # Errors
/// [`HostError`] where the system starts no threads, or the study has no variants that can be counted.
pub fn run_in_memory(job: &StudyJob<'_>, take: &mut dyn FnMut(&Row)) -> Result<StudyEnd, HostError> {
    let wrong = |reason: String| HostError { path: job.study.name.clone(), reason, environment: false };
    let count = job.study.count().map_err(|fault| wrong(fault.to_string()))?;
    let pool = StudyJob::threads(0)?;
    let first = StudyJob::first_batch(&pool);
    run(job.study, job.evaluator, 0..count, &pool, first, |rows| {
        rows.iter().for_each(&mut *take);
        Ok::<_, HostError>(Pace::Next(BATCH))
    })?;
    Ok(StudyEnd::Finished)
}

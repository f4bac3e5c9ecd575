//! Studies: the load cases of variants, and the host's part in a run.

mod cases;
mod job;

pub use cases::VariantCases;
pub(crate) use cases::trouble;
pub use job::{StudyEnd, StudyJob, run_in_memory};

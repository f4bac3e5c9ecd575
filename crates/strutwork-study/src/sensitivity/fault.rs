//! Why derivatives cannot be given.

use strutwork_loads::LoadError;
use strutwork_solve::SolveError;

/// Why derivatives cannot be given.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SensitivityFault {
    /// There is no case at this place.
    #[error("there is no load case number {case}")]
    NoCase {
        /// Counted from 0.
        case: usize,
    },
    /// The case does not measure twist.
    #[error("the load case `{case}` does not measure a twist: give it couples with twist_axles or measure_twist")]
    NoTwist {
        /// The case's name.
        case: String,
    },
    /// Derivatives of this response are not given here.
    #[error("outside scope: {what}")]
    Outside {
        /// What, and why.
        what: String,
    },
    /// The adjoint loads make no case.
    #[error("the loads that belong to a response make no case: {0}")]
    Loads(#[source] LoadError),
    /// The frame cannot be solved.
    #[error("the frame cannot be solved: {0}")]
    Solve(#[source] SolveError),
}

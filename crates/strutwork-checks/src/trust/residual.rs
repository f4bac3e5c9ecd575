//! T001: the equations are solved.

use strutwork_model::Code;

use super::CaseLimit;
use crate::{Finding, Judged};

/// A backward-stable solution leaves about 1e-16; this much means that something went wrong.
const LIMIT: f64 = 1e-10;

/// The relative residual of every case after refinement.
///
/// # Source
/// Normwise backward error, Higham (2002), Accuracy and Stability of Numerical Algorithms, 2nd ed., SIAM, sec. 7.1
/// (from memory). The limit is our own: far above rounding, far below what would show in a report.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    CaseLimit {
        code: Code("T001"),
        limit: LIMIT,
        clause: "backward error of the solution",
        value: |case| Some(case.trust.residual),
        told: |_, value, good| {
            let verdict = if good { "" } else { ": do not use this case" };
            format!("the equations are solved to a relative residual of {value:.1e}{verdict}")
        },
    }
    .check(judged)
}

//! T001: the equations are solved.

use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// A backward-stable solution leaves about 1e-16; this much means that something went wrong.
const LIMIT: f64 = 1e-10;

/// The relative residual of every case after refinement.
///
/// # Source
/// Normwise backward error, Higham (2002), Accuracy and Stability of Numerical Algorithms, 2nd ed., SIAM, sec. 7.1
/// (from memory). The limit is our own: far above rounding, far below what would show in a report.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let cases = judged.results.cases.iter();
    cases
        .map(|case| {
            let value = case.trust.residual;
            let good = value <= LIMIT;
            Finding {
                code: Code("T001"),
                severity: if good { Severity::Note } else { Severity::Error },
                case: case.name.clone(),
                subject: Subject::Frame,
                value,
                limit: Some(LIMIT),
                unit: "",
                utilisation: Some(value / LIMIT),
                clause: "backward error of the solution".to_owned(),
                message: if good {
                    format!("the equations are solved to a relative residual of {value:.1e}")
                } else {
                    format!("the equations are left with a relative residual of {value:.1e}: do not use this case")
                },
            }
        })
        .collect()
}

//! T002: what is applied and what the supports give are in balance.

use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// Share of all forces, or moments about the origin, that may be left unbalanced by rounding.
const LIMIT: f64 = 1e-8;

/// Applied loads and reactions about the origin, forces and moments; both are summed without the stiffness matrix.
///
/// # Source
/// Statics. The limit is our own.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let cases = judged.results.cases.iter();
    cases
        .map(|case| {
            let value = case.trust.imbalance;
            let good = value <= LIMIT;
            Finding {
                code: Code("T002"),
                severity: if good { Severity::Note } else { Severity::Error },
                case: case.name.clone(),
                subject: Subject::Frame,
                value,
                limit: Some(LIMIT),
                unit: "",
                utilisation: Some(value / LIMIT),
                clause: "equilibrium about the origin".to_owned(),
                message: if good {
                    format!("applied loads and reactions balance to {value:.1e} of all forces")
                } else {
                    format!("applied loads and reactions are out of balance by {value:.1e} of all forces: do not use this case")
                },
            }
        })
        .collect()
}

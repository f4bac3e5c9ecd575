//! T003: how many digits the stiffness leaves.

use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// Above this, fewer than about four digits are certain.
const LIMIT: f64 = 1e12;

/// The condition estimate of each factored system, scaled to a unit diagonal.
///
/// # Source
/// Rule of thumb digits ≈ 16 − log₁₀ κ, Higham (2002), sec. 1.6 (from memory). The limit is our own.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let systems = judged.results.systems.iter().enumerate();
    systems
        .filter(|(_, system)| system.equations > 0)
        .map(|(index, system)| {
            let first = judged.results.cases.iter().find(|case| case.system == index);
            let value = system.condition;
            let good = value <= LIMIT;
            let digits = (16.0 - value.log10()).floor().clamp(0.0, 16.0);
            Finding {
                entered: Vec::new(),
                code: Code("T003"),
                severity: if good { Severity::Note } else { Severity::Warning },
                case: first.map(|case| case.name.clone()).unwrap_or_default(),
                subject: Subject::Frame,
                value,
                limit: Some(LIMIT),
                unit: "",
                utilisation: None,
                clause: "condition number, estimated".to_owned(),
                message: format!(
                    "condition number about {value:.1e}: at least {digits} digits of the displacements can be relied on"
                ),
            }
        })
        .collect()
}

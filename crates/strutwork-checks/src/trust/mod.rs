//! Whether the numbers can be trusted.

use strutwork_model::{Code, Severity};
use strutwork_solve::results::CaseResult;

use crate::{Finding, Judged, Subject};

pub mod condition;
pub mod equilibrium;
pub mod left_out;
pub mod relief;
pub mod residual;
pub mod slender;
pub mod small_rotations;
pub mod wheels;

/// A ratio of each case that must stay below a limit for the case to be of use.
struct CaseLimit {
    code: Code,
    limit: f64,
    clause: &'static str,
    /// `None`: it does not apply to the case.
    value: fn(&CaseResult) -> Option<f64>,
    /// What is said of the value where it holds, and where it does not.
    told: fn(&CaseResult, f64, bool) -> String,
}

impl CaseLimit {
    fn check(&self, judged: Judged<'_>) -> Vec<Finding> {
        let cases = judged.results.cases.iter();
        cases
            .filter_map(|case| {
                let value = (self.value)(case)?;
                let good = value <= self.limit;
                Some(Finding {
                    entered: Vec::new(),
                    code: self.code,
                    severity: if good { Severity::Note } else { Severity::Error },
                    case: case.name.clone(),
                    subject: Subject::Frame,
                    value,
                    limit: Some(self.limit),
                    unit: "",
                    utilisation: Some(value / self.limit),
                    clause: self.clause.to_owned(),
                    message: (self.told)(case, value, good),
                })
            })
            .collect()
    }
}

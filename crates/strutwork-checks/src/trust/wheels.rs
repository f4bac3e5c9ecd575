//! T006: a wheel that would have to pull on the road.

use strutwork_loads::case::Nature;
use strutwork_model::model::Wheel;
use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// Negative vertical wheel forces in cases that claim to be physical.
///
/// # Source
/// Statics: a tyre cannot pull. Pure torsion, which needs a negative wheel reaction, is notional: Brown, Robertson &
/// Serpento (2002), Motor Vehicle Structures, p. 20, Fig. 2.11.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let cases = judged.cases.0.iter().filter(|case| case.nature == Nature::Physical);
    cases
        .flat_map(|case| {
            Wheel::ALL.into_iter().filter_map(|wheel| {
                let value = case.wheel_force(wheel)?[2];
                (value < 0.0).then(|| Finding {
 entered: Vec::new(),
                    code: Code("T006"),
                    severity: Severity::Warning,
                    case: case.name.clone(),
                    subject: Subject::Frame,
                    value,
                    limit: Some(0.0),
                    unit: "N",
                    utilisation: None,
                    clause: "a tyre cannot pull on the road".to_owned(),
                    message: format!(
                        "the {} wheel would have to pull the car down with {:.0} N: this case cannot occur as it stands",
                        wheel.name(),
                        -value
                    ),
                })
            })
        })
        .collect()
}

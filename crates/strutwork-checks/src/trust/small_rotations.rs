//! T007: displacements too large for a linear analysis.

use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// Largest rotation, degrees, up to which sin φ ≈ φ holds to about half a per cent.
const LIMIT_DEG: f64 = 10.0;

/// The largest rotation of any joint in each case.
///
/// # Source
/// sin φ / φ = 0.995 at 10° (derived). The limit is our own.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let cases = judged.results.cases.iter();
    cases
        .filter_map(|case| {
            let (joint, turn) = case
                .displacements
                .iter_with_id()
                .map(|(id, u)| (id, u[3..].iter().fold(0.0_f64, |most, v| most.max(v.abs()))))
                .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))?;
            let value = turn.to_degrees();
            (value > LIMIT_DEG).then(|| Finding {
 entered: Vec::new(),
                code: Code("T007"),
                severity: Severity::Warning,
                case: case.name.clone(),
                subject: Subject::Joint(joint),
                value,
                limit: Some(LIMIT_DEG),
                unit: "deg",
                utilisation: None,
                clause: "small rotations".to_owned(),
                message: format!(
                    "joint {} turns by {value:.0}°: too far for a linear analysis, the numbers of this case only show that the frame is far too soft",
                    judged.model.joints()[joint].name
                ),
            })
        })
        .collect()
}

//! T008: what a free case leaves at the places that held it inside.

use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// Share of the loads that rounding may leave where a free case was held while it was solved.
const LIMIT: f64 = 1e-9;

/// The greatest reaction at the six freedoms that determined the place of a free frame, over the loads' size. It must vanish:
/// what acts is balanced by inertia.
///
/// # Source
/// Statics. The limit is our own.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let free = judged.results.cases.iter().filter_map(|case| Some((case, case.relief.as_ref()?.left_over)));
    free.map(|(case, value)| {
        let good = value <= LIMIT;
        let verdict = if good { "" } else { ": do not use this case" };
        Finding {
            code: Code("T008"),
            severity: if good { Severity::Note } else { Severity::Error },
            case: case.name.clone(),
            subject: Subject::Frame,
            value,
            limit: Some(LIMIT),
            unit: "",
            utilisation: Some(value / LIMIT),
            clause: "free case: nothing is left where it was held inside".to_owned(),
            message: format!("nothing holds the frame; inside it was held with {value:.1e} of its loads{verdict}"),
        }
    })
    .collect()
}

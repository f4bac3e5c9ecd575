//! T008: what a free case leaves at the places that held it inside.

use strutwork_model::Code;

use super::CaseLimit;
use crate::{Finding, Judged};

/// Share of the loads that rounding may leave where a free case was held while it was solved.
const LIMIT: f64 = 1e-9;

/// The greatest reaction at the six freedoms that determined the place of a free frame, over the loads' size. It must vanish:
/// what acts is balanced by inertia.
///
/// # Source
/// Statics. The limit is our own.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    CaseLimit {
        code: Code("T008"),
        limit: LIMIT,
        clause: "free case: nothing is left where it was held inside",
        value: |case| Some(case.relief.as_ref()?.left_over),
        told: |_, value, good| {
            let verdict = if good { "" } else { ": do not use this case" };
            format!("nothing holds the frame; inside it was held with {value:.1e} of its loads{verdict}")
        },
    }
    .check(judged)
}

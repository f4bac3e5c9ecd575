//! T002: what is applied and what the supports give are in balance.

use strutwork_model::Code;

use super::CaseLimit;
use crate::{Finding, Judged};

/// Share of all forces, or moments about the origin, that may be left unbalanced by rounding.
const LIMIT: f64 = 1e-8;

/// Applied loads and reactions about the origin, forces and moments; both are summed without the stiffness matrix. In second
/// order they stand on the bent frame: the couples of the axial forces on the tubes that turned belong to the sum.
///
/// # Source
/// Statics. The limit is our own.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    CaseLimit {
        code: Code("T002"),
        limit: LIMIT,
        clause: "equilibrium about the origin",
        value: |case| Some(case.trust.imbalance),
        told: |case, value, good| {
            let verdict = if good { "" } else { ": do not use this case" };
            let bent =
                if case.second_order.is_some() { ", with the couples of axial forces on bent tubes," } else { "" };
            format!("applied loads and reactions{bent} balance to {value:.1e} of all forces{verdict}")
        },
    }
    .check(judged)
}

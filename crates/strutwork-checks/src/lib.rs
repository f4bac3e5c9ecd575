//! Judgements: whether the numbers can be trusted (`trust`), and whether the frame is strong enough (`design`).
//!
//! One rule a file; [`check_all`] is the one list of them. A failed check is a finding, not an error.

pub mod design;
pub mod explain;
pub mod figures;
pub mod finding;
pub mod trust;

pub use explain::PAGES;
pub use figures::{Figures, figures};
pub use finding::{Finding, Subject};

use strutwork_loads::LoadCases;
use strutwork_loads::case::Nature;
use strutwork_model::Model;
use strutwork_solve::Results;
use strutwork_solve::bays::Bays;

/// Everything that a check may look at.
#[derive(Debug, Clone, Copy)]
pub struct Judged<'a> {
    /// The frame.
    pub model: &'a Model,
    /// What acts on it.
    pub cases: &'a LoadCases,
    /// What came out.
    pub results: &'a Results,
    /// The frame's plane bays.
    pub bays: &'a Bays,
}

impl Judged<'_> {
    /// The margin on strength of a case, by its place: 1 for an ultimate case, `[options] yield_margin` for all others.
    pub fn margin(&self, case: usize) -> f64 {
        match self.cases.0[case].nature {
            Nature::Ultimate => 1.0,
            Nature::Plain | Nature::Physical | Nature::Notional => self.model.options().yield_margin,
        }
    }
}

/// All checks, in the order in which a report tells them.
const CHECKS: &[fn(Judged<'_>) -> Vec<Finding>] = &[
    trust::residual::check,
    trust::equilibrium::check,
    trust::condition::check,
    trust::left_out::check,
    trust::slender::check,
    trust::wheels::check,
    trust::small_rotations::check,
    trust::relief::check,
    design::yielding::check,
    design::ultimate::check,
    design::panels::buckling,
    design::panels::stress,
    design::panels::fasteners,
    design::panels::bonds,
    design::bays::check,
    design::chassis_share::check,
    design::mounts::check,
    design::scope::check,
];

/// Runs every check.
pub fn check_all(judged: Judged<'_>) -> Vec<Finding> {
    CHECKS.iter().flat_map(|check| check(judged)).collect()
}

//! Judgements: whether the numbers can be trusted (`trust`), and whether the frame is strong enough (`design`).
//!
//! One rule a file; [`check_all`] is the one list of them. A failed check is a finding, not an error.

pub mod alone;
pub mod aside;
pub mod calculation;
pub mod code;
pub mod design;
mod evidence;
pub mod explain;
pub mod figures;
pub mod finding;
pub mod formula;
pub mod governing;
mod page;
pub mod trust;
pub mod written;

pub use calculation::Calculation;
pub use evidence::of_evidence;
pub use explain::PAGES;
pub use figures::{Figures, figures};
pub use finding::{Finding, Subject};
pub use governing::{governing, items};
pub use written::written;

use crate::code::Partial;
use strutwork_loads::LoadCases;
use strutwork_loads::case::Nature;
use strutwork_model::model::{BasisKind, Buckling as Written, BucklingLength};
use strutwork_model::{Model, TubeId};
use strutwork_solve::bays::Bays;
use strutwork_solve::buckling::AxisLength;
use strutwork_solve::{FrameLengths, Results};

/// How a buckling length from the whole frame's load factor is known, as a page prints it.
const OF_FRAME: &str = "from the load factor of the whole frame, EN 1993-1-1 6.3.1.2 (from memory)";

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
    /// Buckling lengths from the load factors of the whole frame; `None` where these were not asked for.
    pub lengths: Option<&'a FrameLengths>,
}

impl Judged<'_> {
    /// What acts in a case, by its place, is multiplied by this before it is held against a strength.
    ///
    /// Vehicle practice: `[options] yield_margin`, and 1 in an ultimate case. Eurocode: γ_F of `[basis]` in a case that is
    /// derived from the vehicle; 1 in an ultimate case, which is accidental, and in a case of `loads.csv`, which gives
    /// design values.
    pub fn margin(&self, case: usize) -> f64 {
        let basis = self.model.basis();
        match (basis.kind, self.cases.0[case].nature) {
            (_, Nature::Ultimate) | (BasisKind::Eurocode, Nature::Plain) => 1.0,
            (BasisKind::Vehicle, _) => self.model.options().yield_margin,
            (BasisKind::Eurocode, Nature::Physical | Nature::Notional) => basis.gamma_f.value,
        }
    }

    /// What strengths are divided by in a case.
    ///
    /// Vehicle practice: 1 where the margin stands for it; in an ultimate case, which has no margin, γ_M2 remains for what
    /// breaks without yielding first (bolts, welds). Eurocode: the factors of `[basis]`.
    pub fn partial(&self, case: usize) -> Partial {
        let basis = self.model.basis();
        match (basis.kind, self.cases.0[case].nature) {
            (BasisKind::Vehicle, Nature::Ultimate) => Partial { m2: Partial::RECOMMENDED.m2, ..Partial::NONE },
            (BasisKind::Vehicle, _) => Partial::NONE,
            (BasisKind::Eurocode, _) => Partial {
                m0: basis.gamma_m0.value,
                m1: basis.gamma_m1.value,
                m2: basis.gamma_m2.value,
                m5: basis.gamma_m5.value,
            },
        }
    }

    /// Buckling lengths of a tube for bending about its y and its z, in a case: the one place that members and slenderness ask.
    ///
    /// What the user gives comes first, then the length from the load factors of the whole frame in that case, where they were
    /// asked for and the tube bows in one of the modes found, longer or shorter than the rule; else the rule.
    pub fn buckling_lengths(&self, case: usize, tube: TubeId) -> [BucklingLength; 2] {
        let (rules, of_frame) = (self.model.buckling_lengths(tube), self.frame_lengths(case, tube));
        [0, 1].map(|axis| {
            let of_frame = of_frame[axis].map(|of| BucklingLength { length: of.length, why: OF_FRAME });
            of_frame.unwrap_or(rules[axis])
        })
    }

    /// Those that come from the load factors of the whole frame in a case, for bending about y and about z.
    pub fn frame_lengths(&self, case: usize, tube: TubeId) -> [Option<AxisLength>; 2] {
        let own = self.model.tubes()[tube].buckling;
        let found = self.lengths.map_or([None; 2], |lengths| lengths.get(case, tube));
        [0, 1].map(|axis| found[axis].filter(|_| own[axis] == Written::Rule))
    }

    /// Whether a case must hold once, bent for good if need be.
    pub fn is_ultimate(&self, case: usize) -> bool {
        self.cases.0[case].nature == Nature::Ultimate
    }
}

/// A check: the codes that its findings may have, and the rule.
type Check = (&'static [&'static str], fn(Judged<'_>) -> Vec<Finding>);

/// All checks, in the order in which a report tells them.
const CHECKS: &[Check] = &[
    (&["T001"], trust::residual::check),
    (&["T002"], trust::equilibrium::check),
    (&["T003"], trust::condition::check),
    (&["T004"], trust::left_out::check),
    (&["T005"], trust::slender::check),
    (&["T006"], trust::wheels::check),
    (&["T007"], trust::small_rotations::check),
    (&["T008"], trust::relief::check),
    (&["D024"], design::second_order::check),
    (&["D001"], design::yielding::check),
    (&["D010"], design::ultimate::check),
    (&["D020"], design::class::check),
    (&["D021"], design::section::check),
    (&["D022"], design::member::check),
    (&["D023"], design::slenderness::check),
    (&["D030"], design::joints::check),
    (&["D031"], design::welds::check),
    (&["D032"], design::heat_affected::check),
    (&["D040"], design::bolts::strength::check),
    (&["D041"], design::bolts::clamped::check),
    (&["D009"], design::bolts::stated::check),
    (&["D003"], design::panels::buckling),
    (&["D004"], design::panels::stress),
    (&["D005"], design::panels::fasteners),
    (&["D006"], design::panels::bonds),
    (&["D050"], design::fatigue::check),
    (&["D060"], design::movement::check),
    (&["D007", "D008"], design::bays::check),
    (&["D011"], design::chassis_share::check),
    (&["D002"], design::scope::check),
];

/// Runs every check, but for those that the model switches off.
pub fn check_all(judged: Judged<'_>) -> Vec<Finding> {
    of_checks(judged, |_| true)
}

/// The findings of one code: runs the check that makes them, and no other. The same as those among [`check_all`].
pub fn check_one(judged: Judged<'_>, code: &str) -> Vec<Finding> {
    let mut findings = of_checks(judged, |codes| codes.contains(&code));
    findings.retain(|finding| finding.code.0 == code);
    findings
}

fn of_checks(judged: Judged<'_>, wanted: impl Fn(&[&str]) -> bool) -> Vec<Finding> {
    let off = judged.model.switched_off();
    let checks = CHECKS.iter().filter(|(codes, _)| wanted(codes));
    let mut findings: Vec<Finding> = checks.flat_map(|(_, check)| check(judged)).collect();
    if !off.is_empty() {
        findings.retain(|finding| off.iter().all(|check| check.check != finding.code.0));
    }
    findings
}

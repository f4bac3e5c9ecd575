//! Second order, for `run.json`.

use strutwork_solve::SolveError;
use strutwork_solve::results::CaseResult;

use crate::run::Run;

use super::fields::{GrowthFields, RefusedFields, SecondOrderFields};

/// How every case grew, and which have no result; `None` in first order.
pub(super) fn of<'a>(run: &Run<'a>) -> Option<SecondOrderFields<'a>> {
    let refused = run.results.refused.iter().map(|refused| RefusedFields {
        case: &refused.case,
        code: refused.error.code().0,
        passes: refused.passes.len(),
        stands_share: match refused.error {
            SolveError::Buckles { factor, .. } => Some(factor),
            _ => None,
        },
    });
    run.results.is_second_order().then(|| SecondOrderFields {
        cases: run.results.cases.iter().filter_map(of_case).collect(),
        refused: refused.collect(),
    })
}

fn of_case(case: &CaseResult) -> Option<GrowthFields<'_>> {
    let second = case.second_order.as_ref()?;
    let (growth, last) = (&second.growth, second.passes.last());
    let part = |from: usize| second.acceleration.map(|all| std::array::from_fn(|i| all[from + i] + 0.0));
    Some(GrowthFields {
        case: &case.name,
        passes: second.passes.len(),
        left_forces: last.map(|pass| pass.forces),
        left_movements: last.map(|pass| pass.movements),
        pieces: second.pieces,
        piece_error: second.piece_error,
        displacement_growth: growth.displacement.1.factor(),
        moment_growth: growth.moment.1.factor(),
        torsional_stiffness_growth: growth.stiffness.and_then(|grown| grown.factor()),
        couples_nm: case.trust.couples.map(|value| value + 0.0),
        added_acceleration_m_s2: part(0),
        added_acceleration_rad_s2: part(3),
    })
}

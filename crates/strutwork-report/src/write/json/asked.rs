//! Natural modes and buckling, for `run.json`.

use crate::run::Run;

use super::fields::{BucklingFields, ModesFields};

/// Counts and the lowest mode; the modes themselves stand in modes.csv.
pub(super) fn modes(run: &Run<'_>) -> Option<ModesFields> {
    let modes = run.asked.modes.as_ref()?;
    let lowest = modes.modes.first();
    Some(ModesFields {
        pieces: run.asked.pieces,
        rigid: modes.rigid,
        elastic: modes.modes.len(),
        counted_below_hz: modes.proof.below,
        counted: modes.proof.counted,
        found: modes.proof.found,
        lowest_hz: lowest.map(|mode| mode.frequency),
        lowest: lowest.map(|mode| mode.name.words(run.model)),
    })
}

/// Load factors of every case.
pub(super) fn buckling<'a>(run: &Run<'a>) -> Option<Vec<BucklingFields<'a>>> {
    let all = run.asked.buckling.as_ref()?.iter();
    let of_case = |buckling: &'a strutwork_solve::Buckling| BucklingFields {
        case: &buckling.case,
        pieces: buckling.pieces_range()[1],
        pieces_least: buckling.pieces_range()[0],
        load_factors: buckling.positive.iter().map(|mode| mode.factor).collect(),
        error_bounds: buckling.positive.iter().map(|mode| mode.error_bound).collect(),
        load_factors_reversed: buckling.negative.iter().map(|mode| mode.factor).collect(),
        error_bounds_reversed: buckling.negative.iter().map(|mode| mode.error_bound).collect(),
        counted_reversed: buckling.reversed_proof.map(|[counted, _]| counted),
        found_reversed: buckling.reversed_proof.map(|[_, found]| found),
        counted: buckling.proof.map(|[counted, _]| counted),
        found: buckling.proof.map(|[_, found]| found),
    };
    Some(all.map(of_case).collect())
}

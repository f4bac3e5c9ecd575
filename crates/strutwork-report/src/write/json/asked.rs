//! Natural modes and buckling, for `run.json`.

use strutwork_solve::modes::ShiftedMode;
use strutwork_solve::{FrequencyShift, Modes};

use crate::run::Run;

use super::fields::{BucklingFields, ModesFields, ModesUnderFields, ShiftFields};

/// Counts and the lowest mode, and what the driver changes; the modes themselves stand in modes.csv.
pub(super) fn modes(run: &Run<'_>) -> Option<ModesFields> {
    let modes = run.asked.modes.as_ref()?;
    let shift = run.asked.shift.as_ref();
    let pairs = |shift: &FrequencyShift| {
        let of_pair = |pair: &ShiftedMode| ShiftFields {
            empty_hz: pair.empty.map(|place| shift.empty.modes[place].frequency),
            driven_hz: pair.driven.map(|place| modes.modes[place].frequency),
            shift_percent: shift.shift(pair, modes).map(|[_, _, change]| change * 100.0),
            mac: pair.alike,
        };
        shift.pairs.iter().map(of_pair).collect()
    };
    Some(ModesFields {
        driven_kg: shift.map(|shift| shift.mass),
        frequency_shift: shift.map(pairs),
        ..counts(run, modes)
    })
}

/// The same under the forces of a case; the modes themselves stand in modes_under.csv.
pub(super) fn under<'a>(run: &Run<'a>) -> Option<ModesUnderFields<'a>> {
    run.asked.under.as_ref().map(|(case, modes)| ModesUnderFields { case, modes: counts(run, modes) })
}

fn counts(run: &Run<'_>, modes: &Modes) -> ModesFields {
    let lowest = modes.modes.first();
    ModesFields {
        pieces: run.asked.pieces,
        rigid: modes.rigid,
        elastic: modes.modes.len(),
        counted_below_hz: modes.proof.below,
        counted: modes.proof.counted,
        found: modes.proof.found,
        lowest_hz: lowest.map(|mode| mode.frequency),
        lowest: lowest.map(|mode| mode.name.words(run.model)),
        driven_kg: None,
        frequency_shift: None,
    }
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

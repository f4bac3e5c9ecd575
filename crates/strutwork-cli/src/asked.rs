//! Analyses beside the load cases: natural modes and buckling, where `run` is asked for them.

use strutwork_loads::{CarriedInertia, LoadCases, carried_inertia};
use strutwork_model::{Diagnostic, Model};
use strutwork_report::Asked;
use strutwork_solve::modes::TubeMass;
use strutwork_solve::{
    Buckling, BucklingWanted, FrameLengths, Modes, ModesWanted, Pieces, Results, SolveError, buckle_cases,
    natural_modes,
};

use crate::args::RunArgs;
use crate::commands::run::unsolved;
use crate::exit::Failure;
use crate::pipeline::Read;

/// Finds what was asked for.
///
/// # Errors
/// [`Failure::Structure`] where the frame can move without resistance, [`Failure::Input`] where what it carries cannot be
/// put on it.
pub(crate) fn analyse(
    args: &RunArgs,
    model: &Model,
    cases: &LoadCases,
    results: &Results,
    warnings: &[Diagnostic],
    read: &Read,
) -> Result<Asked, Failure> {
    let (modes, factors) = (args.modes.unwrap_or(0), args.buckling.unwrap_or(0));
    if modes == 0 && factors == 0 {
        return Ok(Asked::NOTHING);
    }
    let carried = carried_inertia(model)
        .map_err(|fault| Failure::Input { faults: vec![Diagnostic::from(&fault)], sources: read.sources.clone() })?;
    let pieces = pieces_for_modes(args);
    let wrong = |error: SolveError| unsolved(model, &error, warnings, read);
    let found =
        if modes > 0 { Some(modes_of(args, model, &carried, usize::from(modes)).map_err(wrong)?) } else { None };
    let (mut buckled, mut lengths) = (None, None);
    if factors > 0 {
        let pieces = args.pieces.map_or(Pieces::AUTOMATIC, |pieces| Pieces::Each(usize::from(pieces)));
        let wanted = BucklingWanted { count: usize::from(factors), pieces };
        let (found, of_frame) = buckled_cases(model, cases, &carried, results, wanted).map_err(wrong)?;
        (buckled, lengths) = (Some(found), Some(of_frame));
    }
    Ok(Asked { modes: found, buckling: buckled, lengths, pieces })
}

/// The buckling lengths that the load factors of every case give; `None` where none were asked for.
///
/// # Errors
/// As [`analyse`].
pub(crate) fn lengths(
    factors: u16,
    model: &Model,
    cases: &LoadCases,
    results: &Results,
    warnings: &[Diagnostic],
    read: &Read,
) -> Result<Option<FrameLengths>, Failure> {
    if factors == 0 {
        return Ok(None);
    }
    let carried = carried_inertia(model)
        .map_err(|fault| Failure::Input { faults: vec![Diagnostic::from(&fault)], sources: read.sources.clone() })?;
    let wanted = BucklingWanted { count: usize::from(factors), ..BucklingWanted::default() };
    let found = buckled_cases(model, cases, &carried, results, wanted);
    found.map(|(_, lengths)| Some(lengths)).map_err(|error| unsolved(model, &error, warnings, read))
}

/// The load factors of every case, and the buckling lengths that they give.
fn buckled_cases(
    model: &Model,
    cases: &LoadCases,
    carried: &[CarriedInertia],
    results: &Results,
    wanted: BucklingWanted,
) -> Result<(Vec<Buckling>, FrameLengths), SolveError> {
    let found = buckle_cases(model, cases, carried, results, wanted)?.cases;
    let lengths = FrameLengths::of(model, results.cases.iter().zip(&found));
    Ok((found, lengths))
}

fn modes_of(args: &RunArgs, model: &Model, carried: &[CarriedInertia], count: usize) -> Result<Modes, SolveError> {
    let mass = if args.lumped { TubeMass::Lumped } else { TubeMass::Consistent };
    let wanted = ModesWanted { count, pieces: pieces_for_modes(args), mass };
    natural_modes(model, model.supports(), carried, wanted)
}

/// What was asked for, else four.
fn pieces_for_modes(args: &RunArgs) -> usize {
    args.pieces.map_or(ModesWanted::default().pieces, usize::from)
}

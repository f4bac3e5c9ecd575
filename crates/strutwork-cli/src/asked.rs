//! Analyses beside the load cases: natural modes and buckling, where `run` is asked for them.

use strutwork_loads::{CarriedInertia, LoadCase, LoadCases, carried_inertia};
use strutwork_model::nearest::nearest;
use strutwork_model::{Diagnostic, Model};
use strutwork_report::Asked;
use strutwork_solve::modes::TubeMass;
use strutwork_solve::{
    Buckling, BucklingWanted, CaseResult, FrameLengths, ModesWanted, Pieces, Results, SolveError, buckle_cases,
    frequency_shift, natural_modes, natural_modes_under,
};

use crate::args::AskedArgs;
use crate::exit::Failure;
use crate::pipeline::Read;
use crate::ran::unsolved;

/// Finds what was asked for.
///
/// # Errors
/// [`Failure::Structure`] where the frame can move without resistance, [`Failure::Input`] where what it carries cannot be
/// put on it.
pub(crate) fn analyse(
    args: &AskedArgs,
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
    let carried = carried(model, read)?;
    let pieces = pieces_for_modes(args);
    let wrong = |error: SolveError| unsolved(model, &error, warnings, read);
    let mut asked = Asked { pieces, ..Asked::NOTHING };
    if modes > 0 {
        let wanted = modes_wanted(args, usize::from(modes));
        let shifted = frequency_shift(model, model.supports(), &carried, wanted).map_err(wrong)?;
        (asked.modes, asked.shift) = match shifted {
            Some((modes, shift)) => (Some(modes), Some(shift)),
            None => (Some(natural_modes(model, model.supports(), &carried, wanted).map_err(wrong)?), None),
        };
        if let Some(name) = &args.modes_under {
            let (case, result) = named(name, cases, results)?;
            let under = natural_modes_under(model, &case.supports, &carried, result, wanted).map_err(wrong)?;
            asked.under = Some((name.clone(), under));
        }
    }
    if factors > 0 {
        let pieces = args.pieces.map_or(Pieces::AUTOMATIC, |pieces| Pieces::Each(usize::from(pieces)));
        let wanted = BucklingWanted { count: usize::from(factors), pieces };
        let (found, of_frame) = buckled_cases(model, cases, &carried, results, wanted).map_err(wrong)?;
        (asked.buckling, asked.lengths) = (Some(found), Some(of_frame));
    }
    Ok(asked)
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
    let carried = carried(model, read)?;
    let wanted = BucklingWanted { count: usize::from(factors), ..BucklingWanted::default() };
    let found = buckled_cases(model, cases, &carried, results, wanted);
    found.map(|(_, lengths)| Some(lengths)).map_err(|error| unsolved(model, &error, warnings, read))
}

/// What the frame carries, as inertia.
fn carried(model: &Model, read: &Read) -> Result<Vec<CarriedInertia>, Failure> {
    carried_inertia(model)
        .map_err(|fault| Failure::Input { faults: vec![Diagnostic::from(&fault)], sources: read.sources.clone() })
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

fn modes_wanted(args: &AskedArgs, count: usize) -> ModesWanted {
    let mass = if args.lumped { TubeMass::Lumped } else { TubeMass::Consistent };
    ModesWanted { count, pieces: pieces_for_modes(args), mass }
}

/// The case that modes are wanted under.
fn named<'a>(
    name: &str,
    cases: &'a LoadCases,
    results: &'a Results,
) -> Result<(&'a LoadCase, &'a CaseResult), Failure> {
    let mut pairs = cases.0.iter().zip(&results.cases);
    pairs.find(|(case, _)| case.name == name).ok_or_else(|| {
        let names = || cases.0.iter().map(|case| case.name.as_str());
        let help = match nearest(name, names()) {
            Some(near) => format!("did you mean `{near}`?"),
            None if cases.0.is_empty() => "this run has no load cases".to_owned(),
            None => format!("the cases of this run: {}", names().collect::<Vec<_>>().join(", ")),
        };
        Failure::Request { what: format!("--modes-under {name}: there is no load case `{name}`"), help }
    })
}

/// What was asked for, else four.
fn pieces_for_modes(args: &AskedArgs) -> usize {
    args.pieces.map_or(ModesWanted::default().pieces, usize::from)
}

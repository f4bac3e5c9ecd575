//! Analyses beside the load cases: natural modes and buckling, where `run` is asked for them.

use strutwork_loads::{LoadCase, LoadCases, carried_inertia};
use strutwork_model::nearest::nearest;
use strutwork_model::{Diagnostic, Model};
use strutwork_report::Asked;
use strutwork_solve::modes::TubeMass;
use strutwork_solve::{
    BucklingWanted, CaseResult, ModesWanted, Results, SolveError, buckling, frequency_shift, natural_modes,
    natural_modes_under,
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
    let pieces = usize::from(args.pieces);
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
        let wanted = BucklingWanted { count: usize::from(factors), pieces };
        let each = cases.0.iter().zip(&results.cases);
        let all: Result<Vec<_>, _> =
            each.map(|(case, result)| buckling(model, &case.supports, &carried, result, wanted)).collect();
        asked.buckling = Some(all.map_err(wrong)?);
    }
    Ok(asked)
}

fn modes_wanted(args: &RunArgs, count: usize) -> ModesWanted {
    let mass = if args.lumped { TubeMass::Lumped } else { TubeMass::Consistent };
    ModesWanted { count, pieces: usize::from(args.pieces), mass }
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

//! The one way from load cases to results, in first or second order, shared by `run` and `working`.

use strutwork_loads::LoadCases;
use strutwork_model::{Diagnostic, Model, Severity};
use strutwork_solve::explain::explain;
use strutwork_solve::{Results, SecondOrderWanted, solve_cases, solve_second_order};

use crate::args::SolveArgs;
use crate::exit::Failure;
use crate::pipeline::Read;
use crate::ran::unsolved;

/// Solved load cases.
pub(crate) struct Solved {
    /// The cases that have results, in order.
    pub cases: LoadCases,
    /// Their results.
    pub results: Results,
    /// In second order their results in first order, which stiffness and load factors are read off.
    pub first: Option<Results>,
}

impl Solved {
    /// In first order.
    pub(crate) fn first(&self) -> &Results {
        self.first.as_ref().unwrap_or(&self.results)
    }
}

/// Solves the cases as asked for; why a case has no result joins the warnings.
///
/// # Errors
/// [`Failure::Structure`] where the frame can move without resistance, or stands under none of the cases.
pub(crate) fn solve(
    args: &SolveArgs,
    model: &Model,
    mut cases: LoadCases,
    warnings: &mut Vec<Diagnostic>,
    read: &Read,
) -> Result<Solved, Failure> {
    let mut first = solve_cases(model, &cases).map_err(|error| unsolved(model, &error, warnings, read))?;
    if !args.second_order {
        return Ok(Solved { cases, results: first, first: None });
    }
    let wanted =
        SecondOrderWanted { tolerance: args.tolerance, most_passes: u32::from(args.passes), ..Default::default() };
    let results =
        solve_second_order(model, &cases, &first, wanted).map_err(|error| unsolved(model, &error, warnings, read))?;
    let reasons = results.refused.iter().flat_map(|one| explain(model, &one.error));
    if results.cases.is_empty() && !results.refused.is_empty() {
        let reasons = reasons.chain(warnings.iter().cloned()).collect();
        return Err(Failure::Structure { reasons, sources: read.sources.clone() });
    }
    // They are findings as well (D024), and as such errors.
    warnings.extend(reasons.map(|reason| Diagnostic { severity: Severity::Warning, ..reason }));
    let stands = |name: &str| results.refused.iter().all(|one| one.case != name);
    cases.0.retain(|case| stands(&case.name));
    first.cases.retain(|case| stands(&case.name));
    Ok(Solved { cases, results, first: Some(first) })
}

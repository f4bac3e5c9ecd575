//! Natural modes and buckling of a case's frame, each found once for all quantities that ask for it.

use strutwork_loads::{LoadCases, carried_inertia};
use strutwork_model::Model;
use strutwork_solve::{Buckling, BucklingWanted, Modes, ModesWanted, Pieces, Results, buckling, natural_modes};

use crate::case::Case;
use crate::run::Problem;
use crate::what::{CaseWhat, What};

/// What quantities ask for, by the number of pieces.
#[derive(Default)]
pub(crate) struct Shapes {
    modes: Vec<(usize, Result<Modes, Problem>)>,
    buckling: Vec<(String, Option<usize>, Result<Buckling, Problem>)>,
}

impl Shapes {
    /// Finds them; a fault is told by the quantities that need it.
    pub(crate) fn of(case: &Case, model: &Model, cases: &LoadCases, results: Option<&Results>) -> Self {
        let mut shapes = Self::default();
        let highest = |fits: &dyn Fn(&What) -> Option<usize>| {
            case.quantities.iter().filter_map(|quantity| fits(&quantity.what)).max().unwrap_or(0)
        };
        for quantity in &case.quantities {
            match &quantity.what {
                What::Frequency { pieces, .. } if !shapes.modes.iter().any(|(known, _)| known == pieces) => {
                    let count = highest(&|what| match what {
                        What::Frequency { mode, pieces: other } if other == pieces => Some(*mode),
                        _ => None,
                    });
                    shapes.modes.push((*pieces, modes(model, count, *pieces)));
                }
                What::OfCase { case: name, result: CaseWhat::LoadFactor { pieces, .. } }
                    if !shapes.buckling.iter().any(|(known, of, _)| (known, of) == (name, pieces)) =>
                {
                    let count = highest(&|what| match what {
                        What::OfCase { case: other, result: CaseWhat::LoadFactor { mode, pieces: of } }
                            if (other, of) == (name, pieces) =>
                        {
                            Some(*mode)
                        }
                        _ => None,
                    });
                    let divided = pieces.map_or(Pieces::AUTOMATIC, Pieces::Each);
                    let found = buckled(model, cases, results, name, BucklingWanted { count, pieces: divided });
                    shapes.buckling.push((name.clone(), *pieces, found));
                }
                _ => {}
            }
        }
        shapes
    }

    /// The `mode`-th natural frequency besides rigid ones, Hz.
    pub(crate) fn frequency(&self, mode: usize, pieces: usize) -> Result<f64, Problem> {
        let found = self.modes.iter().find(|(known, _)| *known == pieces).map(|(_, found)| found);
        let modes = found.ok_or("natural frequencies are no part of a ratio")?.as_ref().map_err(Clone::clone)?;
        modes.modes.get(mode - 1).map(|found| found.frequency).ok_or_else(|| "the frame has no such mode".to_owned())
    }

    /// The `mode`-th positive load factor of a case.
    pub(crate) fn load_factor(&self, case: &str, mode: usize, pieces: Option<usize>) -> Result<f64, Problem> {
        let found = self.buckling.iter().find(|(name, known, _)| name == case && *known == pieces);
        let (_, _, found) = found.ok_or("load factors are no part of a ratio")?;
        let buckling = found.as_ref().map_err(Clone::clone)?;
        buckling.positive.get(mode - 1).map(|found| found.factor).ok_or_else(|| "there is no such factor".to_owned())
    }
}

/// The lowest modes; one that was missed is a problem.
fn modes(model: &Model, count: usize, pieces: usize) -> Result<Modes, Problem> {
    let carried = carried_inertia(model).map_err(|fault| fault.to_string())?;
    let wanted = ModesWanted { count, pieces, ..ModesWanted::default() };
    let modes = natural_modes(model, model.supports(), &carried, wanted).map_err(|fault| fault.to_string())?;
    if modes.proof.complete() { Ok(modes) } else { Err(modes.proof.words()) }
}

/// The lowest load factors; one that was missed is a problem.
fn buckled(
    model: &Model,
    cases: &LoadCases,
    results: Option<&Results>,
    name: &str,
    wanted: BucklingWanted,
) -> Result<Buckling, Problem> {
    let carried = carried_inertia(model).map_err(|fault| fault.to_string())?;
    let solved = results.into_iter().flat_map(|results| cases.0.iter().zip(&results.cases));
    let found = solved.into_iter().find(|(case, _)| case.name == name);
    let (case, result) = found.ok_or_else(|| format!("there is no load case `{name}`"))?;
    let found = buckling(model, &case.supports, &carried, result, wanted).map_err(|fault| fault.to_string())?;
    let missed = found.proof.is_some_and(|[counted, found]| counted != found);
    if missed { Err("a load factor was missed".to_owned()) } else { Ok(found) }
}

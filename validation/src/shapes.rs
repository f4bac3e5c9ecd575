//! Natural modes and buckling of a case's frame, each found once for all quantities that ask for it.

use strutwork_loads::{LoadCase, LoadCases, carried_inertia};
use strutwork_model::Model;
use strutwork_solve::{
    Buckling, BucklingWanted, CaseResult, Modes, ModesWanted, Pieces, Results, buckling, natural_modes,
    natural_modes_under,
};

use crate::case::Case;
use crate::run::Problem;
use crate::what::{CaseWhat, What};

/// What quantities ask for, by the case and the number of pieces.
#[derive(Default)]
pub(crate) struct Shapes {
    modes: Vec<(Option<String>, usize, Result<Modes, Problem>)>,
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
                What::Frequency { pieces, under, .. } if !shapes.knows(under.as_deref(), *pieces) => {
                    let count = highest(&|what| match what {
                        What::Frequency { mode, pieces: of, under: at } if (of, at) == (pieces, under) => Some(*mode),
                        _ => None,
                    });
                    let solved = under.as_ref().map(|name| solved(cases, results, name));
                    let found = modes(model, solved, ModesWanted { count, pieces: *pieces, ..ModesWanted::default() });
                    shapes.modes.push((under.clone(), *pieces, found));
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
                    let wanted = BucklingWanted { count, pieces: divided };
                    let found = buckled(model, solved(cases, results, name), wanted);
                    shapes.buckling.push((name.clone(), *pieces, found));
                }
                _ => {}
            }
        }
        shapes
    }

    fn knows(&self, under: Option<&str>, pieces: usize) -> bool {
        self.modes.iter().any(|(case, known, _)| case.as_deref() == under && *known == pieces)
    }

    /// The `mode`-th natural frequency besides rigid ones, Hz.
    pub(crate) fn frequency(&self, mode: usize, pieces: usize, under: Option<&str>) -> Result<f64, Problem> {
        let found = self.modes.iter().find(|(case, known, _)| case.as_deref() == under && *known == pieces);
        let (_, _, found) = found.ok_or("natural frequencies are no part of a ratio")?;
        let modes = found.as_ref().map_err(Clone::clone)?;
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

/// A case with its result.
type Solved<'a> = Result<(&'a LoadCase, &'a CaseResult), Problem>;

/// A solved case by its name.
fn solved<'a>(cases: &'a LoadCases, results: Option<&'a Results>, name: &str) -> Solved<'a> {
    let pairs = results.into_iter().flat_map(|results| cases.0.iter().zip(&results.cases));
    pairs.into_iter().find(|(case, _)| case.name == name).ok_or_else(|| format!("there is no load case `{name}`"))
}

/// The lowest modes, under a case where one is given; one that was missed is a problem.
fn modes(model: &Model, under: Option<Solved<'_>>, wanted: ModesWanted) -> Result<Modes, Problem> {
    let carried = carried_inertia(model).map_err(|fault| fault.to_string())?;
    let found = match under {
        None => natural_modes(model, model.supports(), &carried, wanted),
        Some(solved) => {
            let (case, result) = solved?;
            natural_modes_under(model, &case.supports, &carried, result, wanted)
        }
    };
    let modes = found.map_err(|fault| fault.to_string())?;
    if modes.proof.complete() { Ok(modes) } else { Err(modes.proof.words()) }
}

/// The lowest load factors; one that was missed is a problem.
fn buckled(model: &Model, solved: Solved<'_>, wanted: BucklingWanted) -> Result<Buckling, Problem> {
    let carried = carried_inertia(model).map_err(|fault| fault.to_string())?;
    let (case, result) = solved?;
    let found = buckling(model, &case.supports, &carried, result, wanted).map_err(|fault| fault.to_string())?;
    let missed = found.proof.is_some_and(|[counted, found]| counted != found);
    if missed { Err("a load factor was missed".to_owned()) } else { Ok(found) }
}

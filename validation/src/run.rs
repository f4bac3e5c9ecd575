//! Re-solves a case and sets our values beside the printed ones.

use rayon::prelude::*;
use strutwork_loads::LoadError;
use strutwork_model::Faults;
use strutwork_solve::SolveError;

use crate::case::{Case, Quantity, Seen, Source, Suite};
use crate::refine::Study;
use crate::solved::Solved;
use crate::what::What;

/// A case with our values beside the printed ones.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseReport {
    /// The folder it stands in.
    pub family: String,
    /// Its own folder's name.
    pub name: String,
    /// One line for headings.
    pub title: String,
    /// What a reader must know.
    pub notes: Vec<String>,
    /// Where it comes from.
    pub source: Source,
    /// One for each printed value; ours are missing where `failure` says why.
    pub rows: Vec<Row>,
    /// How answers that are limits are neared.
    pub studies: Vec<Study>,
    /// Why the case could not be solved.
    pub failure: Option<String>,
}

/// A printed value and ours.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What it is a value of.
    pub what: String,
    /// The unit of both values.
    pub unit: &'static str,
    /// As the source prints it.
    pub printed: String,
    /// Ours, in the manner of the printed one; empty where there is none.
    pub computed: String,
    /// Ours less the printed one, in units of the last printed digit; NaN where there is none.
    pub difference: f64,
    /// Greatest difference at which they agree, in units of the last printed digit.
    pub allowed: f64,
    /// `allowed` in the unit of both values, as the case gives it; 0 where it is half a unit of the last digit.
    pub allowance: f64,
    /// Why `allowed` is not one half; empty where it is.
    pub because: String,
    /// The formula behind the printed value; empty for none.
    pub formula: String,
    /// How the printed value came to us.
    pub seen: Seen,
    /// Whether they agree.
    pub agrees: bool,
    /// Why there is no value of ours; empty where there is one.
    pub problem: String,
}

impl CaseReport {
    /// Whether every value agrees, and every limit is neared as fast as it should be.
    pub fn agrees(&self) -> bool {
        self.failure.is_none() && self.rows.iter().all(|row| row.agrees) && self.studies.iter().all(|study| study.holds)
    }
}

/// Re-solves a case.
///
/// # Signs and order
/// Rows stand in the order of the case's quantities. A value agrees where it differs by no more than half a unit of the
/// last printed digit, or than what the case allows with its reason.
pub fn run(case: &Case) -> CaseReport {
    let solved = Solved::of(case);
    let several = has_several_load_cases(case);
    let rows = case.quantities.iter().map(|quantity| {
        let ours = solved
            .as_ref()
            .map_err(|_| String::new())
            .and_then(|solved| solved.value(&quantity.what, quantity.unit.dimension));
        row(case, quantity, ours, several)
    });
    CaseReport {
        family: case.family.clone(),
        name: case.name.clone(),
        title: case.title.clone(),
        notes: case.notes.clone(),
        source: case.source.clone(),
        rows: rows.collect(),
        studies: case.refinements.iter().map(|refine| refine.study(case)).collect(),
        failure: solved.as_ref().err().map(ToString::to_string),
    }
}

/// Re-solves all cases, on as many threads as there are; the reports stand in the order of the cases.
pub fn run_all(suite: &Suite) -> Vec<CaseReport> {
    suite.cases.par_iter().map(run).collect()
}

/// Room for the rounding of the quotient where a value lies half a unit away.
const ROUNDING: f64 = 1e-6;

/// Whether its quantities are read off several load cases, so that each must say which.
fn has_several_load_cases(case: &Case) -> bool {
    let mut names = case.quantities.iter().flat_map(|quantity| quantity.what.of_cases()).map(|(name, _)| name);
    let first = names.next();
    names.any(|name| Some(name) != first)
}

/// What a row is a value of: with the load case before it where there are several.
fn words(what: &What, several: bool) -> String {
    match (what, several) {
        (What::OfCase { case, result }, true) => format!("{case}: {result}"),
        _ => what.to_string(),
    }
}

fn row(case: &Case, quantity: &Quantity, ours: Result<f64, String>, several: bool) -> Row {
    let printed = &quantity.printed;
    let ours = ours.map(|value| value / quantity.unit.size);
    let difference = ours.as_ref().map_or(f64::NAN, |value| (value - printed.value()) / printed.last_digit());
    let allowed = quantity.allowed.as_ref().map_or(0.5, |allowed| allowed.difference / printed.last_digit());
    Row {
        what: words(&quantity.what, several),
        unit: quantity.unit.name,
        printed: printed.text().to_owned(),
        computed: ours.as_ref().map_or_else(|_| String::new(), |&value| printed.beside(value)),
        difference,
        allowed,
        allowance: quantity.allowed.as_ref().map_or(0.0, |allowed| allowed.difference),
        because: quantity.allowed.as_ref().map_or_else(String::new, |allowed| allowed.because.clone()),
        formula: quantity.formula.clone(),
        seen: quantity.seen.unwrap_or(case.source.seen),
        agrees: difference.abs() <= allowed + ROUNDING,
        problem: ours.err().unwrap_or_default(),
    }
}

/// Why there is no value, in words.
pub(crate) type Problem = String;

/// Why a case could not be solved.
#[derive(Debug, thiserror::Error)]
pub(crate) enum RunFault {
    #[error("the model: {0}")]
    Model(#[from] Faults),
    #[error("the loads: {0}")]
    Loads(#[from] LoadError),
    #[error("balance by inertia is for cases with loads at joints only")]
    CannotBalance,
    #[error("{0}")]
    Solve(#[from] SolveError),
    #[error("the sizing: {0}")]
    Sizing(String),
    #[error("there is no joint `{0}`")]
    Joint(String),
    #[error("there is no load case `{0}`")]
    Case(String),
}

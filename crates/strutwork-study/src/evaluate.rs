//! From a variant to its outcome: the boundary between a study and what solves it.

use std::ops::Range;
use std::sync::Arc;

use strutwork_loads::{LoadCases, LoadError};
use strutwork_model::spec::ModelSpec;
use strutwork_model::{Diagnostic, Faults, Model, Severity};
use strutwork_solve::SolveError;
use strutwork_solve::explain::explain;

use crate::outcome::{Row, Status};
use crate::solved::Solved;
use crate::study::{Cases, Study};
use crate::value::Value;

/// What evaluates variants.
pub trait Evaluate: Sync {
    /// The variants of a range and their outcomes, in their order, on the threads of the pool that it is called in. A
    /// variant's outcome is the same to the last bit whatever the range, the threads, and what was evaluated before.
    fn evaluate(&self, study: &Study, variants: Range<u64>) -> Vec<Row>;

    /// What a reader should know of how variants are evaluated, line by line; for the terminal.
    fn told(&self) -> Vec<String> {
        Vec::new()
    }
}

/// The places of a range of variants: ranges of u64 are no indexed iterators.
pub(crate) fn places(variants: &Range<u64>) -> Range<usize> {
    0..usize::try_from(variants.end.saturating_sub(variants.start)).unwrap_or(usize::MAX)
}

/// Which load cases a variant needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted<'a> {
    /// Those that the study names.
    Of(&'a Cases),
    /// Those that measure a twist; others do no harm.
    Twist,
}

/// Where the load cases of a variant come from.
pub trait CaseSource: Sync {
    /// The load cases of a model.
    ///
    /// # Errors
    /// [`Trouble`], which becomes the outcome of the variant.
    fn cases(&self, model: &Arc<Model>, wanted: Wanted<'_>) -> Result<LoadCases, Trouble>;

    /// The texts that it is made of, name and text of each: with others it is another study.
    fn texts(&self) -> Vec<(String, String)>;
}

/// The caller's own functions: what [`Change::Own`](crate::Change::Own) and [`Asked::Own`](crate::Asked::Own) stand for.
pub trait Own: Sync {
    /// Changes a spec for a value of a parameter, by the parameter's place.
    ///
    /// # Errors
    /// [`Trouble`], which becomes the outcome of the variant.
    fn change(&self, parameter: usize, spec: &mut ModelSpec, value: &Value) -> Result<(), Trouble>;

    /// The answer to a response, by the response's place; `None` where the variant has none.
    ///
    /// # Errors
    /// [`Trouble`], which becomes the outcome of the variant.
    fn respond(&self, response: usize, solved: &Arc<Solved>, values: &[Value]) -> Result<Option<f64>, Trouble>;
}

/// Why a variant has no responses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// How it ended.
    pub status: Status,
    /// Why, in words.
    pub note: String,
}

impl Trouble {
    /// The study asks for something that is not there.
    pub fn not_there(note: impl Into<String>) -> Self {
        Self { status: Status::NotThere, note: note.into() }
    }

    /// The frame cannot be solved.
    pub fn of_solving(model: &Model, error: &SolveError) -> Self {
        let told = explain(model, error);
        let status = if matches!(error, SolveError::Mechanism { .. }) { Status::Mechanism } else { Status::Unsolved };
        let at = told.iter().map(|one| one.subject.as_str()).find(|subject| !subject.is_empty());
        let note = match (status, at) {
            (Status::Mechanism, Some(at)) => format!("mechanism at {at}: {}", first(&told)),
            (Status::Mechanism, None) => format!("mechanism: {}", first(&told)),
            _ => first(&told),
        };
        Self { status, note }
    }
}

impl From<&Faults> for Trouble {
    fn from(faults: &Faults) -> Self {
        Self { status: Status::ModelFault, note: format!("model fault {}", first(&faults.0)) }
    }
}

impl From<&LoadError> for Trouble {
    fn from(error: &LoadError) -> Self {
        Self { status: Status::LoadFault, note: format!("load fault {}: {error}", error.code()) }
    }
}

/// The first error with its code, and how many more there are.
fn first(told: &[Diagnostic]) -> String {
    let mut errors = told.iter().filter(|one| one.severity == Severity::Error);
    let first = errors.next().map_or_else(String::new, |one| format!("{}: {}", one.code, one.message));
    match errors.count() {
        0 => first,
        more => format!("{first}; and {more} more"),
    }
}

//! From a variant to its outcome: the boundary between a study and what solves it.

use std::sync::{Arc, OnceLock};

use strutwork_checks::{Finding, Judged, check_all};
use strutwork_loads::{LoadCases, LoadError};
use strutwork_model::spec::ModelSpec;
use strutwork_model::{Diagnostic, Faults, Model, Severity};
use strutwork_solve::explain::explain;
use strutwork_solve::{Bays, FrameLengths, Results, SolveError, find_bays};

use crate::outcome::{Outcome, Status};
use crate::study::{Cases, Study};
use crate::value::Value;

/// What evaluates variants. Called from many threads at once.
pub trait Evaluate: Sync {
    /// The outcome of a variant. The same values give the same outcome to the last bit, whatever was evaluated before.
    fn evaluate(&self, study: &Study, values: &[Value]) -> Outcome;
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

/// A solved model. It is judged when somebody asks for it.
#[derive(Debug)]
pub struct Solved {
    /// The model.
    pub model: Arc<Model>,
    /// What acts.
    pub cases: LoadCases,
    /// What came out.
    pub results: Results,
    /// Buckling lengths from the frame's load factors, where somebody asked for them.
    lengths: Option<FrameLengths>,
    judged: OnceLock<(Bays, Vec<Finding>)>,
}

impl Solved {
    /// A solved model that nobody has judged yet.
    pub fn new(model: Arc<Model>, cases: LoadCases, results: Results) -> Self {
        Self { model, cases, results, lengths: None, judged: OnceLock::new() }
    }

    /// The same, to be judged with buckling lengths from the frame's load factors.
    pub fn with_lengths(self, lengths: FrameLengths) -> Self {
        Self { lengths: Some(lengths), judged: OnceLock::new(), ..self }
    }

    fn looked_at<'a>(&'a self, bays: &'a Bays) -> Judged<'a> {
        let lengths = self.lengths.as_ref();
        Judged { model: &self.model, cases: &self.cases, results: &self.results, bays, lengths }
    }

    fn judgement(&self) -> &(Bays, Vec<Finding>) {
        self.judged.get_or_init(|| {
            let bays = find_bays(&self.model);
            let findings = check_all(self.looked_at(&bays));
            (bays, findings)
        })
    }

    /// What checks look at.
    pub fn judged(&self) -> Judged<'_> {
        self.looked_at(&self.judgement().0)
    }

    /// What the checks say.
    pub fn findings(&self) -> &[Finding] {
        &self.judgement().1
    }
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

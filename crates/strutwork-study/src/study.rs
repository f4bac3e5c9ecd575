//! A study as data.

use serde::Serialize;
use strutwork_model::spec::ModelSpec;

use crate::design::Design;
use crate::evaluate::Trouble;
use crate::fault::StudyFault;
use crate::outcome::{Outcome, Status, Way};
use crate::parameter::Parameter;
use crate::response::Response;
use crate::value::Value;

/// Which load cases are solved on each variant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum Cases {
    /// Every one that a run of the model would solve.
    All,
    /// Those of these names alone. A standard case script that makes none of them is not run.
    Named(Vec<String>),
}

/// A bound on a response.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Limit {
    /// At least this.
    AtLeast(f64),
    /// At most this.
    AtMost(f64),
}

/// A bound that a variant must keep to count as feasible.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Constraint {
    /// The place of the response among the study's.
    pub response: usize,
    /// Its bound, in the response's unit.
    pub limit: Limit,
}

/// What is varied, which variants there are, what is asked of each, and what must hold.
///
/// # Units and shapes
/// Values are in door units, which are in the names of parameters and responses: `floor.wall_mm`, `tubes_kg`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Study {
    /// Its name: also that of its files.
    pub name: String,
    /// The model as it is, which every variant changes.
    pub base: ModelSpec,
    /// What is varied.
    pub parameters: Vec<Parameter>,
    /// Which variants there are.
    pub design: Design,
    /// Which load cases are solved.
    pub cases: Cases,
    /// What is asked.
    pub responses: Vec<Response>,
    /// What must hold.
    pub constraints: Vec<Constraint>,
}

impl Study {
    /// A study of a model in which nothing is varied and nothing asked yet: all cases, the full grid.
    pub fn new(name: impl Into<String>, base: ModelSpec) -> Self {
        Self {
            name: name.into(),
            base,
            parameters: Vec::new(),
            design: Design::FullGrid,
            cases: Cases::All,
            responses: Vec::new(),
            constraints: Vec::new(),
        }
    }

    /// How many variants there are.
    ///
    /// # Errors
    /// [`StudyFault`] where nothing is varied or asked, two parameters have one name, or the design does not go with them.
    pub fn count(&self) -> Result<u64, StudyFault> {
        if self.parameters.is_empty() {
            return Err(StudyFault::Needs("a parameter: something that is varied"));
        }
        if self.responses.is_empty() {
            return Err(StudyFault::Needs("a response: something that is asked of each variant"));
        }
        let mut names: Vec<&str> = self.parameters.iter().map(|parameter| parameter.name.as_str()).collect();
        names.extend(self.responses.iter().map(|response| response.name.as_str()));
        names.sort_unstable();
        if let Some(pair) = names.windows(2).find(|pair| pair[0] == pair[1]) {
            return Err(StudyFault::Twice { name: pair[0].to_owned() });
        }
        self.design.count(&self.parameters)
    }

    /// The values of a variant, in the order of the parameters. Made from its number alone.
    ///
    /// # Assumes
    /// `variant` is less than [`Self::count`].
    pub fn values(&self, variant: u64) -> Vec<Value> {
        self.design.values(&self.parameters, variant)
    }

    /// The place of a response among the study's.
    ///
    /// # Errors
    /// [`StudyFault::UnknownName`].
    pub fn response(&self, name: &str) -> Result<usize, StudyFault> {
        let names = || self.responses.iter().map(|response| response.name.as_str());
        names().position(|known| known == name).ok_or_else(|| StudyFault::unknown("response", name, names()))
    }

    /// The outcome of a variant, from its answers or why there are none.
    pub(crate) fn outcome(&self, answers: Result<Vec<Option<f64>>, Trouble>, way: Way) -> Outcome {
        match answers {
            Ok(responses) => self.solved(responses, way),
            Err(Trouble { status, note }) => self.unsolved(status, note, way),
        }
    }

    /// The outcome of a solved variant: its responses held against the constraints.
    pub fn solved(&self, responses: Vec<Option<f64>>, way: Way) -> Outcome {
        let holds = |constraint: &Constraint| match (responses[constraint.response], constraint.limit) {
            (Some(value), Limit::AtLeast(bound)) => value >= bound,
            (Some(value), Limit::AtMost(bound)) => value <= bound,
            (None, _) => false,
        };
        let feasible = (!self.constraints.is_empty()).then(|| self.constraints.iter().all(holds));
        Outcome { status: Status::Solved, responses, feasible, note: String::new(), way }
    }

    /// The outcome of a variant that was not solved.
    pub fn unsolved(&self, status: Status, note: String, way: Way) -> Outcome {
        let feasible = (!self.constraints.is_empty()).then_some(false);
        Outcome { status, responses: Vec::new(), feasible, note, way }
    }
}

//! Why a sizing task cannot be worked on.

use strutwork_model::Faults;

use crate::sensitivity::SensitivityFault;

/// Why a sizing task cannot be worked on.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SizingFault {
    /// Nothing is to be chosen.
    #[error("nothing is to be chosen: give at least one group its sizes")]
    NoVariables,
    /// A variable's own data do not make a choice.
    #[error("the choice for `{variable}`: {why}")]
    Choice {
        /// The variable.
        variable: String,
        /// What is wrong and what to do.
        why: String,
    },
    /// A name that the model or its cases do not have.
    #[error("there is no {kind} named `{name}`")]
    Unknown {
        /// `tube`, `joint` or `load case`.
        kind: &'static str,
        /// The name.
        name: String,
    },
    /// A limit that limits nothing.
    #[error("the limit on {what} must be a number above 0, not {value}")]
    Limit {
        /// Of what.
        what: String,
        /// As given.
        value: f64,
    },
    /// Sizes from lists and sizes between bounds in one task.
    #[error("some groups choose from a list and others between bounds: give all of them the one or the other")]
    Mixed,
    /// The frame is faulty with the sizes that the search starts from.
    #[error("the frame is faulty with the sizes that the search starts from:\n{0}")]
    Model(Faults),
    /// The load cases cannot be made.
    #[error("the load cases cannot be made: {0}")]
    Cases(String),
    /// Derivatives cannot be given.
    #[error("{0}")]
    Rates(#[from] SensitivityFault),
}

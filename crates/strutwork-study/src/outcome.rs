//! What came of a variant: its responses, or why there are none.

use serde::{Deserialize, Serialize};

use crate::value::Value;

/// How a variant ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Status {
    /// Solved: the responses are there.
    #[serde(rename = "solved")]
    Solved,
    /// The frame, or a part of it, moves without resistance.
    #[serde(rename = "mechanism")]
    Mechanism,
    /// The changed model is not valid: a wall that makes no tube, a joint left in the air.
    #[serde(rename = "model fault")]
    ModelFault,
    /// A load case cannot be built on it.
    #[serde(rename = "load fault")]
    LoadFault,
    /// A script stopped.
    #[serde(rename = "script fault")]
    ScriptFault,
    /// The numbers did not come out: singular, not finite, or a mode that the count shows to be missing.
    #[serde(rename = "unsolved")]
    Unsolved,
    /// The study asks for something that the variant does not have: a case, a joint, a twist that no case measures.
    #[serde(rename = "not there")]
    NotThere,
}

impl Status {
    /// Every status, in the order in which they are told.
    pub const ALL: [Self; 7] = [
        Self::Solved,
        Self::Mechanism,
        Self::ModelFault,
        Self::LoadFault,
        Self::ScriptFault,
        Self::Unsolved,
        Self::NotThere,
    ];

    /// Its word in files and on the terminal.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Solved => "solved",
            Self::Mechanism => "mechanism",
            Self::ModelFault => "model fault",
            Self::LoadFault => "load fault",
            Self::ScriptFault => "script fault",
            Self::Unsolved => "unsolved",
            Self::NotThere => "not there",
        }
    }
}

/// What came of a variant.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// How it ended.
    pub status: Status,
    /// One for each response of the study, in its unit, never NaN; `None` where the variant has none. Empty unless solved.
    /// A utilisation is infinite where nothing can be carried.
    pub responses: Vec<Option<f64>>,
    /// Whether every constraint holds; `None` for a study without constraints. A variant that was not solved holds none.
    pub feasible: Option<bool>,
    /// Why it was not solved; empty otherwise.
    pub note: String,
}

/// A finished variant, as it is kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its number, from 0.
    pub variant: u64,
    /// The values of the parameters, in their order.
    pub values: Vec<Value>,
    /// What came of it.
    pub outcome: Outcome,
}

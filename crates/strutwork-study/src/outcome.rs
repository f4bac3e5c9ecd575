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

/// Which way a variant went. It follows from the study and the variant's number alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Way {
    /// Nothing had to be solved: what is asked follows from the tubes alone.
    #[serde(rename = "weighed")]
    Weighed,
    /// Factored side by side with others, on an analysis that all share.
    #[serde(rename = "side by side")]
    Lanes,
    /// The solutions of the frame as it is were corrected for the tubes that change.
    #[serde(rename = "corrected")]
    Update,
    /// Factored by itself, on what all share.
    #[serde(rename = "by itself")]
    Alone,
    /// From its own spec, through validation, load cases and solution.
    #[serde(rename = "the whole way")]
    Whole(Why),
}

/// Why a variant went the whole way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Why {
    /// Too few variants have in common what is not a matter of tubes and panels: places of joints, a script's own changes.
    #[serde(rename = "few alike")]
    FewAlike,
    /// The frame that the others are held against cannot be built or solved.
    #[serde(rename = "no common frame")]
    NoGround,
    /// A value makes no valid model, or none that can be taken apart.
    #[serde(rename = "value")]
    Value,
    /// What is left out leaves a joint, a part or a group by itself.
    #[serde(rename = "comes apart")]
    ComesApart,
    /// Its load cases are other ones, or cannot be built.
    #[serde(rename = "load cases")]
    Cases,
    /// A variant that was solved both ways came out differently.
    #[serde(rename = "drift")]
    Drift,
    /// Nothing that is asked goes faster otherwise.
    #[serde(rename = "asked")]
    Asked,
}

impl Way {
    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Weighed => "weighed",
            Self::Lanes => "side by side",
            Self::Update => "corrected",
            Self::Alone => "by itself",
            Self::Whole(_) => "the whole way",
        }
    }
}

impl Why {
    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::FewAlike => "few alike",
            Self::NoGround => "no common frame",
            Self::Value => "value",
            Self::ComesApart => "comes apart",
            Self::Cases => "load cases",
            Self::Drift => "drift",
            Self::Asked => "asked",
        }
    }

    /// In words, for a reader of the summary.
    pub const fn words(self) -> &'static str {
        match self {
            Self::FewAlike => "too few have the places of joints, or a script's own changes, in common",
            Self::NoGround => "the frame that they have in common cannot be built or solved",
            Self::Value => "a value makes no valid tube or panel",
            Self::ComesApart => "what is left out leaves a joint, a part or a group by itself",
            Self::Cases => "their load cases are other ones, or cannot be built",
            Self::Drift => "one of them, solved both ways, came out differently",
            Self::Asked => "nothing that is asked goes faster otherwise",
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
    /// Which way it went.
    pub way: Way,
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

//! A value of a parameter: a number in door units, or a word.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A value of a parameter: a finite number in door units, or a word such as the name of a stock size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Value {
    /// A finite number; its unit is in the parameter's name.
    Number(f64),
    /// A word.
    Word(String),
}

impl Value {
    /// The number; `None` for a word.
    pub const fn number(&self) -> Option<f64> {
        match self {
            Self::Number(number) => Some(*number),
            Self::Word(_) => None,
        }
    }

    /// The word; `None` for a number.
    pub fn word(&self) -> Option<&str> {
        match self {
            Self::Number(_) => None,
            Self::Word(word) => Some(word),
        }
    }
}

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(number) => write!(f, "{number}"),
            Self::Word(word) => f.write_str(word),
        }
    }
}

impl From<f64> for Value {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<&str> for Value {
    fn from(word: &str) -> Self {
        Self::Word(word.to_owned())
    }
}

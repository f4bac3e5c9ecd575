//! What carries or takes something, as written in a cell or in keys.

use serde::Serialize;

use super::Written;

/// What carries a mass, or takes the force of a link, a wheel, a place or a shaft, as written.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum CarrierWritten {
    /// The names of joints; empty where nothing is said.
    Joints(Vec<Written<String>>),
    /// The name of a body.
    Body(Written<String>),
    /// The name of a wheel: the upright of its corner.
    Upright(Written<String>),
}

impl Default for CarrierWritten {
    fn default() -> Self {
        Self::Joints(Vec::new())
    }
}

impl CarrierWritten {
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        matches!(self, Self::Joints(joints) if joints.is_empty())
    }
}

/// What a load acts on, as written.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum LoadedWritten {
    /// The name of a joint.
    Joint(Written<String>),
    /// The name of a body.
    Body(Written<String>),
}

impl LoadedWritten {
    /// The name, of whichever it is.
    pub const fn name(&self) -> &Written<String> {
        match self {
            Self::Joint(name) | Self::Body(name) => name,
        }
    }
}

impl Default for LoadedWritten {
    fn default() -> Self {
        Self::Joint(Written::default())
    }
}

/// What stands after `word:` in a text, with its place; `None` where the text does not begin so.
pub(super) fn after(word: &str, text: &Written<String>) -> Option<Written<String>> {
    let rest = text.strip_prefix(word)?.trim_start().strip_prefix(':')?;
    Some(Written { value: rest.trim().to_owned(), spot: text.spot })
}

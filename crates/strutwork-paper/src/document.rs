//! A whole document.

use crate::block::Block;

/// A whole document.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its title, as a reader's window shows it.
    pub title: String,
    /// Its language, as a tag: `en-GB`.
    pub language: String,
    /// Its paper.
    pub sheet: Sheet,
    /// What stands on each page.
    pub running: Running,
    /// What it says.
    pub blocks: Vec<Block>,
}

/// Paper, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sheet {
    /// 210 mm by 297 mm.
    #[default]
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

/// What stands at the head and at the foot of each page; the number of the page stands at the foot by itself.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Running {
    /// Head, left: the model.
    pub head: String,
    /// Head, right: revision and date.
    pub head_right: String,
    /// Foot, left: what tells these results from others.
    pub foot: String,
}

impl Document {
    /// A document without blocks, on A4.
    pub fn new(title: impl Into<String>, language: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            language: language.into(),
            sheet: Sheet::default(),
            running: Running::default(),
            blocks: Vec::new(),
        }
    }
}

impl Sheet {
    /// Width and height, pt.
    pub(crate) const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (595.276, 841.89),
            Self::Letter => (612.0, 792.0),
        }
    }
}

//! What a case's values are read off: its frame.

use crate::case::Case;
use crate::frame::Frame;
use crate::run::{Problem, RunFault};
use crate::unit::Dimension;
use crate::what::What;

/// A case, solved.
pub(crate) struct Solved {
    frame: Frame,
}

impl Solved {
    /// Solves.
    pub(crate) fn of(case: &Case) -> Result<Self, RunFault> {
        Ok(Self { frame: Frame::of(case)? })
    }

    /// Our value, SI, of something that measures `wanted`.
    pub(crate) fn value(&self, what: &What, wanted: Dimension) -> Result<f64, Problem> {
        self.frame.value(what, wanted)
    }
}

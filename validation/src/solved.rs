//! What a case's values are read off: its frame, and the formulas that it asks for.

use strutwork_checks::Calculation;
use strutwork_study::sizing::SizingOutcome;

use crate::case::Case;
use crate::frame::Frame;
use crate::lines::line;
use crate::run::{Problem, RunFault};
use crate::sizing::Sizing;
use crate::unit::Dimension;
use crate::what::What;

/// A case, solved.
pub(crate) struct Solved {
    /// `None` where the case has no model.
    frame: Option<Frame>,
    /// By name.
    formulas: Vec<(String, Calculation)>,
    /// What was asked to be chosen, and what was found.
    sized: Option<(Sizing, SizingOutcome)>,
}

impl Solved {
    /// Solves.
    pub(crate) fn of(case: &Case) -> Result<Self, RunFault> {
        let alone = case.files.0.is_empty() && !case.formulas.is_empty();
        let frame = if alone { None } else { Some(Frame::of(case)?) };
        let formulas = case.formulas.iter().map(|formula| (formula.name.clone(), formula.page())).collect();
        let sized = case.sizing.as_ref().map(|sizing| Ok::<_, RunFault>((sizing.clone(), sizing.run(case)?)));
        Ok(Self { frame, formulas, sized: sized.transpose()? })
    }

    /// Our value, SI, of something that measures `wanted`.
    pub(crate) fn value(&self, what: &What, wanted: Dimension) -> Result<f64, Problem> {
        if let What::Formula { formula, symbol } = what {
            let found = self.formulas.iter().find(|(name, _)| name == formula);
            let (_, page) = found.ok_or_else(|| format!("there is no formula `{formula}`"))?;
            return line(page, symbol, wanted);
        }
        if let What::SizedMass(part) = what {
            let (sizing, outcome) = self.sized.as_ref().ok_or("the case asks for no sizes")?;
            return sizing.value(outcome, *part);
        }
        let frame = self.frame.as_ref().ok_or_else(|| "the case has no model".to_owned())?;
        frame.value(what, wanted)
    }
}

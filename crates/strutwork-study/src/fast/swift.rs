//! A variant of which the movements are known: what else is wanted of it is found when somebody asks.

use std::sync::Arc;

use strutwork_loads::LoadCases;
use strutwork_model::{JointId, Model};
use strutwork_solve::CaseResult;
use strutwork_solve::reanalysis::{Family, Moved, Movements, Recovered};
use strutwork_solve::results::MeasureResult;

use super::act::{Dress, Parts};

const REFUSED: &str = "bug: load cases that were solved are refused afterwards";

/// A solved variant of a family.
#[derive(Debug)]
pub(crate) struct Swift {
    pub family: Arc<Family>,
    /// The family's model.
    pub frame: Arc<Model>,
    pub movements: Movements,
    pub own: Own,
    pub cases: Arc<LoadCases>,
}

/// The model of a variant.
#[derive(Debug, Clone)]
pub(crate) enum Own {
    /// It is there.
    Made(Arc<Model>),
    /// The family's, with these sections for these parts.
    Dressed(Vec<(Dress, Parts)>),
}

impl Own {
    pub(crate) fn model(&self, frame: &Model) -> Arc<Model> {
        match self {
            Self::Made(model) => Arc::clone(model),
            Self::Dressed(dresses) => {
                let parts = dresses.iter().flat_map(|(dress, parts)| dress.iter().zip(parts.iter()));
                Arc::new(frame.with_sections(parts.map(|(section, tubes)| (section, tubes.as_slice()))))
            }
        }
    }
}

impl Swift {
    fn moved(&self) -> Moved<'_> {
        self.movements.of(&self.family)
    }

    /// A model with the variant's joints.
    pub(crate) fn frame(&self) -> &Model {
        &self.frame
    }

    /// The variant's model.
    pub(crate) fn model(&self) -> Arc<Model> {
        self.own.model(&self.frame)
    }

    /// Its load cases.
    pub(crate) fn cases(&self) -> &LoadCases {
        &self.cases
    }

    /// Movement of a joint, m and rad, global axes.
    pub(crate) fn movement(&self, case: usize, joint: JointId) -> [f64; 6] {
        self.moved().joint(case, joint)
    }

    /// What the case wants read off.
    pub(crate) fn measures(&self, case: usize) -> Vec<MeasureResult> {
        self.moved().measures(case)
    }

    /// Everything of one case; `model` is the variant's own.
    ///
    /// # Panics
    /// Never: its load cases gave right-hand sides before it was solved.
    pub(crate) fn result(&self, model: &Model, case: usize) -> CaseResult {
        let recovered = Recovered::of(&self.family, model, &self.cases);
        recovered.and_then(|recovered| recovered.case(&self.moved(), case)).expect(REFUSED)
    }

    /// [`Self::result`] of every case.
    ///
    /// # Panics
    /// Never, as there.
    pub(crate) fn results(&self, model: &Model) -> Vec<CaseResult> {
        self.moved().results(model, &self.cases).expect(REFUSED)
    }
}

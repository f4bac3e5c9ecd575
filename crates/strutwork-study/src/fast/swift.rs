//! A variant of which the movements are known: what else is wanted of it is found when somebody asks.

use std::sync::Arc;

use strutwork_loads::LoadCases;
use strutwork_model::{JointId, Model};
use strutwork_solve::CaseResult;
use strutwork_solve::reanalysis::{Moved, Movements, Recovered};
use strutwork_solve::results::MeasureResult;

use super::act::Dress;
use super::ground::Ground;

/// A solved variant of a ground.
#[derive(Debug)]
pub(crate) struct Swift {
    pub(super) ground: Arc<Ground>,
    pub(super) movements: Movements,
    pub(super) model: Own,
    pub(super) cases: Arc<LoadCases>,
}

/// The model of a variant.
#[derive(Debug, Clone)]
pub(super) enum Own {
    /// It is there.
    Made(Arc<Model>),
    /// The ground's, with these sections for the parts of these acts.
    Dressed(Vec<(usize, Dress)>),
}

impl Own {
    pub(super) fn model(&self, ground: &Ground) -> Arc<Model> {
        match self {
            Self::Made(model) => Arc::clone(model),
            Self::Dressed(dresses) => {
                let changes = dresses.iter().flat_map(|(act, dress)| {
                    let parts = ground.acts[*act].parts().iter().map(Vec::as_slice);
                    dress.iter().zip(parts)
                });
                Arc::new(ground.model.with_sections(changes))
            }
        }
    }
}

impl Swift {
    fn moved(&self) -> Moved<'_> {
        self.movements.of(self.ground.family())
    }

    /// A model with the variant's joints.
    pub(crate) fn frame(&self) -> &Model {
        &self.ground.model
    }

    /// The variant's model.
    pub(crate) fn model(&self) -> Arc<Model> {
        self.model.model(&self.ground)
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
        let recovered = Recovered::of(self.ground.family(), model, &self.cases);
        let result = recovered.and_then(|recovered| recovered.case(&self.moved(), case));
        result.expect("bug: load cases that were solved are refused afterwards")
    }
}

//! What all cases of one model rest on: its masses and the statics of its corners.

use strutwork_model::model::Model;

use crate::error::LoadError;
use crate::masses::MassModel;
use crate::suspension::Uprights;

/// Masses and uprights of a model, worked out once for all its cases.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Basis {
    pub(crate) mass: MassModel,
    pub(crate) uprights: Uprights,
}

impl Basis {
    /// Of a model.
    ///
    /// # Errors
    /// [`LoadError::Upright`] for the first corner whose links do not hold its upright.
    pub(crate) fn of(model: &Model) -> Result<Self, LoadError> {
        Ok(Self { mass: MassModel::of(model), uprights: Uprights::of(model)? })
    }

    /// Everything that must have mass for `wanted` has it.
    ///
    /// # Errors
    /// Those of [`MassModel::needed`].
    pub(crate) fn need_mass(&self, model: &Model, wanted: &'static str) -> Result<(), LoadError> {
        self.mass.needed(model, wanted)
    }
}

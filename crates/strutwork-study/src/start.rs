//! The model that a study starts from: what its tubes are worth before anything is varied.

use std::sync::Arc;

use strutwork_model::Model;
use strutwork_model::validate::validate;

use crate::evaluate::{CaseSource, Wanted};
use crate::exact::{measures_twist, unit_twist};
use crate::sensitivity::Worth;
use crate::study::Study;

/// The model as it is, with what its tubes are worth for the torsional stiffness.
#[derive(Debug, Clone)]
pub struct Start {
    /// The model; `None` where it is not valid as it stands, and only its variants are.
    pub model: Option<Arc<Model>>,
    /// What its tubes are worth; `Err` says why that is not known.
    pub worth: Result<Worth, String>,
}

impl Start {
    /// Of a study: by the first case that measures a twist, else by a couple between the spring places, as its variants.
    pub fn of(study: &Study, cases: &dyn CaseSource) -> Self {
        let model = match validate(&study.base) {
            Ok(warned) => Arc::new(warned.value),
            Err(_) => return Self { model: None, worth: Err("the model as it is has faults".to_owned()) },
        };
        let worth = worth(&model, cases);
        Self { model: Some(model), worth }
    }
}

fn worth(model: &Arc<Model>, cases: &dyn CaseSource) -> Result<Worth, String> {
    let mut cases = cases.cases(model, Wanted::Twist).map_err(|trouble| trouble.note)?;
    if !cases.0.iter().any(measures_twist) {
        cases = unit_twist(model).map_err(|trouble| trouble.note)?;
    }
    match Worth::of(model, &cases) {
        Ok(Some(worth)) => Ok(worth),
        Ok(None) => Err("no load case measures a twist".to_owned()),
        Err(fault) => Err(fault.to_string()),
    }
}

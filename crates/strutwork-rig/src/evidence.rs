//! Everything that was measured on a model's frame, judged.

use strutwork_model::Model;

use crate::judge::{Judgement, judge};
use crate::modelled::{Modelled, modelled};
use crate::remark::{Remark, codes};
use crate::weights::{MassSheet, mass_sheet};

/// What was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// The rig's sheet; `None` without one.
    pub rig: Option<RigEvidence>,
    /// What the scales say; empty where nothing was weighed.
    pub scales: MassSheet,
}

/// A rig's sheet beside the model.
#[derive(Debug, Clone, PartialEq)]
pub struct RigEvidence {
    /// What it says.
    pub judgement: Judgement,
    /// What the model says; `None` where it says nothing.
    pub modelled: Option<Modelled>,
}

impl Evidence {
    /// All remarks, the rig's first.
    pub fn remarks(&self) -> impl Iterator<Item = &Remark> {
        let rig = self.rig.iter().flat_map(|rig| &rig.judgement.remarks);
        rig.chain(&self.scales.remarks)
    }
}

/// Judges what the model's folder holds of measurements.
pub fn evidence(model: &Model) -> Evidence {
    Evidence { rig: rig_evidence(model), scales: mass_sheet(model) }
}

/// Judges the rig's sheet beside the model; `None` without a sheet. A model that says nothing of it is a remark.
pub fn rig_evidence(model: &Model) -> Option<RigEvidence> {
    let sheet = model.rig()?;
    let (modelled, unsaid) = match modelled(model, sheet) {
        Ok(modelled) => (Some(modelled), None),
        Err(why) => (None, Some(why)),
    };
    let mut judgement = judge(sheet, modelled.as_ref());
    if let Some(why) = unsaid {
        let message = format!("the sheet is not held against the model: {why}");
        judgement.remarks.push(Remark::rig(codes::NO_MODEL, "", 0, message, why.remedy()));
    }
    Some(RigEvidence { judgement, modelled })
}

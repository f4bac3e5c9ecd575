//! What was measured, for `run.json`.

use strutwork_model::units::{to_mm, to_nm_per_deg};
use strutwork_rig::Measured;

use crate::run::Run;

use super::fields::{RigFields, ScaleFields};

/// The twist rig; `None` without `rig.csv`.
pub(super) fn rig(run: &Run<'_>) -> Option<RigFields> {
    let (sheet, evidence) = (run.model.rig()?, run.asked.evidence.as_ref()?.rig.as_ref()?);
    let judgement = &evidence.judgement;
    let k = |measured: &Option<Measured>| measured.as_ref().map(|measured| to_nm_per_deg(measured.stiffness));
    let both = judgement.stiffness.as_ref();
    let against = judgement.against.as_ref();
    Some(RigFields {
        stations: sheet.stations.len(),
        steps: sheet.steps.len(),
        readings: sheet.readings.len(),
        left_out: judgement.stations.iter().map(|station| station.left_out).sum(),
        stiffness_nm_per_deg: k(&judgement.stiffness),
        interval_nm_per_deg: both.map(|both| both.interval.map(to_nm_per_deg)),
        interval_of_fit_nm_per_deg: both.map(|both| both.by_fit.map(to_nm_per_deg)),
        loading_nm_per_deg: k(&judgement.loading),
        unloading_nm_per_deg: k(&judgement.unloading),
        modelled_nm_per_deg: against.map(|against| to_nm_per_deg(against.rigid)),
        modelled_soft_nm_per_deg: against.and_then(|against| against.soft).map(to_nm_per_deg),
        measured_over_modelled: against.map(|against| against.ratio),
        ratio_interval: against.map(|against| against.interval),
        standing: against.map(|against| against.standing.word()),
        loop_percent: judgement.hysteresis.map(|of| of.width * 100.0),
        taken_for_granted: judgement.assumed.len(),
        remarks: judgement.remarks.iter().map(|remark| remark.code.0).collect(),
    })
}

/// The scales; `None` where nothing was weighed.
pub(super) fn scales(run: &Run<'_>) -> Option<ScaleFields> {
    let sheet = Some(&run.asked.evidence.as_ref()?.scales).filter(|sheet| !sheet.is_empty())?;
    Some(ScaleFields {
        parts: sheet.parts.len(),
        corners_kg: sheet.corners,
        centre_mm: sheet.centre.map(|centre| centre.at.map(to_mm)),
        centre_uncertainty_mm: sheet.centre.map(|centre| centre.uncertainty.map(to_mm)),
        height_mm: sheet.height.map(|height| to_mm(height.height)),
        height_uncertainty_mm: sheet.height.map(|height| to_mm(height.uncertainty)),
        remarks: sheet.remarks.iter().map(|remark| remark.code.0).collect(),
    })
}

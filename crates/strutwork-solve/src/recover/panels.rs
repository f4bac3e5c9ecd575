//! Shear of each panel.

use strutwork_model::model::FixingKind;
use strutwork_model::{IndexVec, Model, PanelId};

use super::Movement;
use crate::elements::{Elements, displacements};
use crate::results::PanelResult;

/// Shear of each panel in one case.
///
/// # Source
/// q/t, q·p and q/w: equilibrium of an edge.
pub(crate) fn panels(model: &Model, elements: &Elements, movement: &Movement) -> IndexVec<PanelId, PanelResult> {
    let sheets = model.panels().iter().zip(elements.sheets());
    sheets
        .map(|(row, sheet)| {
            let moved: Vec<[f64; 6]> = sheet.corners.iter().map(|corner| *movement.node(*corner)).collect();
            let edge_flows = sheet.panel.flows(&displacements(&moved)).edges;
            let flow = edge_flows.iter().fold(0.0_f64, |most, flow| most.max(flow.abs()));
            let (stress, buckling_stress) = (flow / row.thickness, sheet.panel.buckling_stress());
            let kind = row.fixing.map(|fixing| model.fixings()[fixing].kind);
            let (fastener, bond_stress) = match kind {
                Some(FixingKind::Fasteners { pitch, .. }) => (Some(flow * pitch), None),
                Some(FixingKind::Bond { width, .. }) => (None, Some(flow / width)),
                None => (None, None),
            };
            let buckling_ratio = stress / buckling_stress;
            PanelResult { edge_flows, flow, stress, buckling_stress, buckling_ratio, fastener, bond_stress }
        })
        .collect()
}

//! Free cases: a frame that nothing holds, its loads balanced by inertia.
//!
//! The stiffness of a free frame is singular. Six freedoms that determine its place are held; as the loads are in balance
//! they take nothing, and no force inside depends on which six they are. The displacements are then freed of the rigid
//! motion that the choice put into them.

mod determinate;
mod projection;

use strutwork_loads::case::Nature;
use strutwork_loads::{LoadCase, unit_inertia};
use strutwork_model::Model;

use crate::assembly::node_loads;
use crate::elements::Elements;

pub(crate) use determinate::{determinate, loose, supports};
pub(crate) use projection::Projection;

/// What frees displacements of rigid motion, weighed by the same inertia loads as act in the cases.
///
/// A model without masses, whose cases can only be in balance by themselves, is freed so that its joints move least.
pub(crate) fn projection(model: &Model, elements: &Elements) -> Projection {
    let Ok(unit) = unit_inertia(model) else { return Projection::without_mass(model) };
    let loads = unit.loads.map(|loads| {
        let mut case = LoadCase::new("", Nature::Notional, Vec::new());
        (case.tube_loads, case.joint_loads, case.body_loads) = (loads.tube_loads, loads.joint_loads, loads.body_loads);
        // Inertia acts against the acceleration.
        node_loads(model, elements, &case).into_iter().map(|force| force.map(|value| -value)).collect()
    });
    Projection::of(model, unit.about, &loads)
}

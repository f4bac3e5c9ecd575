//! Forces that supports exert on the frame.

use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};
use strutwork_model::{Dof, IndexVec, JointId, Model};

use super::{end_forces, joint_values};
use crate::assembly::LoadVectors;
use crate::elements::Elements;

/// Reactions at each supported joint, in support order: N, N·m, global axes.
///
/// A fixed freedom takes what its tubes bring less what is applied there; a spring takes −k·u; a free one nothing.
pub(crate) fn reactions(
    model: &Model,
    elements: &Elements,
    loads: &LoadVectors,
    supports: &[Support],
    displacements: &IndexVec<JointId, [f64; 6]>,
) -> Vec<(JointId, [f64; 6])> {
    let mut brought = vec![[0.0; 6]; model.joints().len()];
    let mut held = vec![false; model.joints().len()];
    for support in supports {
        held[support.joint.index()] = true;
    }
    for (id, tube) in model.tubes().iter_with_id() {
        let element = elements.get(id);
        if !element.joints.iter().any(|joint| held[*joint]) {
            continue;
        }
        let joints = joint_values(&displacements[tube.from], &displacements[tube.to]);
        let forces = element.axes.vec_to_global(&end_forces(element, loads.spans.on(id), &joints));
        for end in 0..2 {
            for dof in 0..6 {
                brought[element.joints[end]][dof] += forces[6 * end + dof];
            }
        }
    }
    supports
        .iter()
        .map(|support| {
            let joint = support.joint.index();
            let force = Dof::ALL.map(|dof| match support.holds[dof] {
                Hold::Free => 0.0,
                Hold::Fixed => brought[joint][dof.index()] - loads.direct[joint][dof.index()],
                Hold::Spring(stiffness) => -stiffness * displacements[support.joint][dof.index()],
            });
            (support.joint, force)
        })
        .collect()
}

//! Forces of supports and of mounts on the frame.

use nalgebra::DVector;
use strutwork_element::Vec12;
use strutwork_model::ids::Id;
use strutwork_model::model::{Bond, Hold, Support};
use strutwork_model::{Dof, IndexVec, JointId, Model, MountId, TubeId};

use super::{Movement, joint_values};
use crate::assembly::LoadVectors;
use crate::elements::Elements;
use crate::numbering::Numbering;
use crate::results::MountResult;
use crate::rigid;

/// What supports exert on each supported joint (in support order) and bodies on each mount's joint: N, N·m, global axes.
pub(crate) struct Bearing {
    /// Of the supports.
    pub reactions: Vec<(JointId, [f64; 6])>,
    /// Of the bodies, one entry a mount.
    pub mounts: IndexVec<MountId, MountResult>,
}

/// Forces of supports and bodies on the frame's joints.
///
/// A spring takes −k·u, or k times its stretch; a fixed or a rigidly bolted freedom what everything elastic at the joint
/// takes less what is applied there; `tube_forces` are those that a tube's joints exert on it, global axes, from their
/// movements. Where a support holds a rigidly bolted joint, the reactions are those that hold the
/// body; of more than are needed, those of the least sum of squares.
pub(crate) fn bearing(
    model: &Model,
    elements: &Elements,
    numbering: &Numbering,
    loads: &LoadVectors,
    supports: &[Support],
    movement: &Movement,
    tube_forces: &dyn Fn(TubeId, &Vec12) -> Vec12,
) -> Bearing {
    let wanted = supports.iter().map(|support| support.joint.index());
    let wanted = wanted.chain(numbering.mounted().iter().map(|m| m.joint));
    let rest = rest(model, elements, loads, wanted, movement, tube_forces);
    let tied = |joint: usize, dof: Dof| {
        numbering.mounted().iter().any(|mount| mount.joint == joint && mount.rigid[dof.index()])
    };
    let mut reactions: Vec<(JointId, [f64; 6])> = supports
        .iter()
        .map(|support| {
            let joint = support.joint.index();
            let force = Dof::ALL.map(|dof| match support.holds[dof] {
                Hold::Free => 0.0,
                Hold::Fixed if tied(joint, dof) => 0.0,
                Hold::Fixed => rest[joint][dof.index()],
                Hold::Spring(stiffness) => -stiffness * movement.joints[support.joint][dof.index()],
            });
            (support.joint, force)
        })
        .collect();
    let on_frame = |id: MountId, reactions: &[(JointId, [f64; 6])]| -> [f64; 6] {
        let mount = &model.mounts()[id];
        let reaction = reactions.iter().find(|(joint, _)| *joint == mount.joint).map_or([0.0; 6], |(_, force)| *force);
        let body = rigid::arm(model.bodies()[mount.body].at, model.joints()[mount.joint].at);
        let point = rigid::carried(&movement.bodies[mount.body], body);
        std::array::from_fn(|dof| match mount.bonds.0[dof] {
            Bond::Rigid => rest[mount.joint.index()][dof] - reaction[dof],
            Bond::Spring(stiffness) => stiffness * (point[dof] - movement.joints[mount.joint][dof]),
            Bond::Free => 0.0,
        })
    };
    let mut held: Vec<(usize, Dof, f64)> = Vec::new();
    for condition in numbering.conditions() {
        let mut needed = loads.direct[condition.body].map(|load| -load);
        for (id, mount) in model.mounts().iter_with_id().filter(|(_, m)| numbering.body(m.body) == condition.body) {
            let arm = rigid::arm(model.bodies()[mount.body].at, model.joints()[mount.joint].at);
            let force = rigid::reduced(&on_frame(id, &reactions), arm);
            needed.iter_mut().zip(force).for_each(|(sum, part)| *sum += part);
        }
        let shares = &condition.share * DVector::from_column_slice(&needed);
        held.extend(condition.rows.iter().zip(shares.iter()).map(|((joint, dof), share)| (*joint, *dof, *share)));
    }
    for (joint, dof, force) in held {
        if let Some((_, reaction)) = reactions.iter_mut().find(|(held, _)| held.index() == joint) {
            reaction[dof.index()] = force;
        }
    }
    let mounts =
        model.mounts().ids().map(|id| mount_result(on_frame(id, &reactions), model.mounts()[id].axis)).collect();
    Bearing { reactions, mounts }
}

/// At the wanted joints: what everything elastic takes from the joint, less what is applied there.
fn rest(
    model: &Model,
    elements: &Elements,
    loads: &LoadVectors,
    joints: impl Iterator<Item = usize>,
    movement: &Movement,
    tube_forces: &dyn Fn(TubeId, &Vec12) -> Vec12,
) -> Vec<[f64; 6]> {
    let mut rest = vec![[0.0; 6]; model.joints().len()];
    let mut wanted = vec![false; model.joints().len()];
    for joint in joints {
        wanted[joint] = true;
        rest[joint] = loads.direct[joint].map(|load| -load);
    }
    let mut add = |joint: usize, forces: &[f64]| {
        if wanted[joint] {
            rest[joint].iter_mut().zip(forces).for_each(|(sum, part)| *sum += part);
        }
    };
    for (id, tube) in model.tubes().iter_with_id() {
        let element = elements.get(id);
        if element.joints.iter().any(|joint| wanted[*joint]) {
            let joints = joint_values(&movement.joints[tube.from], &movement.joints[tube.to]);
            let forces = tube_forces(id, &joints);
            for (end, joint) in element.joints.into_iter().enumerate() {
                add(joint, &forces.as_slice()[6 * end..6 * end + 6]);
            }
        }
    }
    for sheet in elements.sheets() {
        let moved: Vec<[f64; 6]> = sheet.corners.iter().map(|corner| *movement.node(*corner)).collect();
        for (corner, force) in sheet.corners.iter().zip(sheet.joint_forces(&moved)) {
            add(*corner, &force);
        }
    }
    for bush in elements.bushes() {
        let [joint, body] = bush.nodes;
        add(joint, &bush.on_joint(movement.node(joint), movement.node(body)).map(|force| -force));
    }
    rest
}

fn mount_result(on_frame: [f64; 6], axis: Option<[f64; 3]>) -> MountResult {
    let (force, moment) = ([on_frame[0], on_frame[1], on_frame[2]], rigid::norm(&on_frame[3..]));
    let along = axis.map(|axis| (axis, force.iter().zip(axis).map(|(f, a)| f * a).sum::<f64>()));
    MountResult {
        on_frame,
        axial: along.map(|(_, along)| along),
        shear: along.map(|(axis, along)| rigid::norm(&[0, 1, 2].map(|i| force[i] - along * axis[i]))),
        moment,
    }
}

//! Body forces: what gravity and inertia do to every tube and every mass.

use strutwork_model::DofMap;
use strutwork_model::model::{Axes, Carrier, JointLoad, Model, TubeLoad};

use crate::spread;

/// The loads of a body force that varies linearly in space.
pub(crate) struct BodyLoads {
    /// One for each tube that has mass.
    pub(crate) tube_loads: Vec<TubeLoad>,
    /// The masses' forces, spread to the joints that carry them.
    pub(crate) joint_loads: Vec<JointLoad>,
}

/// A body force (m/s², as a function of place) on every tube and every mass.
///
/// Tubes take it as a load along their length, linear between the ends: exact for a field that is linear in space, such as
/// gravity and the inertia of a rigid body. Each mass's force acts at its centre and is spread to its joints.
pub(crate) fn body_loads(model: &Model, field: impl Fn([f64; 3]) -> [f64; 3]) -> BodyLoads {
    let mut tube_loads = Vec::new();
    for (tube, row) in model.tubes().iter_with_id() {
        let line_mass = model.sections()[row.section].area * model.materials()[row.material].density;
        if line_mass > 0.0 {
            let at = |joint| field(model.joints()[joint].at).map(|b: f64| line_mass * b);
            tube_loads.push(TubeLoad { tube, axes: Axes::Global, from: at(row.from), to: at(row.to) });
        }
    }
    let mut joint_loads = Vec::new();
    for mass in model.masses() {
        let Carrier::Joints(joints) = &mass.carrier else { continue };
        let points: Vec<[f64; 3]> = joints.iter().map(|&joint| model.joints()[joint].at).collect();
        let force = field(mass.at).map(|b| mass.mass * b);
        let shares = spread(force, [0.0; 3], mass.at, &points);
        joint_loads.extend(joints.iter().zip(shares).map(|(&joint, share)| JointLoad { joint, load: DofMap(share) }));
    }
    BodyLoads { tube_loads, joint_loads }
}

//! Whether what is applied and what the supports give are in balance, summed without the stiffness matrix.

use strutwork_loads::LoadCase;
use strutwork_model::{JointId, Model};

use crate::assembly::{LoadVectors, end_loads};
use crate::elements::Elements;
use crate::mechanism;
use crate::recover::{Movement, joint_values};
use crate::rigid;

/// Loads and reactions of one case, and how far they are from cancelling.
pub(crate) struct Balance {
    /// Everything applied, reduced to the origin: N, N·m.
    pub applied: [f64; 6],
    /// All reactions, reduced to the origin: N, N·m.
    pub reacted: [f64; 6],
    /// Greatest of |applied + reacted + couples| over the sum of magnitudes.
    pub imbalance: f64,
}

/// The balance of one case, whose loads have this size; `more` acts besides the case's loads, and `couples` are what axial
/// forces make on bent tubes: N·m.
pub(crate) fn balance(
    model: &Model,
    case: &LoadCase,
    more: &[f64; 6],
    couples: &[f64; 3],
    reactions: &[(JointId, [f64; 6])],
    size: Size,
) -> Balance {
    let mut applied = case.resultant(model);
    applied.iter_mut().zip(more).for_each(|(sum, part)| *sum += part);
    let mut reacted = [0.0; 6];
    for (joint, force) in reactions {
        let moved = rigid::reduced(force, model.joints()[*joint].at);
        reacted.iter_mut().zip(moved).for_each(|(sum, part)| *sum += part);
    }
    let bent = [0.0, 0.0, 0.0, couples[0], couples[1], couples[2]];
    let sum = std::array::from_fn(|i| applied[i] + reacted[i] + bent[i]);
    let imbalance = size.with(reactions).share(&sum);
    Balance { applied, reacted, imbalance }
}

/// What unbalanced forces are measured by: the sums of the magnitudes of all forces and moments.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Size {
    forces: f64,
    moments: f64,
    /// A length for what forces may bring about the origin, and moments as forces, m; > 0.
    arm: f64,
}

impl Size {
    /// The size of a case's loads. Where nothing but settlements and temperatures acts, that of the tubes' end forces before
    /// they cancel, |k||u| and the fixed-end forces: there all reactions may be rounding alone (a determinate frame only
    /// moves), and these are what they are rounded from.
    pub(crate) fn of(
        model: &Model,
        elements: &Elements,
        loads: &LoadVectors,
        case: &LoadCase,
        movement: &Movement,
    ) -> Self {
        let first = model.joints().iter().next().map_or(0.0, |joint| rigid::norm(&joint.at));
        let mut size = Self { forces: 0.0, moments: 0.0, arm: 2.0 * mechanism::size(model) + first };
        let on_joints = case.joint_loads.iter().map(|load| load.load.0);
        for load in on_joints.chain(case.body_loads.iter().map(|load| load.load.0)) {
            size.add(&load[..3], &load[3..]);
        }
        for load in &case.tube_loads {
            size.forces += (rigid::norm(&load.from) + rigid::norm(&load.to)) / 2.0 * model.length(load.tube);
        }
        for load in &case.tube_point_loads {
            size.add(&load.force, &load.moment);
        }
        if size.forces > 0.0 || size.moments > 0.0 {
            return size;
        }
        for (id, tube) in model.tubes().iter_with_id() {
            let element = elements.get(id);
            let moved = joint_values(&movement.joints[tube.from], &movement.joints[tube.to]).abs();
            let fixed = end_loads(element, loads.spans.on(id)).abs();
            for (row, force) in (element.global_stiffness().abs() * moved + fixed).iter().enumerate() {
                if row / 3 % 2 == 0 { size.forces += force } else { size.moments += force }
            }
        }
        size
    }

    /// With these forces at joints as well.
    pub(crate) fn with(mut self, forces: &[(JointId, [f64; 6])]) -> Self {
        for (_, force) in forces {
            self.add(&force[..3], &force[3..]);
        }
        self
    }

    /// The greatest force over all forces and what moments make of forces, or moment over all moments about the origin.
    pub(crate) fn share(&self, unbalanced: &[f64; 6]) -> f64 {
        let most = |values: &[f64]| values.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
        let share = |off: f64, scale: f64| if off == 0.0 { 0.0 } else { off / scale };
        let moments = self.moments + self.forces * self.arm;
        share(most(&unbalanced[..3]), moments / self.arm).max(share(most(&unbalanced[3..]), moments))
    }

    fn add(&mut self, force: &[f64], moment: &[f64]) {
        self.forces += rigid::norm(force);
        self.moments += rigid::norm(moment);
    }
}

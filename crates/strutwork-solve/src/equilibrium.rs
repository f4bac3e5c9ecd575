//! Whether what is applied and what the supports give are in balance, summed without the stiffness matrix.

use strutwork_loads::LoadCase;
use strutwork_model::{IndexVec, JointId, Model};

use crate::assembly::{LoadVectors, raw_end_loads};
use crate::elements::Elements;
use crate::mechanism;
use crate::recover::joint_values;

/// Loads and reactions of one case, and how far they are from cancelling.
pub(crate) struct Balance {
    /// Everything applied, reduced to the origin: N, N·m.
    pub applied: [f64; 6],
    /// All reactions, reduced to the origin: N, N·m.
    pub reacted: [f64; 6],
    /// Greatest of |applied + reacted| over the sum of magnitudes.
    pub imbalance: f64,
}

/// The balance of one case.
pub(crate) fn balance(
    model: &Model,
    elements: &Elements,
    loads: &LoadVectors,
    case: &LoadCase,
    reactions: &[(JointId, [f64; 6])],
    displacements: &IndexVec<JointId, [f64; 6]>,
) -> Balance {
    let applied = case.resultant(model);
    let reacted = reduce(model, reactions);
    let cancelling = cancelling(model, elements, loads, case, displacements);
    let imbalance = imbalance(model, case, reactions, &applied, &reacted, cancelling);
    Balance { applied, reacted, imbalance }
}

/// Forces at joints, reduced to the origin.
fn reduce(model: &Model, forces: &[(JointId, [f64; 6])]) -> [f64; 6] {
    let mut sum = [0.0; 6];
    for (joint, force) in forces {
        let at = model.joints()[*joint].at;
        for (total, part) in sum.iter_mut().zip(force) {
            *total += part;
        }
        sum[3] += at[1] * force[2] - at[2] * force[1];
        sum[4] += at[2] * force[0] - at[0] * force[2];
        sum[5] += at[0] * force[1] - at[1] * force[0];
    }
    sum
}

/// Forces and moments of the tubes' ends before they cancel, |k||u| and the fixed-end forces, in a case in which nothing
/// but settlements and temperatures acts: there all reactions may be rounding alone (a determinate frame only moves), and
/// these are what they are rounded from. Nothing in any other case, whose loads are the measure.
fn cancelling(
    model: &Model,
    elements: &Elements,
    loads: &LoadVectors,
    case: &LoadCase,
    displacements: &IndexVec<JointId, [f64; 6]>,
) -> [f64; 2] {
    let mut sums = [0.0; 2];
    if !(case.joint_loads.is_empty() && case.tube_loads.is_empty() && case.tube_point_loads.is_empty()) {
        return sums;
    }
    for (id, tube) in model.tubes().iter_with_id() {
        let element = elements.get(id);
        let moved = joint_values(&displacements[tube.from], &displacements[tube.to]).abs();
        let fixed = raw_end_loads(element, loads.spans.on(id)).abs();
        for (row, force) in (element.global_stiffness().abs() * moved + fixed).iter().enumerate() {
            sums[row / 3 % 2] += force;
        }
    }
    sums
}

/// Greatest unbalanced force over the sum of all force magnitudes, or moment over that of all moments about the origin.
fn imbalance(
    model: &Model,
    case: &LoadCase,
    reactions: &[(JointId, [f64; 6])],
    applied: &[f64; 6],
    reacted: &[f64; 6],
    cancelling: [f64; 2],
) -> f64 {
    let arm = 2.0 * mechanism::size(model)
        + model.joints().iter().next().map_or(0.0, |joint| joint.at.iter().map(|x| x * x).sum::<f64>().sqrt());
    let size = |v: &[f64]| v.iter().map(|x| x * x).sum::<f64>().sqrt();
    let joints = case.joint_loads.iter().map(|load| load.load.0).chain(reactions.iter().map(|(_, force)| *force));
    let [mut forces, mut moments] = cancelling;
    for load in joints {
        forces += size(&load[..3]);
        moments += size(&load[3..]);
    }
    for load in &case.tube_loads {
        forces += (size(&load.from) + size(&load.to)) / 2.0 * model.length(load.tube);
    }
    for load in &case.tube_point_loads {
        forces += size(&load.force);
        moments += size(&load.moment);
    }
    let off = |range: std::ops::Range<usize>| range.map(|i| (applied[i] + reacted[i]).abs()).fold(0.0, f64::max);
    let share = |off: f64, scale: f64| if off == 0.0 { 0.0 } else { off / scale };
    share(off(0..3), forces).max(share(off(3..6), moments + forces * arm))
}

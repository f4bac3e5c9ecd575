//! How much a case grows from first to second order.

use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, JointId, TubeId};

use crate::results::{CaseResult, MeasureResult, TubeResult};

/// A value in first and in second order.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Grown {
    /// On the frame as drawn.
    pub first: f64,
    /// On the frame as it bends.
    pub second: f64,
}

impl Grown {
    /// Second over first; `None` where there is nothing in first order.
    pub fn factor(&self) -> Option<f64> {
        (self.first != 0.0).then(|| self.second / self.first)
    }
}

/// How much a case grows.
#[derive(Debug, Clone, PartialEq)]
pub struct Growth {
    /// The greatest displacement of a joint, m, and the joint that has it in second order.
    pub displacement: (JointId, Grown),
    /// The greatest bending moment √(My² + Mz²), N·m, and the tube that has it in second order.
    pub moment: (TubeId, Grown),
    /// The same of every tube, wherever along it.
    pub tubes: IndexVec<TubeId, Grown>,
    /// Torsional stiffness, N·m/rad, where the case measures it.
    pub stiffness: Option<Grown>,
}

impl Growth {
    pub(super) fn of(first: &CaseResult, second: &CaseResult) -> Self {
        let pairs = first.tubes.iter().zip(&second.tubes);
        let tubes: IndexVec<TubeId, Grown> =
            pairs.map(|(first, second)| Grown { first: bending(first), second: bending(second) }).collect();
        let most = |value: fn(&Grown) -> f64| {
            let start = (TubeId::new(0), 0.0);
            tubes
                .iter_with_id()
                .fold(start, |best, (id, tube)| if value(tube) > best.1 { (id, value(tube)) } else { best })
        };
        let (tube, moment) = most(|tube| tube.second);
        let (joint, moved) = furthest(second);
        let stiffness = |result: &CaseResult| {
            result.measures.iter().find_map(|measure| match measure {
                MeasureResult::Twist { stiffness, .. } => Some(*stiffness),
                MeasureResult::Movement { .. } => None,
            })
        };
        Self {
            displacement: (joint, Grown { first: furthest(first).1, second: moved }),
            moment: (tube, Grown { first: most(|tube| tube.first).1, second: moment }),
            stiffness: stiffness(first).zip(stiffness(second)).map(|(first, second)| Grown { first, second }),
            tubes,
        }
    }
}

/// The greatest bending moment along a tube, N·m.
fn bending(tube: &TubeResult) -> f64 {
    tube.stations.iter().fold(0.0, |most, station| most.max(station.forces.my.hypot(station.forces.mz)))
}

/// The joint that moves furthest, and how far, m.
fn furthest(result: &CaseResult) -> (JointId, f64) {
    let start = (JointId::new(0), 0.0);
    result.displacements.iter_with_id().fold(start, |best, (joint, moved)| {
        let far = crate::rigid::norm(&moved[..3]);
        if far > best.1 { (joint, far) } else { best }
    })
}

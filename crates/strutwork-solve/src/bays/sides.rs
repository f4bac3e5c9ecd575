//! Straight chains of tubes: the possible sides of bays.

use std::ops::Range;

use nalgebra::Vector3;
use strutwork_model::ids::Id;
use strutwork_model::{JointId, Model, TubeId};

/// Tubes of one side at most.
const MOST_TUBES: usize = 8;
/// Distance of a side's joints from the line between its ends, over its length, at most.
const STRAIGHT: f64 = 1.0 / 15.0;
/// Cosine of the greatest turn from one tube of a side to the next: 20°.
const LEAST_TURN_COSINE: f64 = 0.939_692_620_785_908_4;

/// Every straight chain of the frame, in both directions.
#[derive(Debug)]
pub(super) struct Sides {
    /// In the order of their first joint, then of their last.
    all: Vec<Chain>,
    /// The last joint of each, apart from the rest, as it is searched most.
    lasts: Vec<JointId>,
    /// Where the chains of each first joint start in `all`; one more than there are joints.
    starts: Vec<usize>,
    /// Tubes at each joint and the joint at their other end, in the model's order.
    pub(super) at: Vec<Vec<(TubeId, JointId)>>,
    /// Where the joints are, m.
    pub(super) places: Vec<Vector3<f64>>,
}

/// A straight chain of tubes.
#[derive(Debug, Clone)]
pub(super) struct Chain {
    /// Both ends included.
    pub(super) joints: Vec<JointId>,
    /// In order.
    pub(super) tubes: Vec<TubeId>,
    /// From its first joint to its last.
    pub(super) direction: Vector3<f64>,
    /// The place of the same chain from its last joint to its first.
    back: usize,
}

impl Chain {
    pub(super) fn first(&self) -> JointId {
        self.joints[0]
    }

    pub(super) fn last(&self) -> JointId {
        self.joints[self.joints.len() - 1]
    }

    /// Its joints without the ends.
    pub(super) fn between(&self) -> &[JointId] {
        &self.joints[1..self.joints.len() - 1]
    }
}

impl Sides {
    pub(super) fn of(model: &Model) -> Self {
        let places: Vec<Vector3<f64>> = model.joints().iter().map(|joint| joint.at.into()).collect();
        let mut at: Vec<Vec<(TubeId, JointId)>> = vec![Vec::new(); places.len()];
        for (id, tube) in model.tubes().iter_with_id() {
            at[tube.from.index()].push((id, tube.to));
            at[tube.to.index()].push((id, tube.from));
        }
        let mut sides = Self { all: Vec::new(), lasts: Vec::new(), starts: vec![0], at, places };
        for joint in model.joints().ids() {
            let mut found = Vec::new();
            sides.extend(&mut vec![joint], &mut Vec::new(), &mut found);
            sides.push(found);
        }
        sides.link();
        sides
    }

    /// Adds the chains of the next first joint.
    fn push(&mut self, mut chains: Vec<Chain>) {
        // Of several chains between two joints the one with the most joints knows most of what lies along it.
        chains.sort_by(|a, b| {
            a.last().cmp(&b.last()).then(b.joints.len().cmp(&a.joints.len())).then_with(|| a.joints.cmp(&b.joints))
        });
        self.lasts.extend(chains.iter().map(Chain::last));
        self.all.extend(chains);
        self.starts.push(self.all.len());
    }

    /// Leaves out chains that keep the line seen from one end only, so that the order of joints decides nothing, and links
    /// the others with their ways back.
    fn link(&mut self) {
        let way_back = |sides: &Self, chain: &Chain| {
            let mut range = sides.range(chain.last(), chain.first());
            range.find(|place| sides.all[*place].joints.iter().rev().eq(&chain.joints))
        };
        let both_ways: Vec<bool> = self.all.iter().map(|chain| way_back(self, chain).is_some()).collect();
        let (all, starts) = (std::mem::take(&mut self.all), std::mem::replace(&mut self.starts, vec![0]));
        self.lasts.clear();
        let mut rest = all.into_iter().zip(both_ways);
        for window in starts.windows(2) {
            let chains = rest.by_ref().take(window[1] - window[0]);
            self.push(chains.filter(|(_, both_ways)| *both_ways).map(|(chain, _)| chain).collect());
        }
        let back: Vec<Option<usize>> = self.all.iter().map(|chain| way_back(self, chain)).collect();
        for (chain, place) in self.all.iter_mut().zip(back) {
            chain.back = place.expect("bug: chains without a way back are left out");
        }
    }

    /// Chains that start at a joint, in the order of their last joint.
    pub(super) fn from(&self, joint: JointId) -> &[Chain] {
        &self.all[self.starts[joint.index()]..self.starts[joint.index() + 1]]
    }

    /// The last joints of the chains that start at a joint, in order.
    pub(super) fn lasts(&self, joint: JointId) -> &[JointId] {
        &self.lasts[self.starts[joint.index()]..self.starts[joint.index() + 1]]
    }

    /// The chains from one joint to another, the one with the most joints first.
    pub(super) fn between(&self, from: JointId, to: JointId) -> &[Chain] {
        &self.all[self.range(from, to)]
    }

    fn range(&self, from: JointId, to: JointId) -> Range<usize> {
        let lasts = self.lasts(from);
        let start = lasts.partition_point(|last| *last < to);
        let many = lasts[start..].iter().take_while(|last| **last == to).count();
        let start = self.starts[from.index()] + start;
        start..start + many
    }

    /// The same chain from its last joint to its first.
    pub(super) fn back(&self, chain: &Chain) -> &Chain {
        &self.all[chain.back]
    }

    pub(super) fn place(&self, joint: JointId) -> Vector3<f64> {
        self.places[joint.index()]
    }

    /// Goes on from the last of `joints` along every tube that keeps the line.
    fn extend(&self, joints: &mut Vec<JointId>, tubes: &mut Vec<TubeId>, found: &mut Vec<Chain>) {
        if tubes.len() == MOST_TUBES {
            return;
        }
        let last = joints[joints.len() - 1];
        for &(tube, next) in &self.at[last.index()] {
            if joints.contains(&next) || !self.keeps_line(joints, next) {
                continue;
            }
            joints.push(next);
            tubes.push(tube);
            let direction = self.place(next) - self.place(joints[0]);
            // Two tubes side by side make one chain: the later is found again when the side's tubes are gathered.
            if !found.iter().any(|chain| chain.joints == *joints) {
                found.push(Chain { joints: joints.clone(), tubes: tubes.clone(), direction, back: 0 });
                self.extend(joints, tubes, found);
            }
            joints.pop();
            tubes.pop();
        }
    }

    fn keeps_line(&self, joints: &[JointId], next: JointId) -> bool {
        let [.., before, last] = joints else { return true };
        let (start, end) = (self.place(joints[0]), self.place(next));
        let (came, goes) = (self.place(*last) - self.place(*before), end - self.place(*last));
        if came.dot(&goes) < LEAST_TURN_COSINE * came.norm() * goes.norm() {
            return false;
        }
        let line = end - start;
        let length = line.norm();
        joints[1..].iter().all(|joint| (self.place(*joint) - start).cross(&line).norm() <= STRAIGHT * length * length)
    }
}

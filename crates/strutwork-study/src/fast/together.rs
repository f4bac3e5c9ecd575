//! Whether what is left of a frame is still one frame: what validation would say of it.

use std::collections::BTreeMap;

use strutwork_model::ids::Id;
use strutwork_model::{Model, TubeId};

/// What holds a frame together besides each tube.
#[derive(Debug)]
pub(super) struct Together {
    /// Ends of each tube.
    ends: Vec<[u32; 2]>,
    /// The group of each tube, numbered.
    groups: Vec<u32>,
    group_count: usize,
    /// Joints that something else reaches.
    reached: Vec<bool>,
    /// Joints and, behind them, bodies: which are one already by bodies and panels.
    joined: Vec<u32>,
}

impl Together {
    pub(super) fn of(model: &Model) -> Self {
        let joints = model.joints().len();
        let mut joined: Vec<u32> = (0..(joints + model.bodies().len()) as u32).collect();
        let mut reached = vec![false; joints];
        for mount in model.mounts() {
            reached[mount.joint.index()] = true;
            join(&mut joined, mount.joint.index(), joints + mount.body.index());
        }
        for panel in model.panels() {
            for pair in panel.joints.windows(2) {
                join(&mut joined, pair[0].index(), pair[1].index());
            }
        }
        let mut names: BTreeMap<&str, u32> = BTreeMap::new();
        let mut groups = Vec::new();
        for tube in model.tubes() {
            let next = names.len() as u32;
            groups.push(*names.entry(tube.group.as_str()).or_insert(next));
        }
        let ends = model.tubes().iter().map(|tube| [tube.from.index() as u32, tube.to.index() as u32]).collect();
        Self { ends, groups, group_count: names.len(), reached, joined }
    }

    /// Whether the frame without these tubes has no joint, no part and no group by itself.
    pub(super) fn without(&self, out: &[TubeId]) -> bool {
        let mut gone = vec![false; self.ends.len()];
        out.iter().for_each(|tube| gone[tube.index()] = true);
        let (mut reached, mut joined) = (self.reached.clone(), self.joined.clone());
        let mut grouped = vec![false; self.group_count];
        for ((ends, group), _) in self.ends.iter().zip(&self.groups).zip(&gone).filter(|(_, gone)| !**gone) {
            let [from, to] = ends.map(|end| end as usize);
            (reached[from], reached[to]) = (true, true);
            grouped[*group as usize] = true;
            join(&mut joined, from, to);
        }
        let root = root(&mut joined, 0);
        let one = (0..reached.len()).all(|joint| self::root(&mut joined, joint) == root);
        one && reached.iter().all(|reached| *reached) && grouped.iter().all(|there| *there)
    }
}

fn root(parts: &mut [u32], mut of: usize) -> usize {
    while parts[of] as usize != of {
        parts[of] = parts[parts[of] as usize];
        of = parts[of] as usize;
    }
    of
}

fn join(parts: &mut [u32], a: usize, b: usize) {
    let (a, b) = (root(parts, a), root(parts, b));
    parts[a.max(b)] = a.min(b) as u32;
}

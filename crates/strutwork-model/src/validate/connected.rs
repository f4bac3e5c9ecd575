//! Whether tubes, bodies and panels make one frame of all joints.

use std::collections::BTreeMap;

use super::bodies::Bodies;
use super::{Log, Lookup};
use crate::codes;
use crate::ids::Id;
use crate::model::{Panel, Tube};
use crate::spec::ModelSpec;

/// Names joints that no tube and no body reaches, and parts that nothing connects. Says nothing while a tube, a mount or a
/// panel is faulty: it may be the one that connects. A panel holds no joint by itself, and parts that only panels connect
/// can be loose: the solver finds that.
pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    tubes: &[Option<Tube>],
    bodies: &Bodies,
    panels: &[Option<Panel>],
    log: &mut Log,
) {
    if tubes.is_empty() || tubes.iter().any(Option::is_none) || !bodies.complete || panels.iter().any(Option::is_none) {
        return;
    }
    // Bodies stand behind the joints.
    let number = spec.joints.len();
    let mut parts = Parts((0..number + bodies.bodies.len()).collect());
    let mut reached = vec![false; spec.joints.len()];
    for tube in tubes.iter().flatten() {
        reached[tube.from.index()] = true;
        reached[tube.to.index()] = true;
        parts.join(tube.from.index(), tube.to.index());
    }
    for mount in &bodies.mounts {
        reached[mount.joint.index()] = true;
        parts.join(mount.joint.index(), number + mount.body.index());
    }
    for panel in panels.iter().flatten() {
        for pair in panel.joints.windows(2) {
            parts.join(pair[0].index(), pair[1].index());
        }
    }
    for (place, row) in spec.joints.iter().enumerate() {
        if !reached[place] && look.joints.finds(&row.joint, place) {
            let message = format!("no tube reaches the joint `{}`, and no body bolts to it", row.joint.value);
            let help = "add the tube that ends there, or take the joint out";
            log.error(codes::LOOSE_JOINT, row.joint.spot, &row.joint, message, help);
        }
    }
    let mut by_root: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for joint in (0..spec.joints.len()).filter(|&joint| reached[joint]) {
        by_root.entry(parts.root(joint)).or_default().push(joint);
    }
    if by_root.len() > 1 {
        let mut groups: Vec<Vec<usize>> = by_root.into_values().collect();
        groups.sort_by_key(|group| (std::cmp::Reverse(group.len()), group[0]));
        for group in &groups[1..] {
            let first = &spec.joints[group[0]].joint;
            let message = format!("{} {} connected to {}", some(spec, group), verb(group), some(spec, &groups[0]));
            let help = "add the tube, the body or the panel that connects them; two joints at nearly one place with two names are a common cause";
            log.error(codes::SEPARATE_PARTS, first.spot, first, message, help);
        }
    }
}

fn verb(group: &[usize]) -> &'static str {
    if group.len() == 1 { "is not" } else { "are not" }
}

/// A part of the frame by a few of its joints.
fn some(spec: &ModelSpec, group: &[usize]) -> String {
    let names: Vec<String> =
        group.iter().take(4).map(|&joint| format!("`{}`", spec.joints[joint].joint.value)).collect();
    match group.len() - names.len() {
        0 => format!("the joints {}", names.join(", ")),
        more => format!("the joints {} and {more} more", names.join(", ")),
    }
}

/// Disjoint sets of joints.
struct Parts(Vec<usize>);

impl Parts {
    fn root(&mut self, mut joint: usize) -> usize {
        while self.0[joint] != joint {
            self.0[joint] = self.0[self.0[joint]];
            joint = self.0[joint];
        }
        joint
    }

    /// The smaller root stays, so that the outcome does not depend on the order of tubes.
    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.0[a.max(b)] = a.min(b);
    }
}

//! Whether something runs along each edge of a panel.

use std::collections::BTreeSet;

use super::super::Log;
use super::super::bodies::Bodies;
use super::shape::{dot, length, minus};
use crate::codes;
use crate::ids::{IndexVec, JointId};
use crate::model::{Joint, Panel, Tube};
use crate::spec::ModelSpec;

/// A joint this near to the straight line of an edge lies on it, m.
const ON_THE_LINE: f64 = 1e-3;

/// Warns of edges along which no tube, no straight chain of tubes and no body runs.
pub(super) fn check(
    spec: &ModelSpec,
    joints: &IndexVec<JointId, Joint>,
    tubes: &[Option<Tube>],
    bodies: &Bodies,
    panels: &[Option<Panel>],
    log: &mut Log,
) {
    let joined: BTreeSet<(JointId, JointId)> =
        tubes.iter().flatten().flat_map(|tube| [(tube.from, tube.to), (tube.to, tube.from)]).collect();
    for (row, panel) in spec.panels.iter().zip(panels) {
        let Some(panel) = panel else { continue };
        let bare: Vec<String> = (0..panel.joints.len())
            .filter_map(|place| {
                let next = (place + 1) % panel.joints.len();
                let ends = [panel.joints[place], panel.joints[next]];
                let held = joined.contains(&(ends[0], ends[1])) || body(ends, bodies) || chain(ends, joints, &joined);
                (!held).then(|| format!("`{}` and `{}`", row.joints[place].value, row.joints[next].value))
            })
            .collect();
        if !bare.is_empty() {
            let message = format!(
                "panel `{}`: no tube runs along its edge between {}",
                row.panel.value,
                bare.join(", nor between ")
            );
            let help =
                "add the tube: a skin holds nothing at an edge that bends away, and it is computed as if it held";
            log.warning(codes::BARE_EDGE, row.joints[0].spot, &row.panel, message, help);
        }
    }
}

/// Whether both ends bolt to one body.
fn body([a, b]: [JointId; 2], bodies: &Bodies) -> bool {
    let at = |joint: JointId| bodies.mounts.iter().filter(move |mount| mount.joint == joint).map(|mount| mount.body);
    at(a).any(|body| at(b).any(|other| other == body))
}

/// Whether tubes lead from one end to the other through joints on the straight line between them.
fn chain([a, b]: [JointId; 2], joints: &IndexVec<JointId, Joint>, joined: &BTreeSet<(JointId, JointId)>) -> bool {
    let (from, along) = (joints[a].at, minus(joints[b].at, joints[a].at));
    let whole = length(along);
    let on_the_line: Vec<JointId> = joints
        .iter_with_id()
        .filter(|(_, joint)| {
            let offset = minus(joint.at, from);
            let share = dot(offset, along) / (whole * whole);
            let aside = length([0, 1, 2].map(|axis| offset[axis] - share * along[axis]));
            aside <= ON_THE_LINE && share > 0.0 && share * whole <= whole + ON_THE_LINE
        })
        .map(|(id, _)| id)
        .collect();
    let mut reached = vec![a];
    let mut next = 0;
    while let Some(&joint) = reached.get(next) {
        for &other in &on_the_line {
            if joined.contains(&(joint, other)) && !reached.contains(&other) {
                reached.push(other);
            }
        }
        next += 1;
    }
    reached.contains(&b)
}

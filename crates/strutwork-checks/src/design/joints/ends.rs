//! The ends of tubes that meet in a joint.

use strutwork_model::model::{Section, Shape};
use strutwork_model::{JointId, Model, TubeId};

use super::vectors::{Vector, times};
use crate::design::beside_weld::beside_weld;

/// One end of a tube, with the directions that the rule asks for.
#[derive(Debug, Clone, Copy)]
pub(in crate::design) struct End {
    pub(in crate::design) tube: TubeId,
    /// Whether it is the tube's `to` end.
    pub(in crate::design) at_to: bool,
    /// Unit vector from the joint into the tube.
    pub(in crate::design) out: Vector,
    /// The tube's local y and z.
    pub(in crate::design) across: [Vector; 2],
    /// Where the tube ends, m: the joint, or beside it by the tube's offset.
    pub(in crate::design) at: Vector,
}

impl End {
    /// The end of a tube at one of its joints.
    pub(in crate::design) fn of(model: &Model, tube: TubeId, at_to: bool) -> Self {
        let [x, y, z] = model.local_axes(tube);
        let out = if at_to { times(-1.0, x) } else { x };
        Self { tube, at_to, out, across: [y, z], at: model.tube_ends(tube)[usize::from(at_to)] }
    }

    /// Every end at a joint, in the order of the tubes.
    pub(in crate::design) fn at_joint(model: &Model, joint: JointId) -> Vec<Self> {
        let tubes = model.tubes().iter_with_id();
        tubes
            .flat_map(|(id, tube)| [(id, tube.from, false), (id, tube.to, true)])
            .filter(|&(_, place, _)| place == joint)
            .map(|(id, _, at_to)| Self::of(model, id, at_to))
            .collect()
    }

    /// The tube's section.
    pub(in crate::design) fn section(self, model: &Model) -> &Section {
        &model.sections()[model.tubes()[self.tube].section]
    }

    /// Yield strength of the tube, Pa, the lower of the parent's and that beside the weld; `None` where none is given.
    pub(in crate::design) fn yield_stress(self, model: &Model) -> Option<f64> {
        Some(beside_weld(model, self.tube)?.strength.yield_stress)
    }
}

/// Whether a section is a hollow one that the tables know.
pub(in crate::design) fn is_hollow(section: &Section) -> bool {
    matches!(section.shape, Shape::Hollow { .. } | Shape::Round { .. })
}

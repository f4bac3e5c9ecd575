//! Bodies: rigid modules that bolt to the frame.

use crate::dof::DofMap;
use crate::ids::{BodyId, BoltId, JointId, MountId};

/// A rigid module bolted to the frame: a sub-frame, a drive unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// Its name, unique.
    pub name: String,
    /// Its reference point, the mean of its mounts, m, global axes: loads on the body are reduced to it and its movement
    /// is that of this point.
    pub at: [f64; 3],
    /// Its mounts, in input order; at least one.
    pub mounts: Vec<MountId>,
}

/// One bolted joint of a body.
#[derive(Debug, Clone, PartialEq)]
pub struct Mount {
    /// The body.
    pub body: BodyId,
    /// The joint of the frame; the bolt stands at the joint.
    pub joint: JointId,
    /// How the joint follows the body, one entry a freedom, global axes.
    pub bonds: DofMap<Bond>,
    /// The bolt's data, where named.
    pub bolt: Option<BoltId>,
    /// Unit vector along the bolt, global axes; `None` where not given (axial and shear load are then not told apart).
    pub axis: Option<[f64; 3]>,
    /// The user's note; empty for none.
    pub note: String,
}

/// How one freedom of a joint follows a body.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Bond {
    /// Exactly: a rigid bolt.
    #[default]
    Rigid,
    /// By a spring, a bush: N/m, or N·m/rad for a rotation; > 0.
    Spring(f64),
    /// Not at all.
    Free,
}

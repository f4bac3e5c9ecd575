//! A support: how a joint is held.

use crate::dof::DofMap;
use crate::ids::JointId;

/// How one freedom of a joint is held.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Hold {
    /// Not held.
    #[default]
    Free,
    /// Held at zero, or at the settlement a case prescribes.
    Fixed,
    /// Held by a spring to ground: N/m, or N·m/rad for a rotation; > 0.
    Spring(f64),
}

/// How a joint is held, global axes.
#[derive(Debug, Clone, PartialEq)]
pub struct Support {
    /// The joint.
    pub joint: JointId,
    /// One entry a freedom.
    pub holds: DofMap<Hold>,
}

//! A tube: a member between two joints.

use super::judging::Buckling;
use crate::dof::DofMap;
use crate::ids::{JointId, MaterialId, SectionId};

/// A member between two joints.
#[derive(Debug, Clone, PartialEq)]
pub struct Tube {
    /// Its name, unique.
    pub name: String,
    /// The joint where local x starts.
    pub from: JointId,
    /// The joint where local x ends.
    pub to: JointId,
    /// Its section.
    pub section: SectionId,
    /// Its material.
    pub material: MaterialId,
    /// Tubes that share a gauge; empty for none.
    pub group: String,
    /// Turn of local y and z about local x, rad, right-handed.
    pub roll: f64,
    /// Freedoms freed at the `from` end, local axes; `true` is free.
    pub release_from: DofMap<bool>,
    /// Freedoms freed at the `to` end, local axes; `true` is free.
    pub release_to: DofMap<bool>,
    /// Offset and springs at the `from` end.
    pub end_from: TubeEnd,
    /// Offset and springs at the `to` end.
    pub end_to: TubeEnd,
    /// Buckling lengths for bending about local y and about local z.
    pub buckling: [Buckling; 2],
    /// The user's note; empty for none.
    pub note: String,
}

/// How an end of a tube is joined to its joint.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TubeEnd {
    /// From the joint to the tube's end, a rigid arm, m, global axes.
    pub offset: [f64; 3],
    /// Springs between the tube's end and the arm, local axes: N/m, or N·m/rad for a rotation, > 0; `None` is rigid. A
    /// released freedom has none.
    pub springs: DofMap<Option<f64>>,
}

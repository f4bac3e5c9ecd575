//! What carries a mass or takes a force, and places that move with the frame.

use super::{Model, Wheel};
use crate::ids::{BodyId, JointId};

/// What carries a mass, or takes a force that acts at a point.
#[derive(Debug, Clone, PartialEq)]
pub enum Carrier {
    /// These joints, at least one, shared statically equivalent.
    Joints(Vec<JointId>),
    /// A body.
    Body(BodyId),
    /// The upright of a linked corner: its links carry it.
    Upright(Wheel),
}

/// A place that moves with the frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Point {
    /// A joint.
    Joint(JointId),
    /// A place on a body, m, global axes.
    OnBody {
        /// The body.
        body: BodyId,
        /// Where, m.
        at: [f64; 3],
    },
}

impl Point {
    /// Where it is, m, global axes.
    pub fn at(&self, model: &Model) -> [f64; 3] {
        match *self {
            Self::Joint(joint) => model.joints()[joint].at,
            Self::OnBody { at, .. } => at,
        }
    }

    /// Its name for readers: the joint's, or the body's with the place in mm.
    pub fn name(&self, model: &Model) -> String {
        match *self {
            Self::Joint(joint) => model.joints()[joint].name.clone(),
            Self::OnBody { body, at } => {
                let [x, y, z] = at.map(|value| (crate::units::to_mm(value) * 10.0).round() / 10.0);
                format!("{} at ({x}, {y}, {z}) mm", model.bodies()[body].name)
            }
        }
    }
}

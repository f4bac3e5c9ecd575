//! Limits on movement that the user sets.

use crate::ids::JointId;

/// How far something may move.
#[derive(Debug, Clone, PartialEq)]
pub struct MovementLimit {
    /// Its name, unique.
    pub name: String,
    /// What is measured.
    pub moved: Moved,
    /// The most it may be, m, > 0.
    pub most: f64,
    /// The names of the cases that it holds in; empty for all. Which cases there are is only known when they have been
    /// derived.
    pub cases: Vec<String>,
    /// Where the limit comes from; empty where not said.
    pub source: String,
    /// The user's note; empty for none.
    pub note: String,
}

/// What a limit on movement measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moved {
    /// The movement of a joint.
    Joint {
        /// The joint.
        joint: JointId,
        /// The joint that the movement is measured from; `None`: from where the joint stood.
        from: Option<JointId>,
        /// Along which axis.
        along: Along,
    },
    /// How much the distance between two joints changes.
    Distance([JointId; 2]),
}

/// A direction of movement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// Global x.
    X,
    /// Global y.
    Y,
    /// Global z.
    Z,
    /// Whichever way it goes.
    Total,
}

impl Along {
    /// All, in the order of their words.
    pub const ALL: [Self; 4] = [Self::X, Self::Y, Self::Z, Self::Total];

    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        ["x", "y", "z", "total"][self as usize]
    }
}

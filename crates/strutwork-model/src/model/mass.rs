//! A mass that the frame carries.

use crate::ids::JointId;

/// A point mass carried by joints: people, battery, motor, fuel, seats.
#[derive(Debug, Clone, PartialEq)]
pub struct Mass {
    /// Its name, unique.
    pub name: String,
    /// kg, > 0.
    pub mass: f64,
    /// Its centre, m, global axes.
    pub at: [f64; 3],
    /// The joints that carry it; at least one.
    pub joints: Vec<JointId>,
    /// The user's note; empty for none.
    pub note: String,
}

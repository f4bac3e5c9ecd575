//! A mass that the frame carries.

use super::Carrier;

/// A mass carried by joints, a body or an upright: people, battery, motor, fuel, seats.
#[derive(Debug, Clone, PartialEq)]
pub struct Mass {
    /// Its name, unique.
    pub name: String,
    /// kg, > 0.
    pub mass: f64,
    /// Its centre, m, global axes.
    pub at: [f64; 3],
    /// Moments of inertia about its own centre, global axes, kg·m²; 0 for a point.
    pub inertia: [f64; 3],
    /// What carries it.
    pub carrier: Carrier,
    /// Whether it is there only while the vehicle is driven: people and what they bring.
    pub driven: bool,
    /// The user's note; empty for none.
    pub note: String,
}

//! Gravity and inertia: a body force on everything that has mass.

use nalgebra::Vector3;

/// A body force, m/s², that varies in space as gravity and the inertia of a rigid body do.
///
/// ```text
/// b(r) = force − turn × (r − about)
/// ```
///
/// # Units and shapes
/// `force` in m/s²; `turn` in rad/s²; `about` in m; global axes.
///
/// # Signs and order
/// The inertia of an acceleration a and an angular acceleration α has `force` −a and `turn` +α.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Field {
    /// Body force at `about`, m/s².
    pub force: [f64; 3],
    /// Angular acceleration whose inertia acts, rad/s².
    pub turn: [f64; 3],
    /// Where the body force is `force`, m.
    pub about: [f64; 3],
}

impl Field {
    /// The same body force everywhere, m/s².
    pub const fn uniform(force: [f64; 3]) -> Self {
        Self { force, turn: [0.0; 3], about: [0.0; 3] }
    }

    /// The body force at a place.
    pub fn at(&self, place: [f64; 3]) -> [f64; 3] {
        let arm = Vector3::from(place) - Vector3::from(self.about);
        (Vector3::from(self.force) - Vector3::from(self.turn).cross(&arm)).into()
    }

    /// Whether it is zero everywhere.
    pub fn is_zero(&self) -> bool {
        self.force == [0.0; 3] && self.turn == [0.0; 3]
    }
}

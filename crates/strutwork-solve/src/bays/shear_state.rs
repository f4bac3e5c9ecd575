//! The one set of forces along the four edges of a quadrilateral that balances itself.

use nalgebra::Vector2;

/// Shear forces along the edges that balance each other, and how a plain skin takes them.
#[derive(Debug, Clone, Copy)]
pub(super) struct ShearState {
    /// At each corner, half of the force of each of its two edges, N.
    pub(super) corner_forces: [Vector2<f64>; 4],
    /// Twice the energy that the state stores in a skin of G·t = 1 N/m without slanting corners, J.
    pub(super) in_unit_skin: f64,
}

impl ShearState {
    /// The state of a convex quadrilateral, its mean flow 1 N/m.
    ///
    /// ```text
    /// Σ pᵢ eᵢ = 0,  Σ pᵢ (rᵢ × eᵢ) = 0     pᵢ along edge i, from corner i to the next: one solution up to its size
    /// q² = q₁q₃ = q₂q₄ with qᵢ = pᵢ/lᵢ     c_skin = q² A
    /// ```
    ///
    /// # Source
    /// The same state and mean as those of the shear panel, [`strutwork_element::Panel`].
    pub(super) fn of(corners: &[Vector2<f64>; 4]) -> Self {
        let edge = |i: usize| corners[(i + 1) % 4] - corners[i];
        let lengths = [0, 1, 2, 3].map(|i| edge(i).norm());
        let rows = [0, 1, 2, 3].map(|i| {
            let along = edge(i) / lengths[i];
            [along.x, along.y, corners[i].perp(&along)]
        });
        // The null vector of three equations in four unknowns: their 3×3 minors with alternating signs.
        let minor = |left_out: usize| {
            let [a, b, c] = [0, 1, 2].map(|k| rows[if k < left_out { k } else { k + 1 }]);
            a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])
        };
        let raw = [minor(0), -minor(1), minor(2), -minor(3)];
        let mean = (raw[0] * raw[2] / (lengths[0] * lengths[2])).abs().sqrt();
        let forces = raw.map(|force| force / mean);
        let corner_forces = [0, 1, 2, 3].map(|i| {
            let before = (i + 3) % 4;
            (edge(i) * (forces[i] / lengths[i]) + edge(before) * (forces[before] / lengths[before])) / 2.0
        });
        let area = (0..4).map(|i| corners[i].perp(&corners[(i + 1) % 4])).sum::<f64>() / 2.0;
        Self { corner_forces, in_unit_skin: area }
    }
}

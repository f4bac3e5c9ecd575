//! What an axial force adds to the tube's stiffness against bending out.

use super::Beam;
use crate::Mat12;

/// Places and weights of three-point Gauss integration on −1 … 1: exact to the fifth power.
const GAUSS: [(f64, f64); 3] =
    [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];

impl Beam {
    /// The 12×12 geometric stiffness in local axes of an axial force that runs linearly from `at_from` to `at_to`, N,
    /// tension positive.
    ///
    /// ```text
    /// ∫ N(x) (v′² + w′²) dx        with the cubic shapes of the stiffness; for the same N all along
    /// N/L [ 6/5 L/10 −6/5 L/10; … 2L²/15 −L/10 −L²/30; … ]
    /// ```
    ///
    /// # Units and shapes
    /// 12×12, N/m, N and N·m.
    ///
    /// # Assumes
    /// Moments and torques change nothing; the force keeps its direction along the axis. Torsional buckling is left out, as
    /// closed tubes resist it.
    ///
    /// # Source
    /// Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, eq. 15.24 for a uniform force (from memory);
    /// the linear force by integration (derived).
    pub fn geometric_stiffness(&self, at_from: f64, at_to: f64) -> Mat12 {
        let l = self.length;
        let mut k = Mat12::zeros();
        for (place, weight) in GAUSS {
            let s = (1.0 + place) / 2.0;
            let force = at_from + (at_to - at_from) * s;
            // Slopes of the cubic shapes: deflection and rotation of the first end, then of the second.
            let slopes = [
                (-6.0 * s + 6.0 * s * s) / l,
                1.0 - 4.0 * s + 3.0 * s * s,
                (6.0 * s - 6.0 * s * s) / l,
                -2.0 * s + 3.0 * s * s,
            ];
            let share = force * weight * l / 2.0;
            for (places, sign) in [([1, 5, 7, 11], 1.0), ([2, 4, 8, 10], -1.0)] {
                for (a, &i) in places.iter().enumerate() {
                    for (b, &j) in places.iter().enumerate() {
                        let turned = if (a % 2 == 1) == (b % 2 == 1) { 1.0 } else { sign };
                        k[(i, j)] += share * slopes[a] * slopes[b] * turned;
                    }
                }
            }
        }
        k
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BEAM: Beam = Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 5e-8, j: 5e-8, length: 1.3 };

    #[test]
    fn an_even_force_gives_the_printed_matrix() {
        let (n, l) = (1700.0, BEAM.length);
        let k = BEAM.geometric_stiffness(n, n);
        let unit = n / l;
        for (i, j, expected) in [
            (1, 1, 1.2 * unit),
            (1, 5, unit * l / 10.0),
            (1, 7, -1.2 * unit),
            (5, 5, unit * 2.0 * l * l / 15.0),
            (5, 11, -unit * l * l / 30.0),
            (2, 4, -unit * l / 10.0),
            (8, 10, unit * l / 10.0),
            (0, 0, 0.0),
            (3, 9, 0.0),
        ] {
            assert!((k[(i, j)] - expected).abs() < 1e-10, "{i} {j}");
        }
        assert!((k - k.transpose()).amax() < 1e-12);
    }

    #[test]
    fn a_whole_turn_costs_the_mean_force_times_the_length() {
        let k = BEAM.geometric_stiffness(1000.0, 3000.0);
        let mut v = crate::Vec12::zeros();
        (v[5], v[11], v[7]) = (1.0, 1.0, BEAM.length);
        assert!((v.dot(&(k * v)) - 2000.0 * BEAM.length).abs() < 1e-9);
    }
}

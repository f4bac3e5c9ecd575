//! Mass of the tube in its own axes.

use super::Beam;
use crate::Mat12;

/// What a tube weighs, a metre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineMass {
    /// ρA, kg/m.
    pub mass: f64,
    /// ρ(Iy + Iz), kg·m: inertia against turning about its own axis, a metre.
    pub polar: f64,
}

impl Beam {
    /// The consistent 12×12 mass in local axes, from the same shapes as the stiffness.
    ///
    /// ```text
    /// axial    ρAL/6 [ 2 1; 1 2 ]                                        on u
    /// torsion  ρ(Iy + Iz)L/6 [ 2 1; 1 2 ]                                on θx
    /// bending  ρAL/420 [ 156 22L 54 −13L; … 4L² 13L −3L²; … ]            on v, θz; with −θy on w
    /// ```
    ///
    /// # Units and shapes
    /// 12×12, kg, kg·m and kg·m².
    ///
    /// # Assumes
    /// The turning of the sections in bending has no inertia of its own (thin tubes).
    ///
    /// # Source
    /// Archer (1963), Consistent mass matrix for distributed mass systems, ASCE J. Struct. Div. 89(ST4), p. 161 (from
    /// memory); Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, eq. 11.32 (from memory).
    pub fn mass(&self, line: LineMass) -> Mat12 {
        let l = self.length;
        let mut m = Mat12::zeros();
        let mut set = |i: usize, j: usize, value: f64| {
            m[(i, j)] = value;
            m[(j, i)] = value;
        };
        for (u, whole) in [(0, line.mass * l), (3, line.polar * l)] {
            set(u, u, whole / 3.0);
            set(u + 6, u + 6, whole / 3.0);
            set(u, u + 6, whole / 6.0);
        }
        let unit = line.mass * l / 420.0;
        for (v, r, sign) in [(1, 5, 1.0), (2, 4, -1.0)] {
            set(v, v, 156.0 * unit);
            set(v + 6, v + 6, 156.0 * unit);
            set(v, v + 6, 54.0 * unit);
            set(v, r, sign * 22.0 * l * unit);
            set(v + 6, r + 6, -sign * 22.0 * l * unit);
            set(v, r + 6, -sign * 13.0 * l * unit);
            set(r, v + 6, sign * 13.0 * l * unit);
            set(r, r, 4.0 * l * l * unit);
            set(r + 6, r + 6, 4.0 * l * l * unit);
            set(r, r + 6, -3.0 * l * l * unit);
        }
        m
    }

    /// The mass lumped at the ends: half the mass and half the polar inertia at each, and ρAL³/78 on bending rotations.
    ///
    /// # Units and shapes
    /// 12×12 and diagonal, kg and kg·m².
    ///
    /// # Source
    /// Diagonal of the consistent mass, scaled so that the whole mass is kept: Hinton, Rock & Zienkiewicz (1976), A note on
    /// mass lumping, Earthquake Eng. Struct. Dyn. 4, p. 245 (from memory).
    pub fn lumped_mass(&self, line: LineMass) -> Mat12 {
        let whole = line.mass * self.length;
        let mut m = Mat12::zeros();
        for end in [0, 6] {
            for u in 0..3 {
                m[(end + u, end + u)] = whole / 2.0;
            }
            m[(end + 3, end + 3)] = line.polar * self.length / 2.0;
            for r in 4..6 {
                m[(end + r, end + r)] = whole * self.length * self.length / 78.0;
            }
        }
        m
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Vec12;

    fn beam(length: f64) -> Beam {
        Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 5e-8, j: 5e-8, length }
    }

    /// Motion of the whole tube along and about its first end.
    fn rigid(l: f64, motion: usize) -> Vec12 {
        let mut v = Vec12::zeros();
        v[motion] = 1.0;
        v[motion + 6] = 1.0;
        match motion {
            4 => v[8] = -l,
            5 => v[7] = l,
            _ => {}
        }
        v
    }

    #[test]
    fn rigid_motions_find_the_mass_and_inertia_of_a_rod() {
        let (l, line) = (1.7, LineMass { mass: 2.3, polar: 0.01 });
        let m = beam(l).mass(line);
        let whole = line.mass * l;
        for (motion, expected) in [
            (0, whole),
            (1, whole),
            (2, whole),
            (3, line.polar * l),
            (4, whole * l * l / 3.0),
            (5, whole * l * l / 3.0),
        ] {
            let v = rigid(l, motion);
            assert!((v.dot(&(m * v)) - expected).abs() < 1e-13 * expected.max(1.0), "{motion}");
        }
        let cross = rigid(l, 1).dot(&(m * rigid(l, 5)));
        assert!((cross - whole * l / 2.0).abs() < 1e-13);
    }

    #[test]
    fn lumping_keeps_the_mass() {
        let (l, line) = (0.8, LineMass { mass: 2.3, polar: 0.01 });
        let m = beam(l).lumped_mass(line);
        for motion in 0..4 {
            let v = rigid(l, motion);
            let expected = if motion == 3 { line.polar * l } else { line.mass * l };
            assert!((v.dot(&(m * v)) - expected).abs() < 1e-14);
        }
    }
}

//! Stiffness of the tube in its own axes.

use super::Beam;
use crate::Mat12;

impl Beam {
    /// The 12×12 stiffness in local axes.
    ///
    /// ```text
    /// axial    EA/L [ 1 −1; −1 1 ]              on u
    /// torsion  GJ/L [ 1 −1; −1 1 ]              on θx
    /// bending  EIz/L³ [ 12 6L −12 6L; … 4L² … 2L² ]   on v, θz
    ///          EIy/L³ [ 12 −6L −12 −6L; … ]           on w, θy (θy = −dw/dx)
    /// ```
    ///
    /// # Units and shapes
    /// 12×12, N/m, N and N·m (a rotation is in rad).
    ///
    /// # Source
    /// Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, eq. 5.116 with zero shear deformation
    /// (equation number from memory). Same axes.
    ///
    /// # Example
    /// ```
    /// let beam = strutwork_element::Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 3e-8, j: 5e-8, length: 1.0 };
    /// // A cantilever's tip, held against turning, takes 12EI/L³ a metre.
    /// assert!((beam.stiffness()[(7, 7)] - 12.0 * 210e9 * 3e-8).abs() < 1e-6);
    /// ```
    pub fn stiffness(&self) -> Mat12 {
        let l = self.length;
        let mut k = Mat12::zeros();
        let mut set = |i: usize, j: usize, value: f64| {
            k[(i, j)] = value;
            k[(j, i)] = value;
        };
        for (u, value) in [(0, self.youngs * self.area / l), (3, self.shear * self.j / l)] {
            set(u, u, value);
            set(u + 6, u + 6, value);
            set(u, u + 6, -value);
        }
        // (second moment, deflection, rotation, sign of the rotation against the deflection's slope)
        for (inertia, v, r, sign) in [(self.iz, 1, 5, 1.0), (self.iy, 2, 4, -1.0)] {
            let ei = self.youngs * inertia;
            let (a, b, c) = (12.0 * ei / (l * l * l), sign * 6.0 * ei / (l * l), ei / l);
            set(v, v, a);
            set(v + 6, v + 6, a);
            set(v, v + 6, -a);
            set(v, r, b);
            set(v, r + 6, b);
            set(r, v + 6, -b);
            set(v + 6, r + 6, -b);
            set(r, r, 4.0 * c);
            set(r + 6, r + 6, 4.0 * c);
            set(r, r + 6, 2.0 * c);
        }
        k
    }
}

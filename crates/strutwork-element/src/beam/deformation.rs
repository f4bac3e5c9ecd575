//! The six movements of a tube's ends that cost energy.

use nalgebra::{SMatrix, SVector};

use super::Beam;
use crate::Vec12;

/// Six values, one for each deformation.
pub type Vec6 = SVector<f64, 6>;
/// A matrix over the six deformations.
pub type Mat6 = SMatrix<f64, 6, 6>;
/// From the twelve end freedoms to the six deformations.
pub(crate) type Mat6x12 = SMatrix<f64, 6, 12>;

impl Beam {
    /// Deformations from the displacements of the tube's ends: q = B u.
    ///
    /// Taken as differences first, so that a movement of the whole tube leaves nothing but rounding of the displacements
    /// themselves.
    ///
    /// # Signs and order
    /// Stretch u2 − u1; twist θx2 − θx1; slopes against the chord θy1, θy2, θz1, θz2.
    pub fn deformations(&self, ends: &Vec12) -> Vec6 {
        let (u, l) = (ends, self.length);
        let (turn_y, turn_z) = ((u[8] - u[2]) / l, (u[7] - u[1]) / l);
        Vec6::new(u[6] - u[0], u[9] - u[3], u[4] + turn_y, u[10] + turn_y, u[5] - turn_z, u[11] - turn_z)
    }

    /// Stiffness over the deformations: energy = ½ qᵀ k q.
    ///
    /// # Units and shapes
    /// 6×6; EA/L in N/m, GJ/L and [4 2; 2 4] EI/L in N·m/rad.
    pub fn deformation_stiffness(&self) -> Mat6 {
        let l = self.length;
        let mut k = Mat6::zeros();
        k[(0, 0)] = self.youngs * self.area / l;
        k[(1, 1)] = self.shear * self.j / l;
        for (first, inertia) in [(2, self.iy), (4, self.iz)] {
            let c = self.youngs * inertia / l;
            k[(first, first)] = 4.0 * c;
            k[(first + 1, first + 1)] = 4.0 * c;
            k[(first, first + 1)] = 2.0 * c;
            k[(first + 1, first)] = 2.0 * c;
        }
        k
    }

    /// B as a matrix.
    pub(crate) fn deformation_matrix(&self) -> Mat6x12 {
        let mut b = Mat6x12::zeros();
        for i in 0..12 {
            let mut unit = Vec12::zeros();
            unit[i] = 1.0;
            b.set_column(i, &self.deformations(&unit));
        }
        b
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stiffness_of_the_ends_is_that_of_the_deformations() {
        let beam = Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 2e-8, j: 5e-8, length: 0.7 };
        let b = beam.deformation_matrix();
        let through = b.transpose() * beam.deformation_stiffness() * b;
        assert!((through - beam.stiffness()).amax() < 1e-14 * beam.stiffness().amax());
    }
}

//! Taking rigid motions out, weighed by mass: what makes the answers of a free frame independent of how it was held.

use nalgebra::{DMatrix, DVector, SymmetricEigen};

use super::dot;

/// Inertia against a rigid motion below this share of the greatest is none.
const NO_INERTIA: f64 = 1e-12;

/// The rigid motions R of a free frame, with their inertia; none at all of a held one.
pub(crate) struct RigidPart {
    motions: Vec<Vec<f64>>,
    /// M R.
    weighed: Vec<Vec<f64>>,
    /// (Rᵀ M R)⁺.
    inverse: DMatrix<f64>,
    /// Whether there is inertia against every motion.
    full: bool,
}

impl RigidPart {
    /// That of a held frame, which has no rigid motions.
    pub(crate) fn none() -> Self {
        Self { motions: Vec::new(), weighed: Vec::new(), inverse: DMatrix::zeros(0, 0), full: true }
    }

    /// From the rigid motions and what multiplies by the mass.
    pub(crate) fn of(motions: &[Vec<f64>], multiply: impl Fn(&[f64]) -> Vec<f64>) -> Self {
        let weighed: Vec<Vec<f64>> = motions.iter().map(|motion| multiply(motion)).collect();
        let n = motions.len();
        let inertia =
            DMatrix::from_fn(n, n, |i, j| (dot(&motions[i], &weighed[j]) + dot(&motions[j], &weighed[i])) / 2.0);
        // Turns and displacements are of different size: made equal before small ones are told from none.
        let scale: Vec<f64> = (0..n).map(|i| inertia[(i, i)].max(f64::MIN_POSITIVE).sqrt()).collect();
        let even = DMatrix::from_fn(n, n, |i, j| inertia[(i, j)] / (scale[i] * scale[j]));
        let mut inverse = DMatrix::zeros(n, n);
        let mut full = true;
        if n > 0 {
            let eigen = SymmetricEigen::new(even);
            full = eigen.eigenvalues.iter().all(|value| *value > NO_INERTIA);
            for i in (0..n).filter(|i| eigen.eigenvalues[*i] > NO_INERTIA) {
                let v = DVector::from_fn(n, |row, _| eigen.eigenvectors[(row, i)] / scale[row]);
                inverse += &v * v.transpose() / eigen.eigenvalues[i];
            }
        }
        Self { motions: motions.to_vec(), weighed, inverse, full }
    }

    /// M R, where the frame has inertia against every rigid motion: what is square to it is balanced.
    pub(crate) fn constraints(&self) -> Option<&[Vec<f64>]> {
        self.full.then_some(&self.weighed)
    }

    /// u ← u − R (RᵀMR)⁺ (MR)ᵀ u.
    pub(crate) fn take_out(&self, u: &mut [f64]) {
        self.reduce(u, &self.weighed, &self.motions);
    }

    /// f ← f − MR (RᵀMR)⁺ Rᵀ f: in balance with the inertia of rigid motion.
    pub(crate) fn balance(&self, f: &mut [f64]) {
        self.reduce(f, &self.motions, &self.weighed);
    }

    fn reduce(&self, x: &mut [f64], along: &[Vec<f64>], by: &[Vec<f64>]) {
        if self.motions.is_empty() {
            return;
        }
        let parts = DVector::from_iterator(along.len(), along.iter().map(|motion| dot(motion, x)));
        let shares = &self.inverse * parts;
        for (share, motion) in shares.iter().zip(by) {
            x.iter_mut().zip(motion).for_each(|(value, part)| *value -= share * part);
        }
    }
}

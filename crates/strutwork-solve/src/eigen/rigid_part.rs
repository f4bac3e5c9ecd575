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

    /// B = M R, mixed so that the motions R have weight 1 and are square to each other; those without inertia left out.
    pub(crate) fn balances(&self) -> Vec<Vec<f64>> {
        // (RᵀMR)⁺ = L Lᵀ: the columns of R L are the motions.
        let eigen = SymmetricEigen::new(self.inverse.clone());
        let most = eigen.eigenvalues.iter().copied().fold(0.0, f64::max);
        let kept = (0..self.motions.len()).filter(|i| eigen.eigenvalues[*i] > NO_INERTIA * most);
        kept.map(|i| {
            let mut column = vec![0.0; self.weighed[i].len()];
            for (row, weighed) in self.weighed.iter().enumerate() {
                let share = eigen.eigenvectors[(row, i)] * eigen.eigenvalues[i].sqrt();
                column.iter_mut().zip(weighed).for_each(|(value, part)| *value += share * part);
            }
            column
        })
        .collect()
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

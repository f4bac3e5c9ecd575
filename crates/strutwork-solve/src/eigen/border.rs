//! Rows and columns beside a factored matrix: what is left of them once the matrix is eliminated, and what that counts.

use nalgebra::{DMatrix, SymmetricEigen};

use crate::linear::Signs;

/// A border C with the corner D, after the elimination of A.
///
/// ```text
/// [ A   C ]
/// [ Cᵀ  D ]        complement  D − Cᵀ A⁻¹ C,   D diagonal
/// ```
///
/// # Source
/// Sylvester's law of inertia and Haynsworth's additivity for Schur complements: the whole has as many negative eigenvalues as
/// A and the complement together (from memory).
pub(crate) struct Border {
    /// A⁻¹ C, one column after another.
    pub(crate) solved: Vec<f64>,
    /// D − Cᵀ A⁻¹ C.
    pub(crate) complement: DMatrix<f64>,
    /// |D| + |Cᵀ A⁻¹ C| on the diagonal: what the complement is the difference of.
    size: Vec<f64>,
}

impl Border {
    /// Eliminates A from a border of one column after another; `corner` is the diagonal of D.
    pub(crate) fn of(signs: &Signs<'_>, columns: &[f64], corner: &[f64]) -> Self {
        let (equations, count) = (signs.len(), corner.len());
        let mut solved = columns.to_vec();
        signs.solve(&mut solved, count);
        let c = DMatrix::from_column_slice(equations, count, columns);
        let product = c.tr_mul(&DMatrix::from_column_slice(equations, count, &solved));
        let complement = DMatrix::from_fn(count, count, |i, j| {
            let own = if i == j { corner[i] } else { 0.0 };
            own - (product[(i, j)] + product[(j, i)]) / 2.0
        });
        let size = (0..count).map(|i| corner[i].abs() + product[(i, i)].abs()).collect();
        Self { solved, complement, size }
    }

    /// How many eigenvalues of the complement are negative; `None` where it is not finite.
    pub(crate) fn negative(&self) -> Option<usize> {
        // Rows of very different size: scaling both sides alike leaves the signs.
        let even = |i: usize| 1.0 / self.size[i].max(f64::MIN_POSITIVE).sqrt();
        let count = self.size.len();
        let scaled = DMatrix::from_fn(count, count, |i, j| self.complement[(i, j)] * even(i) * even(j));
        let finite = scaled.iter().all(|value| value.is_finite());
        finite.then(|| SymmetricEigen::new(scaled).eigenvalues.iter().filter(|value| **value < 0.0).count())
    }
}

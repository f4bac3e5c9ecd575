//! Static condensation of end freedoms that slip on springs, or freely.

use nalgebra::{DMatrix, DVector, Matrix6xX, SymmetricEigen};

use super::deformation::{Mat6, Mat6x12, Vec6};
use crate::Vec12;

/// Below this share of what it was taken from an entry is rounding, not stiffness.
pub(crate) const ROUNDING: f64 = 1e-12;

/// Some end freedoms of a piece with stiffness k over its deformations q = B u, which slip by s against what they are
/// joined to.
///
/// ```text
/// A = B_sᵀ k B_s + D        s = A⁺ (f_s − B_sᵀ k q)
/// k* = k − k B_s A⁺ B_sᵀ k    f* = f − Bᵀ k B_s A⁺ f_s,  f*_s = D A⁺ f_s
/// ```
///
/// D holds the springs' stiffnesses: above zero for all, or zero for all.
///
/// # Source
/// Guyan (1965), AIAA Journal 3(2), p. 380 (page from memory).
#[derive(Debug, Clone)]
pub(crate) struct Slip {
    /// Which freedoms, in order.
    pub(crate) freedoms: Vec<usize>,
    /// D.
    springs: DVector<f64>,
    /// A⁺.
    inverse: DMatrix<f64>,
    /// k B_s.
    forces: Matrix6xX<f64>,
    /// Motions that nothing resists, one a column, scaled to the diagonal of A.
    idle: DMatrix<f64>,
}

impl Slip {
    /// Lets `freedoms` slip on `springs`; beside it k*.
    pub(crate) fn of(k: &Mat6, b: &Mat6x12, freedoms: Vec<usize>, springs: Vec<f64>) -> (Self, Mat6) {
        let columns = Matrix6xX::from_fn(freedoms.len(), |i, j| b[(i, freedoms[j])]);
        let springs = DVector::from_vec(springs);
        let forces = k * &columns;
        let resisting = columns.tr_mul(&forces) + DMatrix::from_diagonal(&springs);
        let (inverse, idle) = pseudo_inverse(&resisting);
        let taken = &forces * &inverse * forces.transpose();
        let condensed = Mat6::from_fn(|i, j| {
            let value = k[(i, j)] - (taken[(i, j)] + taken[(j, i)]) / 2.0;
            if value.abs() <= ROUNDING * (k[(i, i)] * k[(j, j)]).sqrt() { 0.0 } else { value }
        });
        (Self { freedoms, springs, inverse, forces, idle }, condensed)
    }

    /// s, from the deformations without slip and the loads on the piece.
    pub(crate) fn slips(&self, q: &Vec6, loads: &Vec12) -> DVector<f64> {
        &self.inverse * (self.pick(loads) - self.forces.tr_mul(q))
    }

    /// f*.
    pub(crate) fn pass_on(&self, b: &Mat6x12, loads: &Vec12) -> Vec12 {
        let slips = &self.inverse * self.pick(loads);
        let mut passed = loads - b.tr_mul(&(&self.forces * &slips));
        for ((slip, spring), &i) in slips.iter().zip(&self.springs).zip(&self.freedoms) {
            passed[i] = slip * spring;
        }
        passed
    }

    /// Which freedom slips without limit under these loads, if one does: the largest of its motion.
    pub(crate) fn loaded(&self, loads: &Vec12) -> Option<usize> {
        let acting = self.pick(loads);
        let gross = acting.norm();
        (0..self.idle.ncols()).find_map(|c| {
            let motion = self.idle.column(c);
            let work = motion.dot(&acting);
            if work.abs() <= 1e-10 * gross * motion.norm() || gross == 0.0 {
                return None;
            }
            let largest = motion.iter().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?.0;
            Some(self.freedoms[largest])
        })
    }

    fn pick(&self, loads: &Vec12) -> DVector<f64> {
        DVector::from_iterator(self.freedoms.len(), self.freedoms.iter().map(|&i| loads[i]))
    }
}

/// The pseudo-inverse of a symmetric matrix without negative eigenvalues, and the motions that it does not resist.
fn pseudo_inverse(matrix: &DMatrix<f64>) -> (DMatrix<f64>, DMatrix<f64>) {
    let m = matrix.nrows();
    if m == 0 {
        return (DMatrix::zeros(0, 0), DMatrix::zeros(0, 0));
    }
    // Scaled to a unit diagonal, so that metres and radians weigh alike in what counts as zero.
    let weight = |diagonal: f64| if diagonal > 0.0 { 1.0 / diagonal.sqrt() } else { 1.0 };
    let scale: Vec<f64> = (0..m).map(|i| weight(matrix[(i, i)])).collect();
    let eigen = SymmetricEigen::new(DMatrix::from_fn(m, m, |i, j| scale[i] * matrix[(i, j)] * scale[j]));
    let (resisted, idle): (Vec<usize>, Vec<usize>) = (0..m).partition(|&c| eigen.eigenvalues[c] >= ROUNDING);
    let vectors = &eigen.eigenvectors;
    let part = |i: usize, j: usize, c: usize| vectors[(i, c)] * vectors[(j, c)] / eigen.eigenvalues[c];
    let inverse =
        DMatrix::from_fn(m, m, |i, j| resisted.iter().map(|&c| part(i, j, c)).sum::<f64>() * scale[i] * scale[j]);
    let motions = DMatrix::from_fn(m, idle.len(), |i, j| scale[i] * vectors[(i, idle[j])]);
    (inverse, motions)
}

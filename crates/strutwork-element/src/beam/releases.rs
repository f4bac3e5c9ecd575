//! End releases by static condensation.

use nalgebra::{DMatrix, DVector, SymmetricEigen};

use super::Beam;
use crate::{Mat12, Vec12};

/// Below this share of the unreleased stiffness a condensed entry is rounding, not stiffness.
const ROUNDING: f64 = 1e-12;

/// A tube's stiffness with some of its end freedoms freed.
///
/// ```text
/// k* = k − k_·r (k_rr)⁺ k_r·        f* = f − k_·r (k_rr)⁺ f_r        u_r = (k_rr)⁺ (f_r − k_rn u_n)
/// ```
///
/// The pseudo-inverse lets a tube be freed more than it can bear (torsion freed at both ends): it can then move in
/// itself, which is harmless as long as nothing loads that motion ([`Released::loaded`]).
///
/// # Source
/// Static condensation: Guyan (1965), AIAA Journal 3(2), p. 380 (page from memory).
#[derive(Debug, Clone)]
pub struct Released {
    /// Freed freedoms, in order.
    freed: Vec<usize>,
    /// k_·r (k_rr)⁺, 12 rows.
    carry: DMatrix<f64>,
    /// (k_rr)⁺.
    inverse: DMatrix<f64>,
    /// Rows k_r· of the unreleased stiffness.
    rows: DMatrix<f64>,
    /// Motions of the freed ends that nothing in the tube resists, one a column, scaled to the stiffness' diagonal.
    idle: DMatrix<f64>,
    /// Condensed stiffness.
    pub stiffness: Mat12,
}

/// Which of the twelve end freedoms are freed.
pub type Freed = [bool; 12];

impl Beam {
    /// The tube with these end freedoms freed.
    pub fn release(&self, freed: &Freed) -> Released {
        let k = self.stiffness();
        let freed: Vec<usize> = (0..12).filter(|&i| freed[i]).collect();
        let m = freed.len();
        // Scaled to a unit diagonal, so that metres and radians weigh alike in what counts as zero.
        let scale: Vec<f64> = freed.iter().map(|&i| 1.0 / k[(i, i)].sqrt()).collect();
        let scaled = DMatrix::from_fn(m, m, |i, j| scale[i] * k[(freed[i], freed[j])] * scale[j]);
        if m == 0 {
            let (carry, rows, none) = (DMatrix::zeros(12, 0), DMatrix::zeros(0, 12), DMatrix::zeros(0, 0));
            return Released { freed, carry, inverse: none.clone(), rows, idle: none, stiffness: k };
        }
        let eigen = SymmetricEigen::new(scaled);
        let idle_columns: Vec<usize> = (0..m).filter(|&i| eigen.eigenvalues[i] < ROUNDING).collect();
        let inverse = DMatrix::from_fn(m, m, |i, j| {
            (0..m)
                .filter(|column| !idle_columns.contains(column))
                .map(|c| eigen.eigenvectors[(i, c)] * eigen.eigenvectors[(j, c)] / eigen.eigenvalues[c])
                .sum::<f64>()
                * scale[i]
                * scale[j]
        });
        let idle = DMatrix::from_fn(m, idle_columns.len(), |i, j| scale[i] * eigen.eigenvectors[(i, idle_columns[j])]);
        let rows = DMatrix::from_fn(m, 12, |i, j| k[(freed[i], j)]);
        let carry = rows.transpose() * &inverse;
        let mut condensed = k;
        let taken = &carry * &rows;
        for i in 0..12 {
            for j in 0..12 {
                let value = k[(i, j)] - (taken[(i, j)] + taken[(j, i)]) / 2.0;
                let small = ROUNDING * (k[(i, i)] * k[(j, j)]).sqrt();
                let gone = freed.contains(&i) || freed.contains(&j) || value.abs() <= small;
                condensed[(i, j)] = if gone { 0.0 } else { value };
            }
        }
        Released { freed, carry, inverse, rows, idle, stiffness: condensed }
    }
}

impl Released {
    /// End loads that reach the joints when `loads` act on the tube with these releases.
    pub fn end_loads(&self, loads: &Vec12) -> Vec12 {
        let freed = self.pick(loads);
        let mut condensed = *loads;
        let carried = &self.carry * freed;
        for i in 0..12 {
            condensed[i] -= carried[i];
        }
        for &i in &self.freed {
            condensed[i] = 0.0;
        }
        condensed
    }

    /// Displacements of the tube's own ends: those of the joints, but for the freed freedoms.
    pub fn end_displacements(&self, joints: &Vec12, loads: &Vec12) -> Vec12 {
        let mut held = *joints;
        for &i in &self.freed {
            held[i] = 0.0;
        }
        let moved = &self.inverse * (self.pick(loads) - &self.rows * held);
        for (place, &i) in self.freed.iter().enumerate() {
            held[i] = moved[place];
        }
        held
    }

    /// Which freed freedom moves without limit under these loads, if one does: the largest of its motion.
    pub fn loaded(&self, loads: &Vec12) -> Option<usize> {
        let freed = self.pick(loads);
        let gross: f64 = freed.iter().zip(&self.freed).map(|(f, _)| f * f).sum::<f64>().sqrt();
        (0..self.idle.ncols()).find_map(|c| {
            let motion = self.idle.column(c);
            let work = motion.dot(&freed);
            if work.abs() <= 1e-10 * gross * motion.norm() || gross == 0.0 {
                return None;
            }
            let largest = motion.iter().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?.0;
            Some(self.freed[largest])
        })
    }

    fn pick(&self, loads: &Vec12) -> DVector<f64> {
        DVector::from_iterator(self.freed.len(), self.freed.iter().map(|&i| loads[i]))
    }
}

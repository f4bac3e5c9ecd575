//! The stiffness matrix of the free freedoms.

use nalgebra_sparse::CscMatrix;
use strutwork_element::Mat12;
use strutwork_model::Dof;
use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};

use super::Pattern;
use crate::elements::Elements;
use crate::numbering::Numbering;

/// The stiffness of the free freedoms: lower triangle, compressed columns, N/m, N, N·m.
#[derive(Debug, Clone)]
pub struct System {
    stiffness: CscMatrix<f64>,
}

impl System {
    /// Adds every tube in model order, then the support springs.
    pub fn assemble(elements: &Elements, numbering: &Numbering, pattern: &Pattern, supports: &[Support]) -> Self {
        let mut values = vec![0.0; pattern.entries()];
        let columns = pattern.csc().major_offsets();
        for (tube, element) in elements.iter().enumerate() {
            scatter(
                &mut values,
                columns,
                numbering,
                element.joints,
                pattern.offset(tube),
                &element.global_stiffness(),
            );
        }
        let mut system = Self {
            stiffness: CscMatrix::try_from_pattern_and_values(pattern.csc().clone(), values)
                .expect("bug: one value an entry"),
        };
        for support in supports {
            for dof in Dof::ALL {
                if let Hold::Spring(stiffness) = support.holds[dof] {
                    let equation = numbering.equation(support.joint.index(), dof);
                    system.add_diagonal(equation.expect("bug: a spring's freedom is free"), stiffness);
                }
            }
        }
        system
    }

    /// The lower triangle.
    pub fn stiffness(&self) -> &CscMatrix<f64> {
        &self.stiffness
    }

    /// Adds to a diagonal entry.
    pub fn add_diagonal(&mut self, equation: usize, value: f64) {
        let place = self.stiffness.col_offsets()[equation];
        self.stiffness.values_mut()[place] += value;
    }

    /// Adds s·v·vᵀ within the block of one joint; `v` over the joint's free freedoms, whose equations start at `first`.
    pub fn add_joint_block(&mut self, first: usize, v: &[f64], s: f64) {
        for (c, vc) in v.iter().enumerate() {
            let start = self.stiffness.col_offsets()[first + c];
            for (r, vr) in v.iter().enumerate().skip(c) {
                self.stiffness.values_mut()[start + r - c] += s * vr * vc;
            }
        }
    }

    /// The diagonal.
    pub fn diagonal(&self) -> Vec<f64> {
        let offsets = self.stiffness.col_offsets();
        (0..self.stiffness.ncols()).map(|column| self.stiffness.values()[offsets[column]]).collect()
    }

    /// K·x.
    pub fn multiply(&self, x: &[f64]) -> Vec<f64> {
        self.product(x, |a, x| a * x)
    }

    /// |K|·|x|, the scale that rounding in K·x is measured by.
    pub fn multiply_absolute(&self, x: &[f64]) -> Vec<f64> {
        self.product(x, |a, x| a.abs() * x.abs())
    }

    /// ‖K‖∞, also its 1-norm.
    pub fn norm(&self) -> f64 {
        self.multiply_absolute(&vec![1.0; self.stiffness.ncols()]).into_iter().fold(0.0, f64::max)
    }

    fn product(&self, x: &[f64], term: impl Fn(f64, f64) -> f64) -> Vec<f64> {
        let mut y = vec![0.0; x.len()];
        let (offsets, rows, values) = self.stiffness.csc_data();
        for column in 0..x.len() {
            let mut sum = 0.0;
            for place in offsets[column]..offsets[column + 1] {
                let row = rows[place];
                sum += term(values[place], x[row]);
                if row != column {
                    y[row] += term(values[place], x[column]);
                }
            }
            y[column] += sum;
        }
        y
    }
}

/// Adds a tube's global stiffness to the lower triangle.
fn scatter(
    values: &mut [f64],
    columns: &[usize],
    numbering: &Numbering,
    joints: [usize; 2],
    offset: usize,
    k: &Mat12,
) {
    let (low, high) = if joints[0] < joints[1] { (0, 1) } else { (1, 0) };
    for end in [low, high] {
        for (c, (dof, column)) in numbering.free(joints[end]).enumerate() {
            let start = columns[column];
            for (r, (row, _)) in numbering.free(joints[end]).enumerate().skip(c) {
                values[start + r - c] += k[(6 * end + row, 6 * end + dof)];
            }
        }
    }
    let own = numbering.free(joints[low]).count();
    for (c, (dof, column)) in numbering.free(joints[low]).enumerate() {
        let start = columns[column] + own - c + offset;
        for (r, (row, _)) in numbering.free(joints[high]).enumerate() {
            values[start + r] += k[(6 * high + row, 6 * low + dof)];
        }
    }
}

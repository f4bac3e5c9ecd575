//! The stiffness matrix of the free freedoms.

use nalgebra::{DMatrix, DMatrixView};
use nalgebra_sparse::CscMatrix;
use rayon::prelude::*;
use strutwork_element::Mat12;
use strutwork_model::Dof;
use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};

use super::Pattern;
use super::coupled::plain;
use crate::elements::{Element, Elements};
use crate::numbering::Numbering;

/// Joints whose columns one thread fills at a time.
const CHUNK: usize = 64;

/// The stiffness of the free freedoms: lower triangle, compressed columns, N/m, N, N·m.
#[derive(Debug, Clone)]
pub struct System {
    stiffness: CscMatrix<f64>,
}

impl System {
    /// A stiffness of this pattern, all zero.
    pub fn empty(pattern: &Pattern) -> Self {
        let values = vec![0.0; pattern.entries()];
        let stiffness = CscMatrix::try_from_pattern_and_values(pattern.csc().clone(), values);
        Self { stiffness: stiffness.expect("bug: one value an entry") }
    }

    /// A new stiffness, filled.
    pub fn assemble(elements: &Elements, numbering: &Numbering, pattern: &Pattern, supports: &[Support]) -> Self {
        let mut system = Self::empty(pattern);
        system.fill(elements, numbering, pattern, supports);
        system
    }

    /// A matrix of this pattern made of what each tube brings: 12×12 over its joints, global axes.
    pub fn of_tubes(
        elements: &Elements,
        numbering: &Numbering,
        pattern: &Pattern,
        matrix: impl Fn(usize, &Element) -> Mat12,
    ) -> Self {
        let mut system = Self::empty(pattern);
        for (place, element) in elements.tubes().iter().enumerate().filter(|(_, element)| plain(element, numbering)) {
            let brought = matrix(place, element);
            let whole = DMatrix::from_fn(12, 12, |i, j| brought[(i, j)]);
            for (i, j) in [(0, 0), (0, 1), (1, 1)] {
                let (i, j) = if element.joints[0] <= element.joints[1] { (i, j) } else { (1 - i, 1 - j) };
                let [low, high] = [element.joints[i], element.joints[j]];
                system.add_block(numbering, low, high, &whole.view((6 * j, 6 * i), (6, 6)));
            }
        }
        for piece in pattern.coupled() {
            let Some(place) = piece.tube_place() else { continue };
            let element = &elements.tubes()[place];
            let whole = piece.spread_tube(element, &matrix(place, element), numbering);
            system.add_piece(numbering, &piece.nodes, &whole);
        }
        system
    }

    /// Adds a matrix over all six freedoms of these nodes, ascending.
    pub(crate) fn add_piece(&mut self, numbering: &Numbering, nodes: &[usize], matrix: &DMatrix<f64>) {
        for (i, &low) in nodes.iter().enumerate() {
            for (j, &high) in nodes.iter().enumerate().skip(i) {
                self.add_block(numbering, low, high, &matrix.view((6 * j, 6 * i), (6, 6)));
            }
        }
    }

    /// Adds a multiple of another matrix of the same pattern.
    pub fn add_multiple(&mut self, factor: f64, other: &Self) {
        for (value, part) in self.stiffness.values_mut().iter_mut().zip(other.stiffness.values()) {
            *value += factor * part;
        }
    }

    /// Replaces all values: every plain tube in model order, then all other pieces, then the support springs.
    ///
    /// Each joint's columns are filled by themselves, its tubes in order, and the rest one after another, so that the sums
    /// are the same on any number of threads.
    pub fn fill(&mut self, elements: &Elements, numbering: &Numbering, pattern: &Pattern, supports: &[Support]) {
        let values = self.stiffness.values_mut();
        let columns = pattern.csc().major_offsets();
        let list = elements.tubes();
        let mut rest = values;
        let mut chunks = Vec::new();
        let mut done = 0;
        for start in (0..numbering.nodes()).step_by(CHUNK) {
            let nodes = start..(start + CHUNK).min(numbering.nodes());
            let equations: usize = nodes.clone().map(|node| numbering.count(node)).sum();
            let first = done;
            done += equations;
            let (own, others) = rest.split_at_mut(columns[done] - columns[first]);
            rest = others;
            chunks.push((nodes, columns[first], own));
        }
        chunks.into_par_iter().for_each(|(nodes, base, own)| {
            own.fill(0.0);
            for node in nodes {
                for (tube, end) in pattern.ends(node) {
                    add(own, base, columns, numbering, &list[tube], end, pattern.offset(tube));
                }
            }
        });
        for piece in pattern.coupled() {
            self.add_piece(numbering, &piece.nodes, &piece.stiffness(elements, numbering));
        }
        for support in supports {
            for dof in Dof::ALL {
                if let Hold::Spring(stiffness) = support.holds[dof] {
                    self.add_support_spring(numbering, support.joint.index(), dof, stiffness);
                }
            }
        }
    }

    /// Adds what the movement of node `low` brings to node `high` (rows of `high`, all six freedoms of both).
    fn add_block(&mut self, numbering: &Numbering, low: usize, high: usize, block: &DMatrixView<'_, f64>) {
        let (offsets, rows, values) = self.stiffness.csc_data_mut();
        for (dof, column) in numbering.free(low) {
            let range = offsets[column]..offsets[column + 1];
            let below = || numbering.free(high).filter(|(_, row)| *row >= column);
            let Some((_, first)) = below().next() else { continue };
            let start = range.start + rows[range].binary_search(&first).expect("bug: the pattern has every block");
            for (value, (row, _)) in values[start..].iter_mut().zip(below()) {
                *value += block[(row, dof)];
            }
        }
    }

    /// Adds a spring to ground at a joint's freedom: at its equation, or through the body that it is bolted to.
    pub(crate) fn add_support_spring(&mut self, numbering: &Numbering, joint: usize, dof: Dof, stiffness: f64) {
        if let Some(equation) = numbering.equation(joint, dof) {
            self.add_diagonal(equation, stiffness);
        } else if let Some(tie) = numbering.tie(joint) {
            let free: Vec<(usize, usize)> = numbering.free(tie.host).collect();
            let Some((_, first)) = free.first() else { return };
            let share: Vec<f64> = free.iter().map(|(column, _)| tie.map[(dof.index(), *column)]).collect();
            self.add_node_block(*first, &share, stiffness);
        }
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

    /// Adds s·v·vᵀ within the block of one node; `v` over the node's equations, which start at `first`.
    pub fn add_node_block(&mut self, first: usize, v: &[f64], s: f64) {
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

/// Adds what one end of a tube brings to the columns of its joint; `values` starts at entry `base`.
fn add(
    values: &mut [f64],
    base: usize,
    columns: &[usize],
    numbering: &Numbering,
    element: &Element,
    end: usize,
    offset: usize,
) {
    let (joint, other_joint) = (element.joints[end], element.joints[1 - end]);
    let [own, other] = element.quarters(end);
    let (count, lower) = (numbering.count(joint), joint < other_joint);
    if count == 6 && (!lower || numbering.count(other_joint) == 6) {
        // The common case, without looking up which freedoms are free.
        let first = numbering.free(joint).next().map_or(0, |(_, equation)| equation);
        for column in 0..6 {
            let start = columns[first + column] - base;
            let (diagonal, rest) = values[start..].split_at_mut(6 - column);
            for (value, add) in diagonal.iter_mut().zip(&own.as_slice()[6 * column + column..6 * column + 6]) {
                *value += add;
            }
            if lower {
                let block = &mut rest[offset..offset + 6];
                for (value, add) in block.iter_mut().zip(&other.as_slice()[6 * column..6 * column + 6]) {
                    *value += add;
                }
            }
        }
        return;
    }
    for (c, (dof, column)) in numbering.free(joint).enumerate() {
        let start = columns[column] - base;
        let diagonal = &mut values[start..start + count - c];
        for (value, (row, _)) in diagonal.iter_mut().zip(numbering.free(joint).skip(c)) {
            *value += own[(row, dof)];
        }
        if lower {
            let start = start + count - c + offset;
            for (value, (row, _)) in values[start..].iter_mut().zip(numbering.free(other_joint)) {
                *value += other[(row, dof)];
            }
        }
    }
}

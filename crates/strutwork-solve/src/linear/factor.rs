//! Sparse Cholesky. The only file that names the solver library.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::factor::LltError;
use faer::perm::PermRef;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LltRef, SymbolicCholesky, SymbolicCholeskyRaw, SymmetricOrdering,
    factorize_symbolic_cholesky, supernodal::SupernodalLltRef,
};
use faer::sparse::linalg::{SupernodalThreshold, amd};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};
use nalgebra_sparse::CscMatrix;

use super::ordering::dissect;
use crate::assembly::Pattern;
use crate::numbering::Numbering;

/// Below this many joints minimum degree is as good as anything.
const SMALL: usize = 200;

/// The elimination order and the pattern of the factor: once a topology.
#[derive(Debug)]
pub struct Symbolic(SymbolicCholesky<usize>);

/// The factor of one stiffness matrix.
#[derive(Debug)]
pub struct Factored<'s> {
    symbolic: &'s SymbolicCholesky<usize>,
    values: Vec<f64>,
    /// Smallest L_kk² / A_kk, and its equation.
    smallest_pivot: (f64, usize),
}

/// The factorisation met a pivot that is not positive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NotPositive {
    /// The equation of the pivot, in the caller's numbering.
    pub equation: usize,
}

impl Symbolic {
    /// Analyses the pattern: minimum degree on the graph of the joints, and for larger frames nested dissection by the
    /// joints' places (m) as well; the order with fewer entries in the factor is kept.
    pub fn analyse(pattern: &Pattern, numbering: &Numbering, places: &[[f64; 3]]) -> Self {
        let (starts, higher) = pattern.joint_graph();
        let joints = numbering.joints();
        let mut neighbours: Vec<Vec<u32>> = vec![Vec::new(); joints];
        for joint in 0..joints {
            for &other in &higher[starts[joint]..starts[joint + 1]] {
                neighbours[joint].push(other);
                neighbours[other as usize].push(joint as u32);
            }
        }
        for list in &mut neighbours {
            list.sort_unstable();
        }
        let minimum_degree = minimum_degree(&neighbours);
        let first = symbolic(pattern, numbering, &minimum_degree);
        if joints < SMALL {
            return Self(first);
        }
        let dissected = symbolic(pattern, numbering, &dissect(places, &neighbours, &minimum_degree));
        Self(if work(&dissected) < work(&first) { dissected } else { first })
    }

    /// Entries of the factor.
    pub fn factor_entries(&self) -> usize {
        self.0.len_val()
    }

    /// Factors a matrix (lower triangle) of the analysed pattern.
    ///
    /// # Errors
    /// [`NotPositive`] with the equation of the pivot that failed.
    pub fn factor(&self, stiffness: &CscMatrix<f64>) -> Result<Factored<'_>, NotPositive> {
        let symbolic = &self.0;
        let mut values = vec![0.0; symbolic.len_val()];
        let scratch = symbolic.factorize_numeric_llt_scratch::<f64>(Par::Seq, Default::default());
        let mut memory = MemBuffer::new(scratch);
        let (columns, rows, entries) = stiffness.csc_data();
        let n = stiffness.ncols();
        let view = SparseColMatRef::new(SymbolicSparseColMatRef::new_checked(n, n, columns, None, rows), entries);
        let outcome = symbolic.factorize_numeric_llt::<f64>(
            &mut values,
            view,
            Side::Lower,
            Default::default(),
            Par::Seq,
            MemStack::new(&mut memory),
            Default::default(),
        );
        match outcome {
            Ok(_) => {
                let smallest_pivot = smallest_pivot(symbolic, &values, stiffness);
                Ok(Factored { symbolic, values, smallest_pivot })
            }
            Err(LltError::NonPositivePivot { index }) => {
                Err(NotPositive { equation: caller_equation(symbolic, index) })
            }
        }
    }
}

impl Factored<'_> {
    /// Solves K·x = b in place for `columns` right-hand sides that stand one after another in `b`.
    pub fn solve(&self, b: &mut [f64], columns: usize) {
        let n = self.symbolic.ncols();
        assert_eq!(b.len(), n * columns, "bug: one value an equation and case");
        let scratch = self.symbolic.solve_in_place_scratch::<f64>(columns, Par::Seq);
        let mut memory = MemBuffer::new(scratch);
        LltRef::<usize, f64>::new(self.symbolic, &self.values).solve_in_place_with_conj(
            Conj::No,
            MatMut::from_column_major_slice_mut(b, n, columns),
            Par::Seq,
            MemStack::new(&mut memory),
        );
    }

    /// Smallest pivot over its diagonal entry, and its equation.
    pub fn smallest_pivot(&self) -> (f64, usize) {
        self.smallest_pivot
    }
}

fn minimum_degree(neighbours: &[Vec<u32>]) -> Vec<usize> {
    let n = neighbours.len();
    let mut columns = vec![0];
    let mut rows = Vec::new();
    for (joint, list) in neighbours.iter().enumerate() {
        rows.push(joint);
        rows.extend(list.iter().map(|other| *other as usize));
        let start = columns[joint];
        rows[start..].sort_unstable();
        columns.push(rows.len());
    }
    let (mut order, mut inverse) = (vec![0; n], vec![0; n]);
    let mut memory = MemBuffer::new(amd::order_scratch::<usize>(n, rows.len()));
    let graph = SymbolicSparseColMatRef::new_checked(n, n, &columns, None, &rows);
    amd::order(&mut order, &mut inverse, graph, Default::default(), MemStack::new(&mut memory))
        .expect("bug: out of memory while ordering");
    order
}

/// Analyses with an order of joints.
fn symbolic(pattern: &Pattern, numbering: &Numbering, joints: &[usize]) -> SymbolicCholesky<usize> {
    let order: Vec<usize> =
        joints.iter().flat_map(|joint| numbering.free(*joint).map(|(_, equation)| equation)).collect();
    let mut inverse = vec![0; order.len()];
    for (new, &old) in order.iter().enumerate() {
        inverse[old] = new;
    }
    let n = order.len();
    let csc = pattern.csc();
    let view = SymbolicSparseColMatRef::new_checked(n, n, csc.major_offsets(), None, csc.minor_indices());
    // One path for every size: a failing pivot's index and the last bits then always mean the same.
    let params = CholeskySymbolicParams {
        supernodal_flop_ratio_threshold: SupernodalThreshold::FORCE_SUPERNODAL,
        ..Default::default()
    };
    let order = SymmetricOrdering::Custom(PermRef::new_checked(&order, &inverse, n));
    factorize_symbolic_cholesky(view, Side::Lower, order, params).expect("bug: out of memory while analysing")
}

/// Multiplications of a numeric factorisation, from the supernodes' sizes.
fn work(symbolic: &SymbolicCholesky<usize>) -> f64 {
    let SymbolicCholeskyRaw::Supernodal(nodes) = symbolic.raw() else { return symbolic.len_val() as f64 };
    (0..nodes.n_supernodes())
        .map(|node| {
            let width = (nodes.supernode_end()[node] - nodes.supernode_begin()[node]) as f64;
            let below = (nodes.col_ptr_for_row_idx()[node + 1] - nodes.col_ptr_for_row_idx()[node]) as f64;
            width * width * width / 3.0 + width * width * below + width * below * below
        })
        .sum()
}

/// The library counts the failing pivot in its own order: from 1 on the simplicial path, from 0 on the supernodal one.
fn caller_equation(symbolic: &SymbolicCholesky<usize>, index: usize) -> usize {
    let place = match symbolic.raw() {
        SymbolicCholeskyRaw::Simplicial(_) => index - 1,
        SymbolicCholeskyRaw::Supernodal(_) => index,
    };
    symbolic.perm().map_or(place, |perm| perm.arrays().0[place])
}

fn smallest_pivot(symbolic: &SymbolicCholesky<usize>, values: &[f64], stiffness: &CscMatrix<f64>) -> (f64, usize) {
    let offsets = stiffness.col_offsets();
    let SymbolicCholeskyRaw::Supernodal(nodes) = symbolic.raw() else {
        unreachable!("bug: the supernodal path is forced");
    };
    let factor = SupernodalLltRef::<usize, f64>::new(nodes, values);
    let mut smallest = (f64::INFINITY, 0);
    for node in 0..nodes.n_supernodes() {
        let node = factor.supernode(node);
        let block = node.val();
        for column in 0..block.ncols() {
            let place = node.start() + column;
            let equation = symbolic.perm().map_or(place, |perm| perm.arrays().0[place]);
            let pivot = block[(column, column)];
            let ratio = pivot * pivot / stiffness.values()[offsets[equation]];
            if ratio < smallest.0 {
                smallest = (ratio, equation);
            }
        }
    }
    smallest
}

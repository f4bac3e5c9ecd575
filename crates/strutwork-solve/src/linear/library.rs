//! The only file that names the solver library: minimum degree, supernodes, a factor on one thread.

use std::ops::Range;

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::ldlt::factor::LdltError;
use faer::linalg::cholesky::llt::factor::LltError;
use faer::perm::PermRef;
use faer::sparse::linalg::amd;
use faer::sparse::linalg::cholesky::supernodal::{SupernodalLltRef, SymbolicSupernodalCholesky};
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LdltRef, LltRef, SymbolicCholesky, SymbolicCholeskyRaw, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::linalg::{SupernodalThreshold, SymbolicSupernodalParams};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};
use nalgebra_sparse::CscMatrix;
use nalgebra_sparse::pattern::SparsityPattern;

use super::work;

/// A group may take in its last child's if it then has at most so many joints and less than this share of zeros.
const MERGE: &[(usize, f64)] = &[(3, 0.8), (8, 0.1), (usize::MAX, 0.05)];

/// The pattern of the factor of a small frame.
#[derive(Debug)]
pub(super) struct Analysed(SymbolicCholesky<usize>);

impl Analysed {
    /// Analyses a lower triangle; `order[new] = old`.
    pub(super) fn of(pattern: &SparsityPattern, order: &[usize]) -> Self {
        let n = order.len();
        let mut inverse = vec![0; n];
        for (new, &old) in order.iter().enumerate() {
            inverse[old] = new;
        }
        let (columns, rows) = (pattern.major_offsets(), pattern.minor_indices());
        let view = SymbolicSparseColMatRef::new_checked(n, n, columns, None, rows);
        let order = SymmetricOrdering::Custom(PermRef::new_checked(order, &inverse, n));
        Self(supernodal(view, order, SymbolicSupernodalParams::default()))
    }

    /// How many equations there are.
    pub(super) fn len(&self) -> usize {
        self.0.ncols()
    }

    /// Entries of the factor.
    pub(super) fn len_values(&self) -> usize {
        self.0.len_val()
    }

    /// Multiplications of a numeric factorisation, from the supernodes' sizes.
    pub(super) fn work(&self) -> f64 {
        let nodes = supernodes_of(&self.0);
        (0..nodes.n_supernodes())
            .map(|node| {
                let width = nodes.supernode_end()[node] - nodes.supernode_begin()[node];
                work(width, nodes.col_ptr_for_row_idx()[node + 1] - nodes.col_ptr_for_row_idx()[node])
            })
            .sum()
    }

    /// The values of the factor.
    ///
    /// # Errors
    /// The equation of the first pivot that is not positive.
    pub(super) fn factor(&self, stiffness: &CscMatrix<f64>) -> Result<Vec<f64>, usize> {
        let mut values = vec![0.0; self.len_values()];
        let mut memory = MemBuffer::new(self.0.factorize_numeric_llt_scratch::<f64>(Par::Seq, Default::default()));
        let outcome = self.0.factorize_numeric_llt::<f64>(
            &mut values,
            view(stiffness),
            Side::Lower,
            Default::default(),
            Par::Seq,
            MemStack::new(&mut memory),
            Default::default(),
        );
        // Counted from 0 in the library's own order (from 1 on its other path, which is never taken).
        outcome.map_err(|LltError::NonPositivePivot { index }| self.equation(index))?;
        Ok(values)
    }

    /// Solves K·x = b in place for `columns` right-hand sides that stand one after another in `b`.
    pub(super) fn solve(&self, values: &[f64], b: &mut [f64], columns: usize) {
        let mut memory = MemBuffer::new(self.0.solve_in_place_scratch::<f64>(columns, Par::Seq));
        LltRef::<usize, f64>::new(&self.0, values).solve_in_place_with_conj(
            Conj::No,
            MatMut::from_column_major_slice_mut(b, self.0.ncols(), columns),
            Par::Seq,
            MemStack::new(&mut memory),
        );
    }

    /// Every pivot L_kk with its equation, in the order of elimination.
    pub(super) fn pivots<'a>(&'a self, values: &'a [f64]) -> impl Iterator<Item = (usize, f64)> + 'a {
        let nodes = supernodes_of(&self.0);
        let factor = SupernodalLltRef::<usize, f64>::new(nodes, values);
        (0..nodes.n_supernodes()).flat_map(move |node| {
            let (node, block) = (factor.supernode(node), factor.supernode(node).val());
            (0..block.ncols()).map(move |column| (self.equation(node.start() + column), block[(column, column)]))
        })
    }

    fn equation(&self, place: usize) -> usize {
        self.0.perm().map_or(place, |perm| perm.arrays().0[place])
    }
}

/// LDLᵀ of a symmetric matrix that need not be positive.
#[derive(Debug)]
pub(super) struct Indefinite {
    values: Vec<f64>,
}

impl Analysed {
    /// Factors a matrix (lower triangle) of the analysed pattern without pivoting.
    ///
    /// # Errors
    /// The equation whose pivot is zero.
    pub(super) fn factor_indefinite(&self, matrix: &CscMatrix<f64>) -> Result<Indefinite, usize> {
        let mut values = vec![0.0; self.len_values()];
        let mut memory = MemBuffer::new(self.0.factorize_numeric_ldlt_scratch::<f64>(Par::Seq, Default::default()));
        let outcome = self.0.factorize_numeric_ldlt::<f64>(
            &mut values,
            view(matrix),
            Side::Lower,
            Default::default(),
            Par::Seq,
            MemStack::new(&mut memory),
            Default::default(),
        );
        outcome.map_err(|LdltError::ZeroPivot { index }| self.equation(index))?;
        Ok(Indefinite { values })
    }

    /// How many pivots of the factor are negative: as many eigenvalues are (Sylvester).
    pub(super) fn negative(&self, factor: &Indefinite) -> usize {
        self.pivots(&factor.values).filter(|(_, pivot)| *pivot < 0.0).count()
    }

    /// Solves with the factor, in place, for `columns` right-hand sides that stand one after another in `b`.
    pub(super) fn solve_indefinite(&self, factor: &Indefinite, b: &mut [f64], columns: usize) {
        let mut memory = MemBuffer::new(self.0.solve_in_place_scratch::<f64>(columns, Par::Seq));
        LdltRef::<usize, f64>::new(&self.0, &factor.values).solve_in_place_with_conj(
            Conj::No,
            MatMut::from_column_major_slice_mut(b, self.0.ncols(), columns),
            Par::Seq,
            MemStack::new(&mut memory),
        );
    }
}

/// A matrix as the library sees it, without copying.
fn view(matrix: &CscMatrix<f64>) -> SparseColMatRef<'_, usize, f64> {
    let (columns, rows, entries) = matrix.csc_data();
    let n = matrix.ncols();
    SparseColMatRef::new(SymbolicSparseColMatRef::new_checked(n, n, columns, None, rows), entries)
}

/// Analyses a pattern. One path for every size: a failing pivot's index and the last bits then always mean the same.
fn supernodal(
    pattern: SymbolicSparseColMatRef<'_, usize>,
    order: SymmetricOrdering<'_, usize>,
    supernodal_params: SymbolicSupernodalParams<'_>,
) -> SymbolicCholesky<usize> {
    let params = CholeskySymbolicParams {
        supernodal_flop_ratio_threshold: SupernodalThreshold::FORCE_SUPERNODAL,
        supernodal_params,
        ..Default::default()
    };
    factorize_symbolic_cholesky(pattern, Side::Lower, order, params).expect("bug: out of memory while analysing")
}

fn supernodes_of(symbolic: &SymbolicCholesky<usize>) -> &SymbolicSupernodalCholesky<usize> {
    match symbolic.raw() {
        SymbolicCholeskyRaw::Supernodal(nodes) => nodes,
        SymbolicCholeskyRaw::Simplicial(_) => unreachable!("bug: the supernodal path is forced"),
    }
}

/// Groups of places that are eliminated together, in order, with the places below that they reach, ascending.
///
/// `columns[place]..columns[place + 1]` stands for the entries of `rows` that hold the earlier neighbours of a place and
/// the place itself, ascending: the upper triangle, in elimination order.
pub(super) fn groups(columns: &[usize], rows: &[usize]) -> Vec<(Range<usize>, Vec<usize>)> {
    let n = columns.len() - 1;
    let view = SymbolicSparseColMatRef::new_checked(n, n, columns, None, rows);
    // In the given order the library takes the upper triangle whatever side it is told.
    let merge = SymbolicSupernodalParams { relax: Some(MERGE) };
    let symbolic = supernodal(view, SymmetricOrdering::Identity, merge);
    let nodes = supernodes_of(&symbolic);
    let starts = nodes.col_ptr_for_row_idx();
    (0..nodes.n_supernodes())
        .map(|node| {
            let places = nodes.supernode_begin()[node]..nodes.supernode_end()[node];
            (places, nodes.row_idx()[starts[node]..starts[node + 1]].to_vec())
        })
        .collect()
}

/// Approximate minimum degree order of a graph: `order[new] = old`.
pub(super) fn minimum_degree(neighbours: &[Vec<u32>]) -> Vec<usize> {
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

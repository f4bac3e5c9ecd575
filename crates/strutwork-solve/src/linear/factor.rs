//! Sparse Cholesky: elimination order, factor, solves.

use nalgebra_sparse::CscMatrix;

use super::fronts::Factoring;
use super::groups::Groups;
use super::layout::Layout;
use super::library::{Analysed, minimum_degree};
use super::ordering::dissect;
use super::pool::Pool;
use super::reroot::rerooted;
use super::solve;
use super::tree::Tree;
use crate::assembly::Pattern;
use crate::numbering::Numbering;

/// Below this many joints minimum degree is as good as anything.
const SMALL: usize = 200;

/// Multiplications from which on a frame is factored front by front: below, one thread is done before two have met.
const LARGE: f64 = 5e8;

/// The elimination order and the pattern of the factor: once a topology.
#[derive(Debug)]
pub struct Symbolic(pub(super) Method);

/// How the factor is made: by the work that it takes, never by the machine, so that the bits are the same everywhere.
#[derive(Debug)]
pub(super) enum Method {
    /// By the solver library, on one thread.
    Whole(Analysed),
    /// Front by front, on several threads.
    Fronts(Tree, Pool),
}

/// The factor of one stiffness matrix.
#[derive(Debug)]
pub struct Factored<'s> {
    method: &'s Method,
    pub(super) values: Vec<f64>,
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
    /// Analyses the pattern: minimum degree on the graph of the joints and bodies, and for larger frames nested dissection
    /// by their places (m) as well; the order that takes fewer multiplications is kept.
    pub fn analyse(pattern: &Pattern, numbering: &Numbering, places: &[[f64; 3]]) -> Self {
        let layout = Layout::of(pattern, numbering);
        let by_degree = minimum_degree(layout.graph());
        let whole = |order: &[usize]| {
            Analysed::of(pattern.csc(), &order.iter().flat_map(|node| layout.equations(*node)).collect::<Vec<_>>())
        };
        if layout.counts().len() < SMALL || numbering.is_empty() {
            return Self(Method::Whole(whole(&by_degree)));
        }
        let grouped = |order: &[usize]| Groups::of(layout.graph(), layout.counts(), order.iter().copied());
        let dissected = dissect(places, layout.graph(), &by_degree);
        let groups = grouped(&by_degree);
        if groups.total_work() < LARGE {
            let (first, second) = (whole(&by_degree), whole(&dissected));
            return Self(Method::Whole(if second.work() < first.work() { second } else { first }));
        }
        let others = grouped(&dissected);
        let best = if others.total_work() < groups.total_work() { others } else { groups };
        Self(Method::Fronts(Tree::of(&grouped(&rerooted(&best)), &layout), Pool::default()))
    }

    /// Entries of the factor.
    pub fn factor_entries(&self) -> usize {
        match &self.0 {
            Method::Whole(analysed) => analysed.len_values(),
            Method::Fronts(tree, _) => tree.len_values,
        }
    }

    /// Factors a matrix (lower triangle) of the analysed pattern.
    ///
    /// Large frames are factored and solved on several threads: as many as there are processors, or as the environment
    /// variable `RAYON_NUM_THREADS` says. The bits of the factor and of every solution do not depend on their number. The
    /// memory of a large factor is kept for the next one, until the analysis is dropped.
    ///
    /// # Errors
    /// [`NotPositive`] with the equation of the pivot that failed.
    pub fn factor(&self, stiffness: &CscMatrix<f64>) -> Result<Factored<'_>, NotPositive> {
        let method = &self.0;
        let offsets = stiffness.col_offsets();
        let diagonal = |equation: usize| stiffness.values()[offsets[equation]];
        match method {
            Method::Whole(analysed) => {
                let values = analysed.factor(stiffness).map_err(|equation| NotPositive { equation })?;
                let smallest_pivot = smallest(analysed.pivots(&values), diagonal);
                Ok(Factored { method, values, smallest_pivot })
            }
            Method::Fronts(tree, pool) => {
                let mut values = pool.take(tree.len_values);
                let outcome = Factoring { tree, entries: stiffness.values(), pool }.factor(&mut values);
                if let Err(column) = outcome {
                    pool.give(values);
                    return Err(NotPositive { equation: tree.order[column] });
                }
                let smallest_pivot = smallest(tree.pivots(&values), diagonal);
                Ok(Factored { method, values, smallest_pivot })
            }
        }
    }
}

impl Factored<'_> {
    /// Solves K·x = b in place for `columns` right-hand sides that stand one after another in `b`.
    pub fn solve(&self, b: &mut [f64], columns: usize) {
        match self.method {
            Method::Whole(analysed) => analysed.solve(&self.values, b, columns),
            Method::Fronts(tree, _) => solve::solve(tree, &self.values, b, columns),
        }
    }

    /// Smallest pivot over its diagonal entry, and its equation.
    pub fn smallest_pivot(&self) -> (f64, usize) {
        self.smallest_pivot
    }
}

impl Drop for Factored<'_> {
    fn drop(&mut self) {
        if let Method::Fronts(_, pool) = self.method {
            pool.give(std::mem::take(&mut self.values));
        }
    }
}

/// Smallest L_kk² / A_kk, and its equation.
fn smallest(pivots: impl Iterator<Item = (usize, f64)>, diagonal: impl Fn(usize) -> f64) -> (f64, usize) {
    pivots.fold((f64::INFINITY, 0), |smallest, (equation, pivot)| {
        let ratio = pivot * pivot / diagonal(equation);
        if ratio < smallest.0 { (ratio, equation) } else { smallest }
    })
}

/// The order in which joints and bodies are best eliminated: nodes with equations, every tree of the elimination in one piece.
pub(crate) fn elimination_order(pattern: &Pattern, numbering: &Numbering, places: &[[f64; 3]]) -> Vec<usize> {
    let layout = Layout::of(pattern, numbering);
    let by_degree = minimum_degree(layout.graph());
    let grouped = |order: &[usize]| Groups::of(layout.graph(), layout.counts(), order.iter().copied());
    let (first, second) = (grouped(&by_degree), grouped(&dissect(places, layout.graph(), &by_degree)));
    let best = if second.total_work() < first.total_work() { second } else { first };
    best.in_postorder(layout.counts()).0.nodes
}

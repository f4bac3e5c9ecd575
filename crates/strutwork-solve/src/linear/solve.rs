//! Solves with a factor made front by front.
//!
//! L·y = b from the leaves to the roots, Lᵀ·x = y from the roots to the leaves. As in the factorisation every front passes
//! on what it does to its rows below, and the bits do not depend on the number of threads.

use std::ops::Range;

use super::fronts::add;
use super::passes::{self, Panel};
use super::plan::Plan;
use super::tree::{Front, Tree};

/// Products below which a solve stays on one thread.
const SMALL_SOLVE: usize = 1_000_000;

/// Solves K·x = b in place for `cases` right-hand sides that stand one after another in `b`.
pub(super) fn solve(tree: &Tree, values: &[f64], b: &mut [f64], cases: usize) {
    let n = tree.order.len();
    let size = passes::row(cases);
    let mut x = vec![0.0; n * size];
    for (row, equation) in x.chunks_exact_mut(size).zip(&tree.order) {
        for (case, x) in row[..cases].iter_mut().enumerate() {
            *x = b[case * n + equation];
        }
    }
    let row = Plan::Row(0..tree.fronts.len());
    let plan = if values.len() * cases < SMALL_SOLVE { &row } else { &tree.plan };
    let walk = Walk { tree, values, row: size };
    let passed = walk.forward(plan, &mut x);
    walk.backward(plan, &mut x, passed);
    for (row, equation) in x.chunks_exact(size).zip(&tree.order) {
        for (case, x) in row[..cases].iter().enumerate() {
            b[case * n + equation] = *x;
        }
    }
}

/// A solve under way: in elimination order a row for each column, the cases side by side.
#[derive(Debug, Clone, Copy)]
struct Walk<'t> {
    tree: &'t Tree,
    values: &'t [f64],
    /// Numbers of a row.
    row: usize,
}

impl Walk<'_> {
    fn len(self, fronts: &Range<usize>) -> usize {
        self.tree.fronts[fronts.clone()].iter().map(Front::width).sum::<usize>() * self.row
    }

    /// L·y = b over a plan; gives what its roots pass on.
    fn forward(self, plan: &Plan, x: &mut [f64]) -> Vec<Vec<f64>> {
        let fork = match plan {
            Plan::Row(fronts) => return self.forward_row(fronts, x, Vec::new()),
            Plan::Fork(fork) => fork,
        };
        let (before, rest) = x.split_at_mut(self.len(&fork.before));
        let (left, rest) = rest.split_at_mut(self.len(&fork.left.fronts()));
        let (right, after) = rest.split_at_mut(self.len(&fork.right.fronts()));
        let mut passed = self.forward_row(&fork.before, before, Vec::new());
        let (left, right) = rayon::join(|| self.forward(&fork.left, left), || self.forward(&fork.right, right));
        passed.extend(left);
        passed.extend(right);
        self.forward_row(&fork.after, after, passed)
    }

    fn forward_row(self, fronts: &Range<usize>, mut x: &mut [f64], mut passed: Vec<Vec<f64>>) -> Vec<Vec<f64>> {
        let mut spare: Vec<Vec<f64>> = Vec::new();
        for front in &self.tree.fronts[fronts.clone()] {
            let (block, rest) = x.split_at_mut(front.width() * self.row);
            x = rest;
            let children = &self.tree.children[front.children.clone()];
            let updates = passed.split_off(passed.len() - children.len());
            let mut own = spare.pop().unwrap_or_default();
            own.clear();
            own.resize(front.below() * self.row, 0.0);
            for (child, update) in children.iter().zip(&updates) {
                for shared in self.shared(&self.tree.fronts[*child], front) {
                    let target = if shared.in_columns { &mut *block } else { &mut own };
                    add(&mut target[shared.at], &update[shared.from]);
                }
            }
            self.panel(front).forward(block, &mut own);
            spare.extend(updates);
            passed.push(own);
        }
        passed
    }

    fn panel(&self, front: &Front) -> Panel<'_> {
        Panel { values: &self.values[front.values.clone()], height: front.height, row: self.row }
    }

    /// The rows below a child in its parent's front, piece by piece.
    fn shared(self, child: &Front, parent: &Front) -> impl Iterator<Item = Shared> {
        let (row, width) = (self.row, parent.width());
        let numbers = move |rows: Range<usize>| rows.start * row..rows.end * row;
        self.tree.runs[child.runs.clone()].iter().flat_map(move |run| {
            let above = width.saturating_sub(run.to).min(run.len);
            let parts = [(true, 0..above), (false, above..run.len)].into_iter().filter(|(_, part)| !part.is_empty());
            parts.map(move |(in_columns, part)| {
                let at = run.to + part.start - if in_columns { 0 } else { width };
                let from = run.from + part.start;
                Shared { in_columns, at: numbers(at..at + part.len()), from: numbers(from..from + part.len()) }
            })
        })
    }

    /// Lᵀ·x = y over a plan; `above` holds for each of its roots the solution in the rows below, the last root last.
    fn backward(self, plan: &Plan, x: &mut [f64], above: Vec<Vec<f64>>) {
        let fork = match plan {
            Plan::Row(fronts) => {
                self.backward_row(fronts, x, above);
                return;
            }
            Plan::Fork(fork) => fork,
        };
        let (before, rest) = x.split_at_mut(self.len(&fork.before));
        let (left, rest) = rest.split_at_mut(self.len(&fork.left.fronts()));
        let (right, after) = rest.split_at_mut(self.len(&fork.right.fronts()));
        let mut above = self.backward_row(&fork.after, after, above);
        let for_right = above.split_off(above.len() - fork.right_roots);
        let for_left = above.split_off(above.len() - fork.left_roots);
        rayon::join(|| self.backward(&fork.left, left, for_left), || self.backward(&fork.right, right, for_right));
        self.backward_row(&fork.before, before, above);
    }

    fn backward_row(self, fronts: &Range<usize>, mut x: &mut [f64], mut above: Vec<Vec<f64>>) -> Vec<Vec<f64>> {
        let mut spare: Vec<Vec<f64>> = Vec::new();
        for front in self.tree.fronts[fronts.clone()].iter().rev() {
            let (rest, block) = x.split_at_mut(x.len() - front.width() * self.row);
            x = rest;
            let own = above.pop().expect("bug: a front without its rows below");
            self.panel(front).backward(block, &own);
            for &child in &self.tree.children[front.children.clone()] {
                let child = &self.tree.fronts[child];
                let mut rows = spare.pop().unwrap_or_default();
                rows.resize(child.below() * self.row, 0.0);
                for shared in self.shared(child, front) {
                    let source = if shared.in_columns { &*block } else { &own };
                    rows[shared.from].copy_from_slice(&source[shared.at]);
                }
                above.push(rows);
            }
            spare.push(own);
        }
        above
    }
}

/// Numbers of rows that stand together in a child's front and in its parent's.
#[derive(Debug)]
struct Shared {
    /// Whether they are rows of the parent's columns, or rows below these.
    in_columns: bool,
    /// Where they stand among those.
    at: Range<usize>,
    /// Where they stand among the child's rows below.
    from: Range<usize>,
}

//! Solves with a factor made front by front.
//!
//! L·y = b from the leaves to the roots, Lᵀ·x = y from the roots to the leaves. As in the factorisation every front passes
//! on what it does to its rows below, and the bits do not depend on the number of threads.

use std::ops::Range;

use super::fronts::add;
use super::library;
use super::plan::Plan;
use super::tree::{Front, Tree};

/// Products below which a solve stays on one thread.
const SMALL_SOLVE: usize = 1_000_000;

/// Solves K·x = b in place for `cases` right-hand sides that stand one after another in `b`.
pub(super) fn solve(tree: &Tree, values: &[f64], b: &mut [f64], cases: usize) {
    let n = tree.order.len();
    let mut x = vec![0.0; b.len()];
    for front in &tree.fronts {
        let block = &mut x[front.columns.start * cases..front.columns.end * cases];
        for (case, column) in block.chunks_exact_mut(front.width()).enumerate() {
            for (x, equation) in column.iter_mut().zip(&tree.order[front.columns.clone()]) {
                *x = b[case * n + equation];
            }
        }
    }
    let row = Plan::Row(0..tree.fronts.len());
    let plan = if values.len() * cases < SMALL_SOLVE { &row } else { &tree.plan };
    let walk = Walk { tree, values, cases };
    let passed = walk.forward(plan, &mut x);
    walk.backward(plan, &mut x, passed);
    for front in &tree.fronts {
        let block = &x[front.columns.start * cases..front.columns.end * cases];
        for (case, column) in block.chunks_exact(front.width()).enumerate() {
            for (x, equation) in column.iter().zip(&tree.order[front.columns.clone()]) {
                b[case * n + equation] = *x;
            }
        }
    }
}

/// A solve under way: of each front a block, columns × cases, one after another in elimination order.
#[derive(Debug, Clone, Copy)]
struct Walk<'t> {
    tree: &'t Tree,
    values: &'t [f64],
    cases: usize,
}

impl Walk<'_> {
    fn len(self, fronts: &Range<usize>) -> usize {
        self.tree.fronts[fronts.clone()].iter().map(Front::width).sum::<usize>() * self.cases
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
            let (block, rest) = x.split_at_mut(front.width() * self.cases);
            x = rest;
            let children = &self.tree.children[front.children.clone()];
            let updates = passed.split_off(passed.len() - children.len());
            let children = || children.iter().map(|child| &self.tree.fronts[*child]).zip(&updates);
            for (child, update) in children() {
                self.add_rows(child, update, block, 0..front.width());
            }
            let mut own = spare.pop().unwrap_or_default();
            own.resize(front.below() * self.cases, 0.0);
            let panel = &self.values[front.values.clone()];
            library::forward(panel, front.height, front.width(), block, &mut own, self.cases);
            for (child, update) in children() {
                self.add_rows(child, update, &mut own, front.width()..front.height);
            }
            spare.extend(updates);
            passed.push(own);
        }
        passed
    }

    /// Adds what a child passes on to the rows `range` of the parent's front.
    fn add_rows(self, child: &Front, update: &[f64], target: &mut [f64], range: Range<usize>) {
        for case in 0..self.cases {
            let source = &update[case * child.below()..][..child.below()];
            let target = &mut target[case * range.len()..][..range.len()];
            for run in &self.tree.runs[child.runs.clone()] {
                let (start, end) = (run.to.max(range.start), (run.to + run.len).min(range.end));
                if start < end {
                    let from = run.from + start - run.to;
                    add(&mut target[start - range.start..end - range.start], &source[from..from + end - start]);
                }
            }
        }
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
            let (rest, block) = x.split_at_mut(x.len() - front.width() * self.cases);
            x = rest;
            let own = above.pop().expect("bug: a front without its rows below");
            let panel = &self.values[front.values.clone()];
            library::backward(panel, front.height, front.width(), block, &own, self.cases);
            for &child in &self.tree.children[front.children.clone()] {
                let child = &self.tree.fronts[child];
                let mut rows = spare.pop().unwrap_or_default();
                rows.resize(child.below() * self.cases, 0.0);
                self.take_rows(child, front, block, &own, &mut rows);
                above.push(rows);
            }
            spare.push(own);
        }
        above
    }

    /// The solution in a child's rows below, from its parent's columns and rows below.
    fn take_rows(self, child: &Front, parent: &Front, block: &[f64], below: &[f64], rows: &mut [f64]) {
        for case in 0..self.cases {
            let target = &mut rows[case * child.below()..][..child.below()];
            let top = &block[case * parent.width()..][..parent.width()];
            let bottom = &below[case * parent.below()..][..parent.below()];
            for run in &self.tree.runs[child.runs.clone()] {
                let target = &mut target[run.from..][..run.len];
                let in_top = parent.width().saturating_sub(run.to).min(run.len);
                if in_top > 0 {
                    target[..in_top].copy_from_slice(&top[run.to..][..in_top]);
                }
                if in_top < run.len {
                    let from = run.to + in_top - parent.width();
                    target[in_top..].copy_from_slice(&bottom[from..][..run.len - in_top]);
                }
            }
        }
    }
}

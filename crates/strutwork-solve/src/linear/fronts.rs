//! Numeric factorisation, front by front.
//!
//! Every front adds up what its children pass on, in their order, eliminates its columns and passes the rest on to its
//! parent. Branches of the tree are worked on side by side: the arithmetic of a front is always the same, so the bits of a
//! factor do not depend on the number of threads.
//!
//! # Source
//! Duff and Reid (1983), The multifrontal solution of indefinite sparse symmetric linear equations, ACM Transactions on
//! Mathematical Software 9(3), pp. 302–325; Liu (1992), The multifrontal method for sparse matrix solution: theory and
//! practice, SIAM Review 34(1), pp. 82–109 (both from memory).

use std::ops::Range;

use super::dense::{factor_panel, minus_square};
use super::plan::Plan;
use super::pool::Pool;
use super::tiles::Space;
use super::tree::{Front, Tree};

/// Values of a panel that are cleared and added to at a time: they fit beside the processor.
const AT_HAND: usize = 1 << 13;

/// Columns of an update that are made and added to at a time, for the same reason.
const STRIP: usize = 48;

/// A factorisation under way.
#[derive(Debug, Clone, Copy)]
pub(super) struct Factoring<'t> {
    /// The fronts.
    pub(super) tree: &'t Tree,
    /// Entries of the matrix' lower triangle.
    pub(super) entries: &'t [f64],
    /// Where memory comes from.
    pub(super) pool: &'t Pool,
}

/// What finished fronts without a parent yet pass on, the latest last: the lower triangle of a square over their rows below.
type Passed = Vec<Vec<f64>>;

impl Factoring<'_> {
    /// Fills in the values of the factor, whatever stands in them.
    ///
    /// # Errors
    /// The column, in elimination order, of the first pivot that is not positive.
    pub(super) fn factor(self, values: &mut [f64]) -> Result<(), usize> {
        self.plan(&self.tree.plan, values).map(drop)
    }

    /// Factors the fronts of a plan; `values` are theirs.
    fn plan(self, plan: &Plan, values: &mut [f64]) -> Result<Passed, usize> {
        let fork = match plan {
            Plan::Row(fronts) => return self.row(fronts, values, Vec::new()),
            Plan::Fork(fork) => fork,
        };
        let (before, rest) = values.split_at_mut(self.len(&fork.before));
        let (left, rest) = rest.split_at_mut(self.len(&fork.left.fronts()));
        let (right, after) = rest.split_at_mut(self.len(&fork.right.fronts()));
        let mut passed = self.row(&fork.before, before, Vec::new())?;
        let (left, right) = rayon::join(|| self.plan(&fork.left, left), || self.plan(&fork.right, right));
        // If both failed, the left one comes first in the order of elimination.
        passed.extend(left?);
        passed.extend(right?);
        self.row(&fork.after, after, passed)
    }

    fn len(self, fronts: &Range<usize>) -> usize {
        self.tree.fronts[fronts.clone()].iter().map(|front| front.values.len()).sum()
    }

    /// Factors fronts one after another.
    fn row(self, fronts: &Range<usize>, mut values: &mut [f64], mut passed: Passed) -> Result<Passed, usize> {
        let mut spare = self.pool.take_spare();
        let mut space = Space::new();
        for front in &self.tree.fronts[fronts.clone()] {
            let (panel, rest) = values.split_at_mut(front.values.len());
            values = rest;
            let children = &self.tree.children[front.children.clone()];
            let updates = passed.split_off(passed.len() - children.len());
            let children = || children.iter().map(|child| &self.tree.fronts[*child]).zip(&updates);
            // Few columns at a time: what is cleared is still at hand when the children's are added.
            let few = (AT_HAND / front.height).max(1);
            for (number, columns) in panel.chunks_mut(few * front.height).enumerate() {
                columns.fill(0.0);
                let first = number * few;
                let range = first..front.width().min(first + few);
                for (child, update) in children() {
                    self.add(child, update, columns, [front.height, 0], range.clone());
                }
            }
            self.fill(front, panel);
            factor_panel(panel, front.height, &mut space).map_err(|column| front.columns.start + column)?;
            let below = front.below();
            let mut own = spare.take(below * below);
            for (strip, columns) in own[..below * below].chunks_mut(STRIP * below.max(1)).enumerate() {
                let first = strip * STRIP;
                minus_square(columns, first, panel, front.height, &mut space);
                let range = front.width() + first..front.width() + below.min(first + STRIP);
                for (child, update) in children() {
                    self.add(child, update, columns, [below, front.width()], range.clone());
                }
            }
            spare.give(updates);
            passed.push(own);
        }
        self.pool.give_spare(spare);
        Ok(passed)
    }

    /// Adds the entries of the matrix to a panel.
    fn fill(self, front: &Front, panel: &mut [f64]) {
        for strip in &self.tree.strips[front.strips.clone()] {
            let entries = &self.entries[strip.entry..strip.entry + strip.len];
            if strip.step == 1 {
                add(&mut panel[strip.place..strip.place + strip.len], entries);
            } else {
                for (place, entry) in panel[strip.place..].iter_mut().step_by(strip.step).zip(entries) {
                    *place += *entry;
                }
            }
        }
    }

    /// Adds a child's update into the columns `range` of the parent's front, of which `target` holds `height` rows, from
    /// `first` on.
    fn add(self, child: &Front, update: &[f64], target: &mut [f64], [height, first]: [usize; 2], range: Range<usize>) {
        let below = child.below();
        let runs = &self.tree.runs[child.runs.clone()];
        for (index, run) in runs.iter().enumerate() {
            for column in run.to.max(range.start)..(run.to + run.len).min(range.end) {
                let step = column - run.to;
                let source = &update[(run.from + step) * below..][..below];
                let target = &mut target[(column - range.start) * height..][..height];
                // The lower triangle only: the rest of this run, then the later runs whole.
                let (from, len) = (run.from + step, run.len - step);
                add(&mut target[column - first..][..len], &source[from..][..len]);
                for run in &runs[index + 1..] {
                    add(&mut target[run.to - first..][..run.len], &source[run.from..][..run.len]);
                }
            }
        }
    }
}

/// target ← target + source.
pub(super) fn add(target: &mut [f64], source: &[f64]) {
    for (target, source) in target.iter_mut().zip(source) {
        *target += source;
    }
}

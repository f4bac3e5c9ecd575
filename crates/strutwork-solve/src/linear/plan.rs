//! Which parts of a tree of fronts may be worked on side by side.

use std::ops::Range;

/// Multiplications below which a part is not worth a thread of its own.
const GRAIN: f64 = 2e6;

/// A side smaller than this part of the whole is left beside the other; it bounds the depth of the plan.
const SMALLEST_SHARE: f64 = 1.0 / 16.0;

/// A range of fronts in postorder: first `before`, then `left` and `right` in any order, then `after`.
#[derive(Debug)]
pub(super) struct Fork {
    pub(super) before: Range<usize>,
    pub(super) left: Plan,
    pub(super) right: Plan,
    pub(super) after: Range<usize>,
    /// Trees of the forest that `left` is.
    pub(super) left_roots: usize,
    /// Trees of the forest that `right` is.
    pub(super) right_roots: usize,
}

/// How to walk a range of fronts in postorder that is a forest.
#[derive(Debug)]
pub(super) enum Plan {
    /// One after another.
    Row(Range<usize>),
    /// Two parts side by side.
    Fork(Box<Fork>),
}

impl Plan {
    /// Plans fronts in postorder; `first[front]` is the first front of its tree, `work[front]` its multiplications.
    ///
    /// A matter of the work alone, never of the machine. The results do not depend on it: a front adds up its children in
    /// their order, whoever made them.
    pub(super) fn of(first: &[usize], work: &[f64]) -> Self {
        let mut sums = vec![0.0];
        for work in work {
            sums.push(sums[sums.len() - 1] + work);
        }
        Self::part(0..work.len(), first, &sums)
    }

    /// `sums[front]` is the work of all fronts before.
    fn part(fronts: Range<usize>, first: &[usize], sums: &[f64]) -> Self {
        let work = |range: &Range<usize>| sums[range.end] - sums[range.start];
        let least = GRAIN.max(SMALLEST_SHARE * work(&fronts));
        let mut forest = fronts.clone();
        while work(&forest) >= 2.0 * least {
            let roots = roots(&forest, first);
            if roots.len() < 2 {
                forest.end -= 1;
                continue;
            }
            let sides = |at: usize| [forest.start..first[roots[at]], first[roots[at]]..forest.end];
            let smaller = |at: usize| sides(at).iter().map(work).fold(f64::INFINITY, f64::min);
            let best = (2..roots.len()).fold(1, |best, at| if smaller(at) > smaller(best) { at } else { best });
            if smaller(best) >= least {
                let [left, right] = sides(best);
                return Self::Fork(Box::new(Fork {
                    before: fronts.start..forest.start,
                    left: Self::part(left, first, sums),
                    right: Self::part(right, first, sums),
                    after: forest.end..fronts.end,
                    left_roots: best,
                    right_roots: roots.len() - best,
                }));
            }
            // One tree outweighs the others by far: they are left beside it.
            let heavier = |a: Range<usize>, b: Range<usize>| if work(&b) > work(&a) { b } else { a };
            forest = roots.iter().map(|root| first[*root]..root + 1).fold(forest.start..forest.start, heavier);
        }
        Self::Row(fronts)
    }

    /// The fronts it walks.
    pub(super) fn fronts(&self) -> Range<usize> {
        match self {
            Self::Row(fronts) => fronts.clone(),
            Self::Fork(fork) => fork.before.start..fork.after.end,
        }
    }
}

/// The roots of a forest, ascending.
fn roots(forest: &Range<usize>, first: &[usize]) -> Vec<usize> {
    let mut roots = Vec::new();
    let mut end = forest.end;
    while end > forest.start {
        roots.push(end - 1);
        end = first[end - 1];
    }
    roots.reverse();
    roots
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_branches_are_walked_side_by_side_and_their_trunk_after() {
        // Fronts 0–2 and 3–5 are branches, 6 and 7 the trunk.
        let plan = Plan::of(&[0, 0, 0, 3, 3, 3, 0, 0], &[1e6, 1e6, 1e6, 1e6, 1e6, 1e6, 1e5, 1e5]);
        let Plan::Fork(fork) = &plan else { panic!("one after another") };
        assert_eq!((fork.left.fronts(), fork.right.fronts(), fork.after.clone()), (0..3, 3..6, 6..8));
        assert_eq!((fork.left_roots, fork.right_roots, plan.fronts()), (1, 1, 0..8));
    }

    #[test]
    fn small_work_and_a_path_stay_in_a_row() {
        assert!(matches!(Plan::of(&[0, 1, 0], &[1e5, 1e5, 1e5]), Plan::Row(_)));
        assert!(matches!(Plan::of(&[0, 0, 0], &[1e9, 1e9, 1e9]), Plan::Row(_)));
        assert_eq!(Plan::of(&[], &[]).fronts(), 0..0);
    }

    #[test]
    fn light_trees_are_left_beside_a_heavy_one() {
        // A light tree 0, and a heavy one of two branches 1, 2 under 3.
        let plan = Plan::of(&[0, 1, 2, 1], &[1e3, 1e8, 1e8, 1e5]);
        let Plan::Fork(fork) = &plan else { panic!("one after another") };
        assert_eq!((fork.before.clone(), fork.left.fronts(), fork.right.fronts()), (0..1, 1..2, 2..3));
        assert_eq!((fork.after.clone(), plan.fronts()), (3..4, 0..4));
    }
}

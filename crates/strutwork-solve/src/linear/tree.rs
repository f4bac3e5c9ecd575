//! The tree of fronts: what the numeric factorisation and the solves walk over.

use std::ops::Range;

use super::groups::Groups;
use super::layout::Layout;
use super::plan::Plan;

/// Rows that stand together in a front and in its parent's.
#[derive(Debug, Clone, Copy)]
pub(super) struct Run {
    /// First row, counted among the rows below the front's columns.
    pub(super) from: usize,
    /// The same row in the parent's front, counted from its first column.
    pub(super) to: usize,
    /// Number of rows.
    pub(super) len: usize,
}

/// Entries of the matrix that stand one after another, and where they go in a panel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Strip {
    /// The first entry.
    pub(super) entry: usize,
    /// Its place in the panel.
    pub(super) place: usize,
    /// From one to the next in the panel: 1 down a column, the panel's height along a row.
    pub(super) step: usize,
    /// Number of entries.
    pub(super) len: usize,
}

/// A front: columns eliminated together, and the rows below that they reach.
#[derive(Debug)]
pub(super) struct Front {
    /// Its columns, in elimination order.
    pub(super) columns: Range<usize>,
    /// Columns plus rows below.
    pub(super) height: usize,
    /// Where its panel (height × columns) stands in the factor.
    pub(super) values: Range<usize>,
    /// Where the entries of the matrix that belong into its panel stand in [`Tree::strips`].
    pub(super) strips: Range<usize>,
    /// Where its rows below stand in the parent's front, in [`Tree::runs`].
    pub(super) runs: Range<usize>,
    /// Where its children stand in [`Tree::children`].
    pub(super) children: Range<usize>,
}

impl Front {
    /// Columns.
    pub(super) fn width(&self) -> usize {
        self.columns.len()
    }

    /// Rows below the columns.
    pub(super) fn below(&self) -> usize {
        self.height - self.width()
    }
}

/// The fronts in postorder: every front stands after all fronts that add to it.
#[derive(Debug)]
pub(super) struct Tree {
    pub(super) fronts: Vec<Front>,
    /// Equation of each column: `order[new] = old`.
    pub(super) order: Vec<usize>,
    pub(super) strips: Vec<Strip>,
    pub(super) runs: Vec<Run>,
    pub(super) children: Vec<usize>,
    /// Entries of the factor.
    pub(super) len_values: usize,
    pub(super) plan: Plan,
}

impl Tree {
    /// The tree of these groups for a matrix of this layout.
    pub(super) fn of(groups: &Groups, layout: &Layout<'_>) -> Self {
        let (groups, first) = groups.in_postorder(layout.counts());
        let mut tree = Self {
            fronts: Vec::with_capacity(groups.len()),
            order: groups.nodes.iter().flat_map(|node| layout.equations(*node)).collect(),
            strips: Vec::new(),
            runs: Vec::new(),
            children: Vec::new(),
            len_values: 0,
            plan: Plan::of(&first, &(0..groups.len()).map(|group| groups.work(group)).collect::<Vec<f64>>()),
        };
        let mut children: Vec<Vec<usize>> = vec![Vec::new(); groups.len()];
        let mut places = vec![0; layout.counts().len()];
        for (place, &node) in groups.nodes.iter().enumerate() {
            places[node] = place;
        }
        // Row of each place in the front at hand.
        let mut local = vec![0; groups.nodes.len()];
        for group in 0..groups.len() {
            if let Some(parent) = groups.parent(group) {
                children[parent].push(group);
            }
            let (width, below) = groups.size(group);
            let height = width + below;
            let start = groups.firsts[groups.places(group).start];
            let mut row = 0;
            for place in groups.places(group).chain(groups.rows(group).iter().copied()) {
                local[place] = row;
                row += groups.count(place);
            }
            let first_strip = tree.strips.len();
            for place in groups.places(group) {
                tree.place_entries(layout, groups.nodes[place], &places, &local, height);
            }
            for &child in &children[group] {
                let start = tree.runs.len();
                tree.link(&groups, child, &local);
                tree.fronts[child].runs = start..tree.runs.len();
            }
            let first_child = tree.children.len();
            tree.children.extend_from_slice(&children[group]);
            tree.fronts.push(Front {
                columns: start..start + width,
                height,
                values: tree.len_values..tree.len_values + height * width,
                strips: first_strip..tree.strips.len(),
                runs: 0..0,
                children: first_child..tree.children.len(),
            });
            tree.len_values += height * width;
        }
        tree
    }

    /// Every pivot L_kk of a factor with its equation, in the order of elimination.
    pub(super) fn pivots<'a>(&'a self, values: &'a [f64]) -> impl Iterator<Item = (usize, f64)> + 'a {
        self.fronts.iter().flat_map(move |front| {
            let panel = &values[front.values.clone()];
            let equations = self.order[front.columns.clone()].iter().enumerate();
            equations.map(move |(column, equation)| (*equation, panel[column * (front.height + 1)]))
        })
    }

    /// Where a child's rows below stand in the front at hand.
    fn link(&mut self, groups: &Groups, child: usize, local: &[usize]) {
        let start = self.runs.len();
        let mut from = 0;
        for &row in groups.rows(child) {
            let (to, len) = (local[row], groups.count(row));
            match self.runs[start..].last_mut() {
                Some(run) if run.to + run.len == to => run.len += len,
                _ => self.runs.push(Run { from, to, len }),
            }
            from += len;
        }
    }

    /// Where the entries go that a node of the front at hand shares with itself and with nodes eliminated after it.
    fn place_entries(&mut self, layout: &Layout<'_>, node: usize, places: &[usize], local: &[usize], height: usize) {
        let own = local[places[node]];
        let count = layout.counts()[node];
        for column in 0..count {
            let place = (own + column) * height + own + column;
            self.strips.push(Strip { entry: layout.diagonal(node, column), place, step: 1, len: count - column });
        }
        for other in layout.neighbours(node) {
            let others = layout.counts()[other];
            if others == 0 || places[other] < places[node] {
                continue;
            }
            let row = local[places[other]];
            if other > node {
                for column in 0..count {
                    let entry = layout.block(node, other, column);
                    self.strips.push(Strip { entry, place: (own + column) * height + row, step: 1, len: others });
                }
            } else {
                // The matrix holds the block the other way round: a column of it is a row of the panel.
                for column in 0..others {
                    let entry = layout.block(other, node, column);
                    self.strips.push(Strip { entry, place: own * height + row + column, step: height, len: count });
                }
            }
        }
    }
}

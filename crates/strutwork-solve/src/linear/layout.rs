//! Where the entries of the stiffness stand, block by block.

use crate::assembly::Pattern;
use crate::numbering::Numbering;

/// The graph of joints and bodies (nodes), and where the blocks of the lower triangle stand.
///
/// In the columns of a node stand the rest of its own block, then the full blocks of its neighbours with a higher index.
#[derive(Debug)]
pub(super) struct Layout<'p> {
    /// First entry of each column.
    columns: &'p [usize],
    /// Neighbours with a higher index, ascending; those of node `n` are `starts[n]..starts[n + 1]`.
    higher: &'p [u32],
    starts: &'p [usize],
    /// Rows between a node's own block and the block of each entry of `higher`.
    offsets: Vec<usize>,
    /// Neighbours of each node, ascending.
    neighbours: Vec<Vec<u32>>,
    /// Equations of each node.
    counts: Vec<usize>,
    /// First equation of each node.
    firsts: Vec<usize>,
}

impl<'p> Layout<'p> {
    /// The layout of a pattern.
    pub(super) fn of(pattern: &'p Pattern, numbering: &Numbering) -> Self {
        let (starts, higher) = pattern.joint_graph();
        let nodes = numbering.nodes();
        let counts: Vec<usize> = (0..nodes).map(|node| numbering.count(node)).collect();
        let mut neighbours: Vec<Vec<u32>> = vec![Vec::new(); nodes];
        let mut offsets = Vec::with_capacity(higher.len());
        let mut firsts = Vec::with_capacity(nodes);
        let mut first = 0;
        for node in 0..nodes {
            firsts.push(first);
            first += counts[node];
            let mut offset = 0;
            for &other in &higher[starts[node]..starts[node + 1]] {
                offsets.push(offset);
                offset += counts[other as usize];
                neighbours[node].push(other);
                neighbours[other as usize].push(node as u32);
            }
        }
        for list in &mut neighbours {
            list.sort_unstable();
        }
        Self { columns: pattern.csc().major_offsets(), higher, starts, offsets, neighbours, counts, firsts }
    }

    /// The neighbours of every node, ascending.
    pub(super) fn graph(&self) -> &[Vec<u32>] {
        &self.neighbours
    }

    /// The neighbours of a node, ascending.
    pub(super) fn neighbours(&self, node: usize) -> impl Iterator<Item = usize> + '_ {
        self.neighbours[node].iter().map(|other| *other as usize)
    }

    /// Equations of each node.
    pub(super) fn counts(&self) -> &[usize] {
        &self.counts
    }

    /// The equations of a node.
    pub(super) fn equations(&self, node: usize) -> std::ops::Range<usize> {
        self.firsts[node]..self.firsts[node] + self.counts[node]
    }

    /// The diagonal entry of a node's column, counted from 0; the rest of its own block follows.
    pub(super) fn diagonal(&self, node: usize, column: usize) -> usize {
        self.columns[self.firsts[node] + column]
    }

    /// The first entry in a node's column that it shares with a neighbour of higher index; those of the others follow.
    pub(super) fn block(&self, node: usize, higher: usize, column: usize) -> usize {
        let list = self.starts[node]..self.starts[node + 1];
        let at = self.higher[list.clone()].partition_point(|other| (*other as usize) < higher);
        self.diagonal(node, column) + self.counts[node] - column + self.offsets[list.start + at]
    }
}

//! Where the stiffness matrix has entries, and where each piece adds: found once, used for every set of values.

use nalgebra_sparse::pattern::SparsityPattern;

use super::coupled::{Coupled, plain};
use crate::elements::{Element, Elements};
use crate::numbering::Numbering;

/// The pattern of the stiffness' lower triangle (compressed columns) and each tube's place in it.
///
/// Every pair of nodes that a piece connects is a full block over their equations, explicit zeros kept, so that one symbolic
/// analysis serves every gauge and every joint position.
#[derive(Debug, Clone)]
pub struct Pattern {
    csc: SparsityPattern,
    /// For each tube: entries between a column's diagonal block and the block of the tube's other joint.
    offsets: Vec<u32>,
    /// Neighbours of each node with a higher index, ascending; those of node `n` are `starts[n]..starts[n + 1]`.
    neighbours: Vec<u32>,
    starts: Vec<usize>,
    /// Ends of plain tubes at each node in tube order, as 2·tube + end; those of node `n` are `first[n]..first[n + 1]`.
    ends: Vec<u32>,
    first: Vec<usize>,
    /// All other pieces.
    coupled: Vec<Coupled>,
}

impl Pattern {
    /// The pattern of these pieces with this numbering.
    pub fn of(elements: &Elements, numbering: &Numbering) -> Self {
        let nodes = numbering.nodes();
        let coupled = Coupled::all(elements, numbering);
        let (starts, neighbours) = graph(elements, numbering, &coupled);
        let free: Vec<u32> = (0..nodes).map(|node| numbering.free(node).count() as u32).collect();
        let n = numbering.len();
        let mut columns = Vec::with_capacity(n + 1);
        let mut rows = Vec::new();
        columns.push(0);
        for node in 0..nodes {
            for (_, column) in numbering.free(node) {
                rows.extend(numbering.free(node).map(|(_, row)| row).filter(|row| *row >= column));
                for &other in &neighbours[starts[node]..starts[node + 1]] {
                    rows.extend(numbering.free(other as usize).map(|(_, row)| row));
                }
                columns.push(rows.len());
            }
        }
        let offsets = elements
            .tubes()
            .iter()
            .map(|element| {
                let [a, b] = element.joints;
                let (low, high) = (a.min(b), a.max(b) as u32);
                neighbours[starts[low]..starts[low + 1]]
                    .iter()
                    .take_while(|other| **other < high)
                    .map(|other| free[*other as usize])
                    .sum()
            })
            .collect();
        let csc = SparsityPattern::try_from_offsets_and_indices(n, n, columns, rows)
            .expect("bug: columns ascend and rows ascend within a column");
        let (first, ends) = incidence(elements, numbering);
        Self { csc, offsets, neighbours, starts, ends, first, coupled }
    }

    /// The compressed-column pattern (nalgebra-sparse calls a column a lane).
    pub fn csc(&self) -> &SparsityPattern {
        &self.csc
    }

    /// Entries in the lower triangle.
    pub fn entries(&self) -> usize {
        self.csc.nnz()
    }

    /// Entries between the diagonal block and the block of a plain tube's higher joint, in a column of its lower joint.
    pub(super) fn offset(&self, tube: usize) -> usize {
        self.offsets[tube] as usize
    }

    /// Ends of plain tubes at a node, in tube order: tube and end.
    pub(super) fn ends(&self, node: usize) -> impl Iterator<Item = (usize, usize)> + '_ {
        self.ends[self.first[node]..self.first[node + 1]].iter().map(|e| ((*e / 2) as usize, (*e % 2) as usize))
    }

    /// All pieces but the plain tubes, in order.
    pub(crate) fn coupled(&self) -> &[Coupled] {
        &self.coupled
    }

    /// The graph of joints and bodies: for each the neighbours with a higher index.
    pub fn joint_graph(&self) -> (&[usize], &[u32]) {
        (&self.starts, &self.neighbours)
    }
}

/// Tubes that only reach joints that stand for themselves, with their places.
fn plain_tubes<'e>(elements: &'e Elements, numbering: &'e Numbering) -> impl Iterator<Item = (usize, &'e Element)> {
    elements.tubes().iter().enumerate().filter(|(_, element)| plain(element, numbering))
}

/// For each node the ends of plain tubes at it, in tube order.
fn incidence(elements: &Elements, numbering: &Numbering) -> (Vec<usize>, Vec<u32>) {
    let nodes = numbering.nodes();
    let mut first = vec![0usize; nodes + 1];
    for joint in plain_tubes(elements, numbering).flat_map(|(_, element)| element.joints) {
        first[joint + 1] += 1;
    }
    for node in 0..nodes {
        first[node + 1] += first[node];
    }
    let mut next = first.clone();
    let mut ends = vec![0u32; first[nodes]];
    for (tube, element) in plain_tubes(elements, numbering) {
        for (end, joint) in element.joints.into_iter().enumerate() {
            ends[next[joint]] = (2 * tube + end) as u32;
            next[joint] += 1;
        }
    }
    (first, ends)
}

/// For each node its neighbours with a higher index, ascending, without repeats.
fn graph(elements: &Elements, numbering: &Numbering, coupled: &[Coupled]) -> (Vec<usize>, Vec<u32>) {
    let nodes = numbering.nodes();
    let among = |piece: &Coupled| -> Vec<(usize, usize)> {
        let list = &piece.nodes;
        list.iter().enumerate().flat_map(|(i, &low)| list[i + 1..].iter().map(move |&high| (low, high))).collect()
    };
    let pairs = || {
        let tubes = plain_tubes(elements, numbering).map(|(_, element)| {
            let [a, b] = element.joints;
            (a.min(b), a.max(b))
        });
        tubes.chain(coupled.iter().flat_map(among))
    };
    let mut counts = vec![0usize; nodes + 1];
    for (low, _) in pairs() {
        counts[low + 1] += 1;
    }
    for node in 0..nodes {
        counts[node + 1] += counts[node];
    }
    let mut next = counts.clone();
    let mut lists = vec![0u32; counts[nodes]];
    for (low, high) in pairs() {
        lists[next[low]] = high as u32;
        next[low] += 1;
    }
    let mut starts = vec![0];
    let mut neighbours = Vec::with_capacity(lists.len());
    for node in 0..nodes {
        let list = &mut lists[counts[node]..counts[node + 1]];
        list.sort_unstable();
        let begin = neighbours.len();
        for &other in list.iter() {
            if neighbours.len() == begin || neighbours.last() != Some(&other) {
                neighbours.push(other);
            }
        }
        starts.push(neighbours.len());
    }
    (starts, neighbours)
}

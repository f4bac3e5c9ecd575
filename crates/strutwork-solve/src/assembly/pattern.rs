//! Where the stiffness matrix has entries, and where each tube adds: found once, used for every set of values.

use nalgebra_sparse::pattern::SparsityPattern;

use crate::elements::Elements;
use crate::numbering::Numbering;

/// The pattern of the stiffness' lower triangle (compressed columns) and each tube's place in it.
///
/// Every pair of joints that a tube connects is a full block over their free freedoms, explicit zeros kept, so that one
/// symbolic analysis serves every gauge and every joint position.
#[derive(Debug, Clone)]
pub struct Pattern {
    csc: SparsityPattern,
    /// For each tube: entries between a column's diagonal block and the block of the tube's other joint.
    offsets: Vec<u32>,
    /// Neighbours of each joint with a higher index, ascending; rows of joint `j` are `starts[j]..starts[j + 1]`.
    neighbours: Vec<u32>,
    starts: Vec<usize>,
    /// Tube ends at each joint in tube order, as 2·tube + end; those of joint `j` are `first[j]..first[j + 1]`.
    ends: Vec<u32>,
    first: Vec<usize>,
}

impl Pattern {
    /// The pattern of these tubes with this numbering.
    pub fn of(elements: &Elements, numbering: &Numbering) -> Self {
        let joints = numbering.joints();
        let (starts, neighbours) = graph(elements, joints);
        let free: Vec<u32> = (0..joints).map(|joint| numbering.free(joint).count() as u32).collect();
        let n = numbering.len();
        let mut columns = Vec::with_capacity(n + 1);
        let mut rows = Vec::new();
        columns.push(0);
        for joint in 0..joints {
            for (_, column) in numbering.free(joint) {
                rows.extend(numbering.free(joint).map(|(_, row)| row).filter(|row| *row >= column));
                for &other in &neighbours[starts[joint]..starts[joint + 1]] {
                    rows.extend(numbering.free(other as usize).map(|(_, row)| row));
                }
                columns.push(rows.len());
            }
        }
        let offsets = elements
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
        let (first, ends) = incidence(elements, joints);
        Self { csc, offsets, neighbours, starts, ends, first }
    }

    /// The compressed-column pattern (nalgebra-sparse calls a column a lane).
    pub fn csc(&self) -> &SparsityPattern {
        &self.csc
    }

    /// Entries in the lower triangle.
    pub fn entries(&self) -> usize {
        self.csc.nnz()
    }

    /// Entries between the diagonal block and the block of the tube's higher joint, in a column of its lower joint.
    pub(super) fn offset(&self, tube: usize) -> usize {
        self.offsets[tube] as usize
    }

    /// Tube ends at a joint, in tube order: tube and end.
    pub(super) fn ends(&self, joint: usize) -> impl Iterator<Item = (usize, usize)> + '_ {
        self.ends[self.first[joint]..self.first[joint + 1]].iter().map(|e| ((*e / 2) as usize, (*e % 2) as usize))
    }

    /// The graph of the joints: for each joint the neighbours with a higher index.
    pub fn joint_graph(&self) -> (&[usize], &[u32]) {
        (&self.starts, &self.neighbours)
    }
}

/// For each joint the tube ends at it, in tube order.
fn incidence(elements: &Elements, joints: usize) -> (Vec<usize>, Vec<u32>) {
    let mut first = vec![0usize; joints + 1];
    for joint in elements.iter().flat_map(|element| element.joints) {
        first[joint + 1] += 1;
    }
    for joint in 0..joints {
        first[joint + 1] += first[joint];
    }
    let mut next = first.clone();
    let mut ends = vec![0u32; 2 * elements.len()];
    for (tube, element) in elements.iter().enumerate() {
        for (end, joint) in element.joints.into_iter().enumerate() {
            ends[next[joint]] = (2 * tube + end) as u32;
            next[joint] += 1;
        }
    }
    (first, ends)
}

/// For each joint its neighbours with a higher index, ascending, without repeats.
fn graph(elements: &Elements, joints: usize) -> (Vec<usize>, Vec<u32>) {
    let mut counts = vec![0usize; joints + 1];
    for element in elements.iter() {
        let [a, b] = element.joints;
        counts[a.min(b) + 1] += 1;
    }
    for joint in 0..joints {
        counts[joint + 1] += counts[joint];
    }
    let mut next = counts.clone();
    let mut lists = vec![0u32; elements.len()];
    for element in elements.iter() {
        let [a, b] = element.joints;
        let low = a.min(b);
        lists[next[low]] = a.max(b) as u32;
        next[low] += 1;
    }
    let mut starts = vec![0];
    let mut neighbours = Vec::with_capacity(lists.len());
    for joint in 0..joints {
        let list = &mut lists[counts[joint]..counts[joint + 1]];
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

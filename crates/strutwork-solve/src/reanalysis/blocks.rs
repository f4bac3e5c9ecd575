//! The pattern of a factor in blocks of six by six, and what is subtracted from which block: found once a topology.
//!
//! Every joint or body with an equation (a *place*, in the order of elimination) has six rows, held freedoms among them with a
//! one on the diagonal, so that all blocks are of one size. Index work is done here and shared by all variants.

use crate::assembly::Pattern;
use crate::linear::elimination_order;
use crate::numbering::Numbering;

/// Consecutive blocks of two rows that are multiplied with each other.
#[derive(Debug, Clone, Copy)]
pub(super) struct Run {
    /// First block of the one row.
    pub(super) a: u32,
    /// First block of the other row.
    pub(super) b: u32,
    /// How many.
    pub(super) len: u32,
}

/// A block of the factor, in a column.
#[derive(Debug, Clone, Copy)]
pub(super) struct Block {
    /// Its row's place.
    pub(super) row: u32,
    /// Where it stands among all blocks, which stand row by row.
    pub(super) at: u32,
    /// What is subtracted from it: `runs[first..end]`.
    pub(super) first: u32,
    /// See `first`.
    pub(super) end: u32,
}

/// The blocks of a factor L of K = L·Lᵀ.
#[derive(Debug)]
pub(super) struct Blocks {
    /// Node of each place.
    pub(super) nodes: Vec<usize>,
    /// Place of each node; `None` for one without equations.
    pub(super) places: Vec<Option<u32>>,
    /// Blocks column by column, the diagonal one first; those of place `p` are `columns[p]..columns[p + 1]`.
    pub(super) blocks: Vec<Block>,
    pub(super) columns: Vec<usize>,
    /// All runs of [`Block`]s.
    pub(super) runs: Vec<Run>,
    /// For each place the blocks left of its diagonal as runs: `a` the place, `b` the block; those of `p` are
    /// `row_runs[row_starts[p]..row_starts[p + 1]]`.
    pub(super) row_runs: Vec<Run>,
    pub(super) row_starts: Vec<usize>,
    /// How many blocks there are.
    pub(super) count: usize,
}

impl Blocks {
    /// The blocks of a stiffness of this pattern.
    pub(super) fn of(pattern: &Pattern, numbering: &Numbering, sites: &[[f64; 3]]) -> Self {
        let nodes = elimination_order(pattern, numbering, sites);
        let mut places = vec![None; numbering.nodes()];
        for (place, &node) in nodes.iter().enumerate() {
            places[node] = Some(place as u32);
        }
        let below = filled(pattern, &nodes, &places);
        let mut rows: Vec<Vec<u32>> = vec![Vec::new(); nodes.len()];
        for (place, list) in below.iter().enumerate() {
            for &row in list {
                rows[row as usize].push(place as u32);
            }
        }
        for (place, row) in rows.iter_mut().enumerate() {
            row.push(place as u32);
        }
        let mut starts = vec![0usize];
        for row in &rows {
            starts.push(starts[starts.len() - 1] + row.len());
        }
        let mut whole = Self {
            blocks: Vec::with_capacity(starts[nodes.len()]),
            columns: vec![0],
            runs: Vec::new(),
            row_runs: Vec::new(),
            row_starts: vec![0],
            count: starts[nodes.len()],
            nodes,
            places,
        };
        for (column, below) in below.iter().enumerate() {
            let own = &rows[column];
            for row in std::iter::once(column).chain(below.iter().map(|row| *row as usize)) {
                let first = whole.runs.len() as u32;
                let at = whole.common(&rows[row], starts[row], own, starts[column]);
                whole.blocks.push(Block { row: row as u32, at: at as u32, first, end: whole.runs.len() as u32 });
            }
            whole.columns.push(whole.blocks.len());
            for (index, &place) in own[..own.len() - 1].iter().enumerate() {
                let block = (starts[column] + index) as u32;
                match whole.row_runs[whole.row_starts[column]..].last_mut() {
                    Some(run) if run.a + run.len == place => run.len += 1,
                    _ => whole.row_runs.push(Run { a: place, b: block, len: 1 }),
                }
            }
            whole.row_starts.push(whole.row_runs.len());
        }
        whole
    }

    /// Adds the runs of the columns that a row shares with the row of a column left of that column; gives the row's block in
    /// it.
    fn common(&mut self, row: &[u32], row_start: usize, own: &[u32], own_start: usize) -> usize {
        let first = self.runs.len();
        let column = own[own.len() - 1];
        let mut index = 0;
        for (other, &place) in own[..own.len() - 1].iter().enumerate() {
            while row[index] < place {
                index += 1;
            }
            if row[index] == place {
                let (a, b) = ((row_start + index) as u32, (own_start + other) as u32);
                match self.runs[first..].last_mut() {
                    Some(run) if run.a + run.len == a && run.b + run.len == b => run.len += 1,
                    _ => self.runs.push(Run { a, b, len: 1 }),
                }
            }
        }
        let at = row[index..].iter().position(|place| *place == column).expect("bug: a block that its row lacks");
        row_start + index + at
    }

    /// The blocks of a place's column, the diagonal one first.
    pub(super) fn column(&self, place: usize) -> &[Block] {
        &self.blocks[self.columns[place]..self.columns[place + 1]]
    }

    /// The block of the row of place `row` in the column of place `column` ≤ `row`, by its rank in that column.
    pub(super) fn rank(&self, column: usize, row: usize) -> usize {
        let list = self.column(column);
        list.iter().position(|block| block.row as usize == row).expect("bug: a piece outside the pattern")
    }

    /// Floating-point operations of a factorisation (additions, multiplications, divisions and roots count as one each).
    pub(super) fn factor_flops(&self) -> f64 {
        self.heights().map(|h| h * (h + 1.0) + h + 1.0).sum()
    }

    /// Floating-point operations of solving with the factor, for one right-hand side.
    pub(super) fn solve_flops(&self) -> f64 {
        self.heights().map(|h| 4.0 * h + 2.0).sum()
    }

    /// Entries below the diagonal of each column.
    fn heights(&self) -> impl Iterator<Item = f64> + '_ {
        (0..self.nodes.len()).flat_map(|place| {
            let below = 6 * (self.column(place).len() - 1);
            (0..6).map(move |c| (5 - c + below) as f64)
        })
    }
}

/// For each place those below it that its column of the factor reaches, ascending.
fn filled(pattern: &Pattern, nodes: &[usize], places: &[Option<u32>]) -> Vec<Vec<u32>> {
    let (starts, higher) = pattern.joint_graph();
    let mut below: Vec<Vec<u32>> = vec![Vec::new(); nodes.len()];
    for node in 0..places.len() {
        for &other in &higher[starts[node]..starts[node + 1]] {
            if let (Some(a), Some(b)) = (places[node], places[other as usize]) {
                below[a.min(b) as usize].push(a.max(b));
            }
        }
    }
    for place in 0..nodes.len() {
        below[place].sort_unstable();
        below[place].dedup();
        let Some(&parent) = below[place].first() else { continue };
        let passed = below[place][1..].to_vec();
        below[parent as usize].extend(passed);
    }
    below
}

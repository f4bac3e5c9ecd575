//! Where solutions stand among registers.

/// Right-hand sides that are worked on together.
pub(super) const TOGETHER: usize = 4;

/// Where the right-hand sides of a case stand among the registers of a solution.
#[derive(Debug, Clone, Copy)]
pub(in crate::reanalysis) struct Case {
    /// First register of the tile that the case belongs to.
    tile: usize,
    /// Cases in the tile.
    width: usize,
    /// Its place in the tile.
    index: usize,
}

impl Case {
    /// The place of a case among `cases` over `rows` rows.
    pub(in crate::reanalysis) fn of(case: usize, cases: usize, rows: usize) -> Self {
        let first = case / TOGETHER * TOGETHER;
        Self { tile: first * rows, width: TOGETHER.min(cases - first), index: case - first }
    }

    /// Registers from a row to the next.
    pub(in crate::reanalysis) fn width(self) -> usize {
        self.width
    }

    /// The register of a row.
    pub(in crate::reanalysis) fn register(self, row: usize) -> usize {
        self.tile + row * self.width + self.index
    }
}

/// The solution of a case in a lane.
#[derive(Clone, Copy)]
pub(in crate::reanalysis) struct Solution<'b> {
    /// All solutions, as a [`Sweep`](super::Sweep) leaves them.
    pub(in crate::reanalysis) registers: &'b [f64],
    /// How many lanes there are, and which one this is.
    pub(in crate::reanalysis) lanes: usize,
    pub(in crate::reanalysis) lane: usize,
    pub(in crate::reanalysis) case: Case,
}

impl Solution<'_> {
    /// What stands in a row.
    #[inline]
    pub(in crate::reanalysis) fn row(self, row: usize) -> f64 {
        self.registers[self.case.register(row) * self.lanes + self.lane]
    }

    /// What stands in the six rows of a place, from its first on.
    #[inline]
    pub(in crate::reanalysis) fn six(self, row: usize) -> [f64; 6] {
        let step = self.case.width() * self.lanes;
        let rows = &self.registers[self.case.register(row) * self.lanes + self.lane..][..5 * step + 1];
        std::array::from_fn(|c| rows[c * step])
    }
}

//! The sheet as a grid, station by step, from which readings are left out one by one, each with its reason.

use strutwork_model::model::{RigRole, RigSheet, RigStep};
use strutwork_model::units::to_mm;

use crate::line::{Sample, extremes};
use crate::words::rounded;

/// Left or right dial.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The dial on the +y side.
    Left,
    /// The dial on the −y side.
    Right,
}

impl Side {
    /// Both, left first.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// Its word.
    pub const fn word(self) -> &'static str {
        ["left", "right"][self as usize]
    }
}

/// A cell of the grid.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Cell {
    /// Left and right dial, m, up positive.
    pub(crate) dials: [Option<f64>; 2],
    /// The line of the file; 0 where there is none.
    pub(crate) line: usize,
}

/// The grid.
#[derive(Debug)]
pub(crate) struct Readings<'s> {
    pub(crate) sheet: &'s RigSheet,
    /// A row a station, a column a step.
    pub(crate) cells: Vec<Vec<Cell>>,
    /// The group of each step: one for each cycle and direction, in order of first appearance.
    pub(crate) groups: Vec<usize>,
}

impl<'s> Readings<'s> {
    pub(crate) fn of(sheet: &'s RigSheet) -> Self {
        let mut cells = vec![vec![Cell::default(); sheet.steps.len()]; sheet.stations.len()];
        for reading in &sheet.readings {
            cells[reading.station][reading.step] = Cell { dials: [reading.left, reading.right], line: reading.line };
        }
        let mut known: Vec<(u32, bool)> = Vec::new();
        let groups = sheet
            .steps
            .iter()
            .map(|step| {
                let key = (step.cycle, step.unloading);
                known.iter().position(|other| *other == key).unwrap_or_else(|| {
                    known.push(key);
                    known.len() - 1
                })
            })
            .collect();
        Self { sheet, cells, groups }
    }

    pub(crate) fn steps(&self) -> &'s [RigStep] {
        &self.sheet.steps
    }

    /// The cycles of some steps, each once, in order of first appearance.
    pub(crate) fn cycles(&self, steps: impl Iterator<Item = usize>) -> Vec<u32> {
        let mut known: Vec<u32> = Vec::new();
        for step in steps {
            let cycle = self.steps()[step].cycle;
            if !known.contains(&cycle) {
                known.push(cycle);
            }
        }
        known
    }

    pub(crate) fn name(&self, station: usize) -> &'s str {
        &self.sheet.stations[station].name
    }

    pub(crate) fn is_held(&self, station: usize) -> bool {
        self.sheet.stations[station].role == RigRole::Held
    }

    /// The readings of one dial over the steps, m.
    pub(crate) fn dial(&self, station: usize, side: Side) -> Vec<Option<f64>> {
        self.cells[station].iter().map(|cell| cell.dials[side as usize]).collect()
    }

    /// Turn of a station about x over the steps, rad: atan of the difference of its dials over their spacing.
    pub(crate) fn turns(&self, station: usize) -> Vec<Option<f64>> {
        let spacing = self.sheet.stations[station].spacing;
        let turn = |cell: &Cell| Some(((cell.dials[0]? - cell.dials[1]?) / spacing).atan());
        self.cells[station].iter().map(turn).collect()
    }

    /// A series as samples over the couple, N·m, with the step of each.
    pub(crate) fn samples(&self, series: &[Option<f64>]) -> Vec<(usize, Sample)> {
        let sample = |(step, value): (usize, &Option<f64>)| {
            Some((step, Sample { x: self.steps()[step].couple, y: (*value)?, group: self.groups[step] }))
        };
        series.iter().enumerate().filter_map(sample).collect()
    }

    /// The samples alone.
    pub(crate) fn plain(&self, series: &[Option<f64>]) -> Vec<Sample> {
        self.samples(series).into_iter().map(|(_, sample)| sample).collect()
    }

    /// Whether each group is one of unloading.
    pub(crate) fn unloading(&self) -> Vec<bool> {
        let mut unloading = vec![false; self.groups.iter().max().map_or(0, |most| most + 1)];
        for (step, group) in self.groups.iter().enumerate() {
            unloading[*group] = self.steps()[step].unloading;
        }
        unloading
    }

    /// Least and greatest couple, N·m.
    pub(crate) fn range(&self) -> [f64; 2] {
        extremes(self.steps().iter().map(|step| step.couple))
    }

    /// Distance from the least to the greatest couple, N·m.
    pub(crate) fn reach(&self) -> f64 {
        let [least, most] = self.range();
        most - least
    }

    /// Smallest standard deviation that a dial's reading has, m: rounding to its step, and half of what two readings of one
    /// state may differ.
    pub(crate) fn floor(&self) -> f64 {
        (self.sheet.resolution / 12.0_f64.sqrt()).hypot(self.sheet.repeatability / 2.0)
    }

    /// The same of a turn, rad.
    pub(crate) fn turn_floor(&self, station: usize) -> f64 {
        self.floor() * std::f64::consts::SQRT_2 / self.sheet.stations[station].spacing
    }

    /// A step for readers: `step 3 loading of cycle 2 (900 N·m)`.
    pub(crate) fn step_name(&self, step: usize) -> String {
        let of = &self.steps()[step];
        let way = if of.unloading { "unloading" } else { "loading" };
        format!("step {} {way} of cycle {} ({} N·m)", of.number, of.cycle, rounded(of.couple, 1))
    }

    /// What a dial read, as it was written: mm, in the sign of the sheet's sense of up.
    pub(crate) fn written(&self, value: f64) -> String {
        rounded(to_mm(if self.sheet.dials_down { -value } else { value }), 3)
    }
}

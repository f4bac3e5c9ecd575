//! Rows that were written into each other's place in one step, and dials that were exchanged in one row.

use crate::line::{Line, steady_line};
use crate::readings::{Readings, Side};
use crate::remark::{Remark, codes};

/// Off by more than so many scatters as written, by less than so many when exchanged.
const OFF: f64 = 8.0;
const FITS: f64 = 4.0;

struct Fits {
    lines: Vec<[Option<Line>; 2]>,
    floor: f64,
    groups: Vec<usize>,
    couples: Vec<f64>,
}

impl Fits {
    fn of(readings: &Readings<'_>) -> Self {
        let line = |station: usize, side: Side| steady_line(&readings.plain(&readings.dial(station, side)));
        Self {
            lines: (0..readings.cells.len()).map(|station| Side::BOTH.map(|side| line(station, side))).collect(),
            floor: readings.floor(),
            groups: readings.groups.clone(),
            couples: readings.steps().iter().map(|step| step.couple).collect(),
        }
    }

    /// How many scatters a value is off what a dial should read.
    fn off(&self, station: usize, side: usize, step: usize, value: f64) -> Option<f64> {
        let line = self.lines[station][side].as_ref()?;
        let should = line.at(self.couples[step], self.groups[step])?;
        Some((value - should).abs() / line.scatter.max(self.floor))
    }

    /// Whether two rows are off as written, and fit each the other's place.
    fn exchanged(&self, step: usize, [a, b]: [(usize, [f64; 2]); 2]) -> bool {
        let worst = |station: usize, values: [f64; 2]| {
            let off = [0, 1].map(|side| self.off(station, side, step, values[side]));
            Some(off[0]?.max(off[1]?))
        };
        let fits = |(here, own): (usize, [f64; 2]), others: [f64; 2]| {
            worst(here, own).zip(worst(here, others)).is_some_and(|(own, others)| own > OFF && others < FITS)
        };
        fits(a, b.1) && fits(b, a.1)
    }
}

pub(super) fn leave_out(readings: &mut Readings<'_>) -> Vec<Remark> {
    let fits = Fits::of(readings);
    let mut remarks = Vec::new();
    for step in 0..fits.couples.len() {
        let both = |readings: &Readings<'_>, station: usize| {
            let [left, right] = readings.cells[station][step].dials;
            Some((station, [left?, right?]))
        };
        for station in 0..readings.cells.len() {
            let Some((_, [left, right])) = both(readings, station) else { continue };
            let sides = |values: [f64; 2]| [0, 1].map(|side| fits.off(station, side, step, values[side]));
            let ([Some(a), Some(b)], [Some(c), Some(d)]) = (sides([left, right]), sides([right, left])) else { continue };
            if a.min(b) > OFF && c.max(d) < FITS {
                let name = readings.name(station);
                let line = readings.cells[station][step].line;
                let message = format!(
                    "station {name}, {}: left and right stand in each other's column. The row is left out",
                    readings.step_name(step)
                );
                let remedy = "exchange the two readings in rig.csv and say so under `note`";
                remarks.push(Remark::rig(codes::SIDES_SWAPPED, name, line, message, remedy));
                readings.cells[station][step].dials = [None; 2];
            }
        }
        for first in 0..readings.cells.len() {
            for second in first + 1..readings.cells.len() {
                let (Some(a), Some(b)) = (both(readings, first), both(readings, second)) else { continue };
                if !fits.exchanged(step, [a, b]) {
                    continue;
                }
                let names = [first, second].map(|station| readings.name(station));
                let message = format!(
                    "{}: the rows of stations {} and {} (line {}) stand in each other's place. Both are left out",
                    readings.step_name(step),
                    names[0],
                    names[1],
                    readings.cells[second][step].line
                );
                let remedy = "exchange the two names in rig.csv and say so under `note`";
                let line = readings.cells[first][step].line;
                remarks.push(Remark::rig(codes::STATIONS_SWAPPED, &names.join(" and "), line, message, remedy));
                for station in [first, second] {
                    readings.cells[station][step].dials = [None; 2];
                }
            }
        }
    }
    remarks
}

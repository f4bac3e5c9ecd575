//! Rows that were written into each other's place in one step, and dials that were exchanged in one row.

use crate::line::{SteadyLine, median, steady_line};
use crate::readings::{Readings, Side};
use crate::remark::{Remark, codes};

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Off by more than so many scatters as written, by less than so many, and by less than this share of that, when exchanged; the
/// steps before and after by less than so many.
const OFF: f64 = 10.0;
const FITS: f64 = 6.0;
const SHARE: f64 = 0.25;
const NEIGHBOURS: f64 = 8.0;

struct Fits {
    lines: Vec<[Option<SteadyLine>; 2]>,
    floor: f64,
    groups: Vec<usize>,
    couples: Vec<f64>,
}

impl Fits {
    fn of(readings: &Readings<'_>) -> Self {
        let line = |station: usize, side: Side| steady_line(&readings.plain(&readings.dial(station, side)));
        let lines: Vec<[Option<SteadyLine>; 2]> =
            (0..readings.cells.len()).map(|station| Side::BOTH.map(|side| line(station, side))).collect();
        // Dials of one rig are much alike: none is held to be better than the middle of them.
        let middle = median(lines.iter().flatten().flatten().map(|line| line.scatter).collect()).unwrap_or(0.0);
        Self {
            lines,
            floor: readings.floor().max(middle),
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

    /// The greatest of a row.
    fn worst(&self, station: usize, step: usize, values: [f64; 2]) -> Option<f64> {
        let off = [0, 1].map(|side| self.off(station, side, step, values[side]));
        Some(off[0]?.max(off[1]?))
    }

    /// Whether the steps before and after fit: a jump of the frame moves them too.
    fn alone(&self, readings: &Readings<'_>, station: usize, step: usize) -> bool {
        let group = self.groups[step];
        let of_group: Vec<usize> = (0..self.groups.len()).filter(|other| self.groups[*other] == group).collect();
        let place = of_group.iter().position(|other| *other == step).unwrap_or_default();
        let near = [place.checked_sub(1), Some(place + 1)];
        near.into_iter().flatten().filter_map(|place| of_group.get(place)).all(|&other| {
            let [left, right] = readings.cells[station][other].dials;
            left.zip(right).is_none_or(|(left, right)| {
                self.worst(station, other, [left, right]).is_none_or(|off| off < NEIGHBOURS)
            })
        })
    }

    /// Whether two rows are off as written, and fit each the other's place.
    fn exchanged(&self, step: usize, [a, b]: [(usize, [f64; 2]); 2]) -> bool {
        let fits = |(here, own): (usize, [f64; 2]), others: [f64; 2]| {
            let both = self.worst(here, step, own).zip(self.worst(here, step, others));
            both.is_some_and(|(own, others)| own > OFF && others < FITS && others < SHARE * own)
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
            let ([Some(a), Some(b)], [Some(c), Some(d)]) = (sides([left, right]), sides([right, left])) else {
                continue;
            };
            if a.min(b) > OFF && c.max(d) < FITS && c.max(d) < SHARE * a.min(b) && fits.alone(readings, station, step) {
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
                if !fits.exchanged(step, [a, b])
                    || ![first, second].iter().all(|station| fits.alone(readings, *station, step))
                {
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

//! Single readings that fit nothing: slips of the pen, a dial read a turn off, a knock.

use strutwork_model::units::MM;

use super::DialJump;
use super::select::{Culprit, Limits, Sought, culprits, jump_size};
use crate::readings::{Readings, Side};
use crate::remark::{Remark, codes};
use crate::words::rounded;

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Readings of a dial without which none is sought that fits nothing.
const READINGS: usize = 5;
/// Smallest size worth a word, in steps of the dial, and as a share of what the dial moves.
const STEPS: f64 = 4.0;
const SHARE: f64 = 0.01;
/// The partner departs as much, the other way: it is no single reading, but the station.
const TOGETHER: f64 = 0.5;
/// Standard errors within which a partner's jump is known.
const ERRORS: f64 = 2.0;
/// A usual slip of the pen lies within this share, whole turns of the pointer within this part of a turn.
const NEAR: f64 = 0.1;
const TURN: f64 = 0.06;

struct Found {
    step: usize,
    by: f64,
    jump: bool,
}

pub(super) fn leave_out(readings: &mut Readings<'_>) -> (Vec<Remark>, Vec<DialJump>) {
    let (mut remarks, mut jumps) = (Vec::new(), Vec::new());
    for station in 0..readings.cells.len() {
        let found = Side::BOTH.map(|side| search(readings, station, side));
        for side in Side::BOTH {
            for one in &found[side as usize] {
                let partner = &found[1 - side as usize];
                // A station that turns moves its dials against each other.
                let with = |other: &&Found| {
                    other.step == one.step
                        && other.jump == one.jump
                        && -other.by / one.by > TOGETHER
                        && -one.by / other.by > TOGETHER
                };
                if partner.iter().any(|other| with(&other)) {
                    if !one.jump && side == Side::Left {
                        remarks.push(whole_row(readings, station, one));
                        readings.cells[station][one.step].dials = [None; 2];
                    }
                    continue;
                }
                if one.jump && still(readings, station, Side::BOTH[1 - side as usize], one) {
                    jumps.push(DialJump { station, side, step: one.step, by: one.by });
                } else if !one.jump && readings.cells[station][one.step].dials[side as usize].is_some() {
                    remarks.push(single(readings, station, side, one));
                    readings.cells[station][one.step].dials[side as usize] = None;
                }
            }
        }
    }
    (remarks, jumps)
}

fn search(readings: &Readings<'_>, station: usize, side: Side) -> Vec<Found> {
    let series = readings.dial(station, side);
    let samples = readings.samples(&series);
    if samples.len() < READINGS {
        return Vec::new();
    }
    let plain: Vec<_> = samples.iter().map(|(_, sample)| *sample).collect();
    let values: Vec<f64> = series.iter().flatten().copied().collect();
    let middle = crate::line::median(values.clone()).unwrap_or(0.0);
    // The middle half of the readings says how far the dial moves, whatever a wild one says.
    let moves = 4.0 * crate::line::median(values.iter().map(|value| (value - middle).abs()).collect()).unwrap_or(0.0);
    let limits = Limits {
        floor: readings.floor(),
        least: (STEPS * readings.sheet.resolution).max(SHARE * moves),
        candidates: 4 * readings.steps().len() * readings.cells.len(),
    };
    culprits(&plain, &readings.unloading(), Sought::Both, limits)
        .into_iter()
        .map(|culprit| match culprit {
            Culprit::One { at, by } => Found { step: samples[at].0, by, jump: false },
            Culprit::From { at, by } => Found { step: samples[at].0, by, jump: true },
        })
        .collect()
}

/// Whether a dial surely does not share a jump of its partner, which would be the other way.
fn still(readings: &Readings<'_>, station: usize, side: Side, jump: &Found) -> bool {
    let samples = readings.samples(&readings.dial(station, side));
    let plain: Vec<_> = samples.iter().map(|(_, sample)| *sample).collect();
    let at = samples.iter().position(|(step, _)| *step == jump.step);
    let size = at.and_then(|at| jump_size(&plain, &readings.unloading(), at, readings.floor()));
    size.is_some_and(|[by, error]| (by / jump.by).abs() + ERRORS * error / jump.by.abs() < TOGETHER)
}

fn single(readings: &Readings<'_>, station: usize, side: Side, found: &Found) -> Remark {
    let name = readings.name(station);
    let cell = readings.cells[station][found.step];
    let value = cell.dials[side as usize].unwrap_or_default();
    let should = value - found.by;
    let message = format!(
        "station {name}, {}: the {} dial reads {} mm where {} mm would fit{}. The reading is left out",
        readings.step_name(found.step),
        side.word(),
        readings.written(value),
        readings.written(should),
        slip(value, should)
    );
    let remedy =
        "look at the clipboard: correct the reading in rig.csv and say so under `note`, or leave the cell empty";
    Remark::rig(codes::OUTLIER, name, cell.line, message, remedy).with(found.by / MM, "mm")
}

fn whole_row(readings: &Readings<'_>, station: usize, found: &Found) -> Remark {
    let name = readings.name(station);
    let message = format!(
        "station {name}, {}: both dials are off by some {} mm, one up, one down, and the steps before and after are not. The row is left out",
        readings.step_name(found.step),
        rounded(found.by.abs() / MM, 2)
    );
    let remedy =
        "the row may belong to another step, or the frame was leant on while it was read: look at the clipboard";
    let line = readings.cells[station][found.step].line;
    Remark::rig(codes::OUTLIER, name, line, message, remedy).with(found.by / MM, "mm")
}

/// The usual slip between what is written and what would fit; empty for none.
fn slip(value: f64, should: f64) -> String {
    let near = |factor: f64| should != 0.0 && (value / should / factor - 1.0).abs() < NEAR;
    if near(-1.0) {
        ": its sign is lost".to_owned()
    } else if near(10.0) || near(0.1) || near(100.0) || near(0.01) {
        ": the decimal point is misplaced".to_owned()
    } else if near(1.0 / 25.4) {
        ": as if it were written in inches".to_owned()
    } else {
        let turns = ((value - should) / MM).round();
        let whole = turns != 0.0 && ((value - should) / MM - turns).abs() < TURN;
        if whole {
            format!(": off by {} mm, whole turns of the pointer", rounded(turns.abs(), 0))
        } else {
            String::new()
        }
    }
}

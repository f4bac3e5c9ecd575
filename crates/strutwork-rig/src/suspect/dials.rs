//! Signs: one dial that counts the other way, left and right exchanged.

use super::slopes::Slopes;
use super::{Expected, Suspicions};
use crate::line::median;
use crate::readings::{Readings, Side};
use crate::remark::{Remark, codes};

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// A station whose dials move together by more than this share of what they move, where others do not, has one that counts
/// the other way.
const TOGETHER: f64 = 0.65;
const OTHERS: f64 = 0.4;
/// A sink against the couple below this share of the loaded station's twist is none.
const SINK: f64 = 0.01;
/// Dials of which one moves by less than this share of the other do not move together.
const ALIKE: f64 = 0.35;
/// A held pair turns against the couple where it does so by more than so many standard errors.
const ERRORS: f64 = 8.0;

/// A dial of a station counts the other way: its readings are turned round.
pub(super) fn signs(readings: &mut Readings<'_>, end: Option<usize>, found: &mut Suspicions) {
    let slopes = Slopes::of(readings);
    // Which way the sheet as a whole turns: by the sum of its dials, each in its own sense.
    let sense: f64 = (0..readings.cells.len())
        .filter(|station| !readings.is_held(*station) && slopes.moves(*station))
        .filter_map(|station| slopes.twist(station))
        .sum();
    for station in 0..readings.cells.len() {
        if readings.is_held(station) || !slopes.moves(station) {
            continue;
        }
        let others: Vec<f64> = (0..readings.cells.len())
            .filter(|other| *other != station && !readings.is_held(*other) && slopes.moves(*other))
            .filter_map(|other| slopes.lift(other).map(f64::abs))
            .collect();
        let (Some(lift), Some([left, right])) = (slopes.lift(station), slopes.both(station)) else { continue };
        // A frame that stands on a pivot beside its middle lifts everywhere.
        if lift.abs() < TOGETHER || median(others.clone()).is_some_and(|others| others > OTHERS) {
            continue;
        }
        if others.is_empty() && end != Some(station)
            || left.abs().min(right.abs()) < ALIKE * left.abs().max(right.abs())
        {
            continue;
        }
        let side = if left * sense.signum() < 0.0 { Side::Left } else { Side::Right };
        let name = readings.name(station);
        let message = format!(
            "both dials of station {name} move the same way, so that it would lift and not turn; the {} dial alone goes against the couple. Its sign is turned round from here on",
            side.word()
        );
        let remedy = "a dial that is mounted the other way up, or whose sign was dropped: turn its readings round in rig.csv and say so under `note`";
        found.remarks.push(Remark::rig(codes::DIAL_SIGN, name, readings.sheet.stations[station].line, message, remedy));
        found.assumed.push(station);
        for cell in &mut readings.cells[station] {
            let dial = &mut cell.dials[side as usize];
            *dial = dial.map(|value| -value);
        }
    }
}

/// Left and right of a station are exchanged: they are exchanged back.
pub(super) fn sides(readings: &mut Readings<'_>, expected: &Expected, found: &mut Suspicions) {
    let slopes = Slopes::of(readings);
    let known = slopes.known(readings, expected);
    if known.len() < 2 {
        return;
    }
    for (station, twist) in known {
        if twist >= 0.0 {
            continue;
        }
        let name = readings.name(station);
        let message = format!(
            "station {name} turns against all others: its left and right dials are exchanged, or both count the other way. They are exchanged from here on"
        );
        let remedy = "exchange its two columns in rig.csv and say so under `note`";
        swap(readings, station, message, remedy, found);
    }
}

/// A held pair that turns against the couple: what yields turns with it.
pub(super) fn held(readings: &mut Readings<'_>, end: Option<usize>, found: &mut Suspicions) {
    let slopes = Slopes::of(readings);
    let Some(most) = end.and_then(|end| slopes.twist(end)) else { return };
    for station in 0..readings.cells.len() {
        let Some(twist) = slopes.twist(station).filter(|_| readings.is_held(station)) else { continue };
        let chance = ERRORS * slopes.errors[station] / readings.sheet.stations[station].spacing;
        if twist * most.signum() >= -(SINK * most.abs()).max(chance) {
            continue;
        }
        let name = readings.name(station);
        let message = format!(
            "the held pair {name} turns against the couple, which a rig that yields does not: its left and right dials are exchanged. They are exchanged from here on"
        );
        let remedy = "exchange its two columns in rig.csv and say so under `note`; or look whether the frame rocks on what holds it";
        swap(readings, station, message, remedy, found);
    }
}

fn swap(readings: &mut Readings<'_>, station: usize, message: String, remedy: &str, found: &mut Suspicions) {
    let (name, line) = (readings.name(station), readings.sheet.stations[station].line);
    found.remarks.push(Remark::rig(codes::SIDES_SWAPPED, name, line, message, remedy));
    found.assumed.push(station);
    readings.cells[station].iter_mut().for_each(|cell| cell.dials.swap(0, 1));
}

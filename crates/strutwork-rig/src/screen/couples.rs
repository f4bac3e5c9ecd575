//! A step whose couple is mistyped: every station departs there, all as if another couple had acted.

use crate::line::{median, steady_deviation, steady_line};
use crate::readings::Readings;
use crate::remark::{Remark, codes};
use crate::words::rounded;

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Smallest error worth a word, as a share of the couples' range; times the scatter of the other steps; and how much of it
/// a neighbouring step may share before it is no slip of the pen.
const LEAST: f64 = 0.05;
const TIMES: f64 = 8.0;
const SHARED: f64 = 0.4;
/// A station can tell where it moves by more than so many scatters.
const TELLS: f64 = 20.0;
/// Stations agree within this share of the middle one; of more than three one may differ.
const AGREE: f64 = 0.25;
const MAY_DIFFER: usize = 3;
/// A usual slip lies within this share.
const NEAR: f64 = 0.06;

pub(super) fn leave_out(readings: &mut Readings<'_>) -> Vec<Remark> {
    let Some(seen) = seen(readings) else { return Vec::new() };
    let off: Vec<f64> = seen.iter().map(|seen| seen.map_or(0.0, |(off, _)| off)).collect();
    let scatter = steady_deviation(off.iter().copied()).unwrap_or(0.0);
    let mut remarks = Vec::new();
    for step in 0..off.len() {
        let Some((by, agree)) = seen[step] else { continue };
        let limit = (LEAST * readings.reach()).max(TIMES * scatter);
        if by.abs() <= limit || !agree || shared(readings, &off, step) {
            continue;
        }
        let of = readings.steps()[step];
        let likely = of.couple + by;
        let message = format!(
            "{}: every station reads as if {} N·m had acted{}. The step is left out",
            readings.step_name(step),
            rounded(likely, 0),
            slip(of.couple, likely)
        );
        let remedy = "look the weights of this step up, correct the couple in rig.csv and say so under `note`; where nobody knows, leave it out";
        remarks.push(Remark::rig(codes::COUPLE_UNIT, "", of.line, message, remedy).with(likely, "N·m"));
        for cells in &mut readings.cells {
            cells[step].dials = [None; 2];
        }
    }
    remarks
}

/// For each step how much more couple the stations see than is written, N·m, and whether they agree; `None` where fewer than
/// two can tell.
fn seen(readings: &Readings<'_>) -> Option<Vec<Option<(f64, bool)>>> {
    let mut of_stations = Vec::new();
    for station in (0..readings.cells.len()).filter(|station| !readings.is_held(*station)) {
        let turns = readings.turns(station);
        let Some(line) = steady_line(&readings.plain(&turns)) else { continue };
        let moves = line.slope.abs() * readings.reach();
        if moves <= TELLS * readings.turn_floor(station).max(line.scatter) {
            continue;
        }
        let off = readings
            .samples(&turns)
            .into_iter()
            .filter_map(|(step, sample)| Some((step, (sample.y - line.at(sample.x, sample.group)?) / line.slope)));
        of_stations.push(off.collect::<Vec<_>>());
    }
    if of_stations.len() < 2 {
        return None;
    }
    let of_step = |step: usize| {
        let told: Vec<f64> =
            of_stations.iter().flatten().filter(|(own, _)| *own == step).map(|(_, off)| *off).collect();
        if told.len() < 2 {
            return None;
        }
        let middle = median(told.clone())?;
        let agree = told.iter().filter(|off| (*off - middle).abs() <= AGREE * middle.abs()).count();
        Some((middle, agree == told.len() || (told.len() > MAY_DIFFER && agree + 1 == told.len())))
    };
    Some((0..readings.steps().len()).map(of_step).collect())
}

/// Whether a step before or after it in its group departs as much: then it is no slip of the pen but a jump of the frame.
fn shared(readings: &Readings<'_>, off: &[f64], step: usize) -> bool {
    let group = readings.groups[step];
    let of_group: Vec<usize> = (0..off.len()).filter(|other| readings.groups[*other] == group).collect();
    let place = of_group.iter().position(|other| *other == step).unwrap_or_default();
    let near = [place.checked_sub(1), Some(place + 1)];
    near.into_iter().flatten().filter_map(|place| of_group.get(place)).any(|other| off[*other] / off[step] > SHARED)
}

/// What slip of the pen or of the unit lies between two couples; empty for none of the usual.
fn slip(written: f64, likely: f64) -> &'static str {
    let ratio = likely / written;
    let near = |factor: f64| (ratio / factor - 1.0).abs() < NEAR;
    if near(9.806_65) {
        ", 9.81 times as much: kgf·m written as N·m, or a weight without g"
    } else if near(10.0) || near(0.1) {
        ": a digit too few or too many"
    } else if near(-1.0) {
        ": its sign is lost"
    } else if near(1.356) {
        ", 1.356 times as much: lbf·ft written as N·m"
    } else {
        ""
    }
}

//! A dial that stands still while its partner moves.

use crate::line::{Sample, extremes, steady_line};
use crate::readings::{Readings, Side};
use crate::remark::{Remark, codes};

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Equal readings in a row, and how far the partner moves meanwhile, in steps of the dial, that make a stuck dial.
const IN_A_ROW: usize = 3;
const PARTNER_MOVES: f64 = 8.0;
/// Other readings of a dial from which it is known how it moves.
const KNOWN: usize = 4;
/// A dial moves where it does so by more than this share of what its partner does.
const MOVES: f64 = 0.2;

pub(super) fn leave_out(readings: &mut Readings<'_>) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for station in 0..readings.cells.len() {
        for side in Side::BOTH {
            let runs = runs(readings, station, side);
            if runs.is_empty() || !others_move(readings, station, side) {
                continue;
            }
            let mut steps: Vec<usize> = Vec::new();
            for run in &runs {
                // The first of equal readings may be right, unless it never moved at all.
                let never = run.len() == readings.cells[station].len();
                steps.extend(if never { &run[..] } else { &run[1..] });
            }
            let (first, last) = (steps[0], steps[steps.len() - 1]);
            let cell = readings.cells[station][first];
            let value = cell.dials[side as usize].unwrap_or_default();
            let name = readings.name(station);
            let message = format!(
                "the {} dial of station {name} stands at {} mm from {} to {} while the other dial moves: it is stuck. {} are left out",
                side.word(),
                readings.written(value),
                readings.step_name(first),
                readings.step_name(last),
                if steps.len() == 1 { "1 reading".to_owned() } else { format!("these {} readings", steps.len()) },
            );
            let remedy =
                "free the plunger, tap the dial before each reading, check that its foot touches; repeat the cycle";
            remarks
                .push(Remark::rig(codes::STUCK, name, cell.line, message, remedy).with(steps.len() as f64, "readings"));
            for step in steps {
                readings.cells[station][step].dials[side as usize] = None;
            }
        }
    }
    remarks
}

/// Runs of equal readings over which the partner moves, as steps.
fn runs(readings: &Readings<'_>, station: usize, side: Side) -> Vec<Vec<usize>> {
    let own = readings.dial(station, side);
    let partner = readings.dial(station, Side::BOTH[1 - side as usize]);
    let step = readings.sheet.resolution.max(readings.floor());
    let samples = readings.samples(&own);
    let mut found = Vec::new();
    let mut run: Vec<usize> = Vec::new();
    let read: Vec<usize> = (0..own.len()).filter(|step| own[*step].is_some()).collect();
    for place in 0..=read.len() {
        let same = place < read.len()
            && run
                .last()
                .is_none_or(|last| own[*last].zip(own[read[place]]).is_some_and(|(a, b)| (a - b).abs() < 1e-9));
        if same {
            run.push(read[place]);
            continue;
        }
        let moved = spread(run.iter().filter_map(|step| partner[*step]));
        if run.len() >= IN_A_ROW && moved > PARTNER_MOVES * step && should_move(readings, station, &samples, &run, step)
        {
            found.push(std::mem::take(&mut run));
        }
        run.clear();
        if place < read.len() {
            run.push(read[place]);
        }
    }
    found
}

/// Whether a dial would move over a run of steps as it does over the others; one that never moves would, where the station is
/// not held.
fn should_move(readings: &Readings<'_>, station: usize, samples: &[(usize, Sample)], run: &[usize], step: f64) -> bool {
    let outside: Vec<Sample> =
        samples.iter().filter(|(own, _)| !run.contains(own)).map(|(_, sample)| *sample).collect();
    let couples = run.iter().map(|step| readings.steps()[*step].couple);
    match steady_line(&outside) {
        Some(line) if outside.len() >= KNOWN => line.slope.abs() * spread(couples) > PARTNER_MOVES * step,
        _ => run.len() == samples.len() && !readings.is_held(station),
    }
}

/// Whether the same dial of other stations moves: a frame that turns about one side has a still dial everywhere on it.
fn others_move(readings: &Readings<'_>, station: usize, side: Side) -> bool {
    let ratio = |other: usize| {
        let own = spread(readings.dial(other, side).into_iter().flatten());
        let partner = spread(readings.dial(other, Side::BOTH[1 - side as usize]).into_iter().flatten());
        (own > MOVES * partner, partner > PARTNER_MOVES * readings.sheet.resolution)
    };
    let told: Vec<bool> = (0..readings.cells.len())
        .filter(|other| *other != station)
        .map(ratio)
        .filter(|(_, moves)| *moves)
        .map(|(own, _)| own)
        .collect();
    told.is_empty() || 2 * told.iter().filter(|moves| **moves).count() >= told.len()
}

fn spread(values: impl Iterator<Item = f64>) -> f64 {
    let [least, most] = extremes(values);
    (most - least).max(0.0)
}

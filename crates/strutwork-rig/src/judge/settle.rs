//! Cycles that only settle the frame, and zeros that do not come back.

use crate::line::median;
use crate::readings::Readings;

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// A zero that comes back within this share of the greatest twist has come back, and within so many standard deviations of a
/// difference of two readings.
const BACK: f64 = 0.01;
const SCATTERS: f64 = 4.5 * std::f64::consts::SQRT_2;
/// A settling cycle's zero is worse than a later one's by this factor.
const WORSE: f64 = 2.0;
/// Couples within this share of their range are the same.
const SAME: f64 = 0.02;

/// A cycle: its number, and how far its zero has moved by its end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CycleZero {
    /// Its number in the file.
    pub cycle: u32,
    /// Twist at its end less that at its beginning, under the same couple, rad; `None` where it does not come back to the
    /// couple that it began with.
    pub moved: Option<f64>,
    /// The same as a share of the cycle's greatest twist.
    pub share: Option<f64>,
    /// Whether its readings are used.
    pub kept: bool,
}

/// Whether the readings of a cycle are used; those of one that no zero is known of are.
pub(crate) fn keeps(cycles: &[CycleZero], cycle: u32) -> bool {
    cycles.iter().find(|known| known.cycle == cycle).is_none_or(|known| known.kept)
}

/// The cycles in order, those left out marked, by rule or as the sheet says.
pub(crate) fn cycles(readings: &Readings<'_>, twist: &[Option<f64>], floor: f64) -> Vec<CycleZero> {
    let numbers = readings.cycles(0..readings.steps().len());
    let mut cycles: Vec<CycleZero> = numbers.into_iter().map(|cycle| zero(readings, twist, cycle)).collect();
    let dropped = readings.sheet.settling_cycles.unwrap_or_else(|| by_rule(&cycles, floor));
    let most = cycles.len().saturating_sub(1);
    for cycle in cycles.iter_mut().take(dropped.min(most)) {
        cycle.kept = false;
    }
    cycles
}

fn zero(readings: &Readings<'_>, twist: &[Option<f64>], cycle: u32) -> CycleZero {
    let steps = readings.steps();
    let of: Vec<(usize, f64)> = (0..steps.len())
        .filter(|step| steps[*step].cycle == cycle)
        .filter_map(|step| Some((step, twist[step]?)))
        .collect();
    let moved = || {
        let (first, last) = (of.first()?, of.last()?);
        let same = (steps[first.0].couple - steps[last.0].couple).abs() <= SAME * readings.reach();
        (same && last.0 > first.0 && steps[last.0].unloading).then_some(last.1 - first.1)
    };
    let moved = moved();
    let most = of.first().map_or(0.0, |first| of.iter().map(|one| (one.1 - first.1).abs()).fold(0.0, f64::max));
    CycleZero { cycle, moved, share: moved.filter(|_| most > 0.0).map(|moved| moved / most), kept: true }
}

/// How many cycles at the beginning settle: as long as the zero comes back badly, and much worse than in a later cycle.
fn by_rule(cycles: &[CycleZero], floor: f64) -> usize {
    let mut dropped = 0;
    while dropped + 1 < cycles.len() && stays_away(&cycles[dropped], floor) {
        let later = median(cycles[dropped + 1..].iter().filter_map(|cycle| cycle.moved.map(f64::abs)).collect());
        let own = cycles[dropped].moved.map_or(0.0, f64::abs);
        if later.is_none_or(|later| own <= WORSE * later) {
            break;
        }
        dropped += 1;
    }
    dropped
}

/// Whether a zero that moved so far has not come back.
pub(crate) fn stays_away(zero: &CycleZero, floor: f64) -> bool {
    zero.moved.is_some_and(|moved| moved.abs() > SCATTERS * floor) && zero.share.is_some_and(|share| share.abs() > BACK)
}

//! Jumps of the twist between two steps: a joint that slips, or a foot that moves.

use crate::line::extremes;
use crate::readings::Readings;
use crate::screen::select::{Culprit, Limits, Sought, culprits, jump_size};

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Readings of a station without which no jump is sought.
const READINGS: usize = 6;
/// Smallest jump worth a word, in standard deviations of a turn that the dials have at least, and as a share of the twist.
const FLOORS: f64 = 3.0;
const SHARE: f64 = 0.008;
/// A station shares the jump of another where its own is more than this share of it, and of its standard error; it surely does not
/// where its own, with two standard errors, stays below the last.
const SHARED: f64 = 0.4;
const SURE: f64 = 2.5;
const ERRORS: f64 = 2.0;
const NOT_SHARED: f64 = 0.5;

/// A jump of one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Jump {
    /// The station.
    pub(crate) station: usize,
    /// The first step after it.
    pub(crate) step: usize,
    /// How far the twist jumps, rad.
    pub(crate) by: f64,
}

/// The jumps of one station's twist.
pub(crate) fn jumps(readings: &Readings<'_>, station: usize, twist: &[Option<f64>]) -> Vec<Jump> {
    let samples = readings.samples(twist);
    if samples.len() < READINGS {
        return Vec::new();
    }
    let plain: Vec<_> = samples.iter().map(|(_, sample)| *sample).collect();
    let [least, most] = extremes(twist.iter().flatten().copied());
    let floor = readings.turn_floor(station);
    let limits = Limits {
        floor,
        least: (FLOORS * floor).max(SHARE * (most - least)),
        candidates: 2 * readings.steps().len() * readings.cells.len(),
    };
    let jump = |culprit: Culprit| match culprit {
        Culprit::One { .. } => None,
        Culprit::From { at, by } => Some(Jump { station, step: samples[at].0, by }),
    };
    culprits(&plain, &readings.unloading(), Sought::Jumps, limits).into_iter().filter_map(jump).collect()
}

/// Whether a station shares a jump of another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Shares {
    /// It jumps too, by so much, rad.
    Jumps(f64),
    /// It surely does not.
    Stays,
    /// Its dials cannot tell.
    Unknown,
}

/// Looks at one station where another jumps.
pub(crate) fn shares(readings: &Readings<'_>, station: usize, twist: &[Option<f64>], jump: &Jump) -> Shares {
    let samples = readings.samples(twist);
    let plain: Vec<_> = samples.iter().map(|(_, sample)| *sample).collect();
    let at = samples.iter().position(|(step, _)| *step == jump.step);
    match at.and_then(|at| jump_size(&plain, &readings.unloading(), at, readings.turn_floor(station))) {
        Some([by, error]) if by / jump.by > SHARED && by.abs() > SURE * error => Shares::Jumps(by),
        Some([by, error]) if (by / jump.by) + ERRORS * error / jump.by.abs() < NOT_SHARED => Shares::Stays,
        _ => Shares::Unknown,
    }
}

/// Groups split where any of these jumps is, so that each part has a level of its own.
pub(crate) fn split(readings: &Readings<'_>, jumps: &[Jump]) -> Vec<usize> {
    let mut groups = readings.groups.clone();
    let mut steps: Vec<usize> = jumps.iter().map(|jump| jump.step).collect();
    steps.sort_unstable();
    steps.dedup();
    let first = groups.iter().max().map_or(0, |most| most + 1);
    for (next, at) in (first..).zip(steps) {
        let own = groups[at];
        for group in groups.iter_mut().skip(at).filter(|group| **group == own) {
            *group = next;
        }
    }
    groups
}

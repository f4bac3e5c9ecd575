//! How much each dial moves for the couple, by a line that wild readings do not move.

use super::Expected;
use crate::line::{fit_line, median, steady_line};
use crate::readings::{Readings, Side};

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Stations that should show less than this share of the greatest twist say nothing of signs and units.
const TELLS: f64 = 0.15;
/// A station moves where its dials do so by more than so many standard errors.
const MOVES: f64 = 12.0;
/// The standard error of a slope is not held to be less than so many floors of the dials over the couples' range and the root of
/// the steps.
const FLOORS: f64 = 3.0;

/// Slopes of all dials.
#[derive(Debug)]
pub(super) struct Slopes {
    /// m/(N·m): left and right dial of each station; `None` where too little was read.
    pub(super) dials: Vec<[Option<f64>; 2]>,
    /// Standard error of a dial's slope, m/(N·m).
    pub(super) errors: Vec<f64>,
    spacings: Vec<f64>,
}

impl Slopes {
    pub(super) fn of(readings: &Readings<'_>) -> Self {
        let samples = |station, side| readings.plain(&readings.dial(station, side));
        let slope = |station, side| steady_line(&samples(station, side)).map(|line| line.slope);
        let error = |station| {
            let of = |side| fit_line(&samples(station, side)).map_or(f64::INFINITY, |line| line.error);
            let least = readings.floor() / (readings.reach() * (readings.steps().len() as f64).sqrt()) * FLOORS;
            of(Side::Left).max(of(Side::Right)).max(least)
        };
        let stations = 0..readings.cells.len();
        Self {
            dials: stations.clone().map(|station| Side::BOTH.map(|side| slope(station, side))).collect(),
            errors: stations.map(error).collect(),
            spacings: readings.sheet.stations.iter().map(|station| station.spacing).collect(),
        }
    }

    /// Slopes of both dials; `None` where one is not known.
    pub(super) fn both(&self, station: usize) -> Option<[f64; 2]> {
        let [left, right] = self.dials[station];
        Some([left?, right?])
    }

    /// Twist over couple, rad/(N·m).
    pub(super) fn twist(&self, station: usize) -> Option<f64> {
        self.both(station).map(|[left, right]| (left - right) / self.spacings[station])
    }

    /// How much the dials of a station move, whichever way, m/(N·m).
    pub(super) fn size(&self, station: usize) -> f64 {
        self.both(station).map_or(0.0, |[left, right]| left.abs() + right.abs())
    }

    /// How much a station turns, whichever way, rad/(N·m); 0 where it is not known.
    pub(super) fn turn(&self, station: usize) -> f64 {
        self.twist(station).map_or(0.0, f64::abs)
    }

    /// How much a station moves as a whole, of what its dials move, −1 to 1.
    pub(super) fn lift(&self, station: usize) -> Option<f64> {
        let size = self.size(station);
        self.both(station).filter(|_| size > 0.0).map(|[left, right]| (left + right) / size)
    }

    /// Whether the dials of a station move by more than chance.
    pub(super) fn moves(&self, station: usize) -> bool {
        self.size(station) > MOVES * self.errors[station]
    }

    /// The stations whose twist can be held against the expected one, with it.
    pub(super) fn known(&self, readings: &Readings<'_>, expected: &Expected) -> Vec<(usize, f64)> {
        let most = expected.twist.iter().flatten().fold(0.0_f64, |most, twist| most.max(*twist));
        (0..self.dials.len())
            .filter(|station| !readings.is_held(*station) && self.moves(*station))
            .filter(|station| expected.twist[*station].is_some_and(|twist| twist > TELLS * most))
            .filter_map(|station| Some((station, self.twist(station)?)))
            .collect()
    }

    /// Measured over expected twist, of the stations that are known: the middle of them.
    pub(super) fn scale(&self, readings: &Readings<'_>, expected: &Expected) -> Option<f64> {
        let known = self.known(readings, expected);
        median(known.into_iter().filter_map(|(station, twist)| Some(twist / expected.twist[station]?)).collect())
    }

    /// The same of each station, over the middle of all: 1 where it twists as expected.
    pub(super) fn ratios(&self, readings: &Readings<'_>, expected: &Expected) -> Vec<(usize, f64)> {
        let Some(scale) = self.scale(readings, expected).filter(|scale| *scale != 0.0) else { return Vec::new() };
        let known = self.known(readings, expected).into_iter();
        known.filter_map(|(station, twist)| Some((station, twist / expected.twist[station]? / scale.abs()))).collect()
    }
}

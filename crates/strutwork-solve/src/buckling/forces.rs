//! Axial forces of a solved case on the pieces of its tubes.

use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, Subdivided, TubeId};

use crate::results::{CaseResult, Station, TubeResult};

/// For each piece the axial force at its ends, N, tension positive, turned round where the case is.
pub(super) struct Axial(IndexVec<TubeId, [f64; 2]>);

impl Axial {
    /// From the stations along the whole tubes times `sign`; between two stations the force runs linearly.
    pub(super) fn of(fine: &Subdivided, result: &CaseResult, sign: f64) -> Self {
        let ends =
            fine.pieces.iter().map(|&(tube, part)| axial_at(&result.tubes[tube], part).map(|force| sign * force));
        Self(ends.collect())
    }

    /// Of a piece, by its place.
    pub(super) fn ends(&self, piece: usize) -> [f64; 2] {
        self.0[TubeId::new(piece)]
    }
}

/// The axial force at the ends of a part of a tube, N, tension positive; `part` is 0 to 1 along it. Between two stations it runs
/// linearly.
pub fn axial_at(tube: &TubeResult, part: [f64; 2]) -> [f64; 2] {
    [after(&tube.stations, part[0]), before(&tube.stations, part[1])]
}

/// Compression below this share of the greatest axial force is rounding.
const ROUNDING: f64 = 1e-9;

/// Whether nothing is pressed in the case turned by `sign`: what only pulls buckles nothing.
pub(super) fn presses_nothing(result: &CaseResult, sign: f64) -> bool {
    let forces = || result.tubes.iter().flat_map(|tube| &tube.stations).map(|station| sign * station.forces.n);
    let greatest = forces().fold(0.0, |most: f64, force| most.max(force.abs()));
    forces().all(|force| force >= -ROUNDING * greatest)
}

/// The greatest compression along a tube, N, of the case turned by `sign`; 0 where nothing presses it.
pub(super) fn greatest_compression(result: &CaseResult, tube: TubeId, sign: f64) -> f64 {
    result.tubes[tube].stations.iter().map(|station| -sign * station.forces.n).fold(0.0, f64::max)
}

/// The force just after a place: where a point load acts, of the two stations there the second.
fn after(stations: &[Station], at: f64) -> f64 {
    let next = stations.iter().position(|station| station.at > at).unwrap_or(stations.len() - 1);
    between(stations, next, at)
}

/// The force just before a place.
fn before(stations: &[Station], at: f64) -> f64 {
    let next = stations.iter().position(|station| station.at >= at).unwrap_or(stations.len() - 1);
    between(stations, next.max(1), at)
}

fn between(stations: &[Station], next: usize, at: f64) -> f64 {
    let [Some(a), Some(b)] = [next.checked_sub(1), Some(next)].map(|place| stations.get(place?)) else {
        return stations.first().map_or(0.0, |station| station.forces.n);
    };
    let span = b.at - a.at;
    let share = if span > 0.0 { (at - a.at) / span } else { 0.0 };
    a.forces.n + (b.forces.n - a.forces.n) * share
}

//! Axial forces of a solved case on the pieces of its tubes.

use strutwork_model::{IndexVec, Subdivided, TubeId};

use crate::results::{CaseResult, Station};

/// For each piece the axial force at its ends, N, tension positive.
pub(super) struct Axial(IndexVec<TubeId, [f64; 2]>);

impl Axial {
    /// From the stations along the whole tubes; between two stations the force runs linearly.
    pub(super) fn of(fine: &Subdivided, result: &CaseResult) -> Self {
        let ends = fine.pieces.iter().map(|&(tube, [start, end])| {
            let stations = &result.tubes[tube].stations;
            [after(stations, start), before(stations, end)]
        });
        Self(ends.collect())
    }

    pub(super) fn ends(&self, piece: TubeId) -> [f64; 2] {
        self.0[piece]
    }

    /// Whether no tube carries an axial force.
    pub(super) fn is_nothing(&self) -> bool {
        self.0.iter().all(|ends| *ends == [0.0; 2])
    }
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

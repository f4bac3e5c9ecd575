//! Twist of the stations with the rig's own sink subtracted.

use strutwork_model::model::{RigRole, RigSheet};

use crate::line::along;
use crate::readings::Readings;

/// A held pair nearer than this to the loaded one along x, m, is at the post of its pivot: it reads what the rig yields there,
/// and holds no twist. Own choice: a post and its dials are so wide.
pub(crate) const PIVOT: f64 = 0.15;

/// What the sink is taken from.
#[derive(Debug)]
pub(crate) struct Base {
    /// The stations whose turn is subtracted, in order of x.
    pub(crate) stations: Vec<usize>,
    /// Whether they are called held; otherwise the farthest from the loaded one stands in for them.
    pub(crate) named: bool,
}

impl Base {
    /// The held stations; without any, the station farthest along x from the loaded one.
    pub(crate) fn of(sheet: &RigSheet, loaded: Option<usize>) -> Self {
        let x = |station: &usize| sheet.stations[*station].x;
        let is_held = |station: &usize| sheet.stations[*station].role == RigRole::Held;
        let mut held: Vec<usize> = (0..sheet.stations.len()).filter(is_held).collect();
        let named = !held.is_empty();
        if let (false, Some(loaded)) = (named, loaded) {
            let far = |station: &usize| (x(station) - x(&loaded)).abs();
            let others = (0..sheet.stations.len()).filter(|station| *station != loaded);
            held.extend(others.max_by(|a, b| far(a).total_cmp(&far(b))));
        }
        held.sort_by(|a, b| x(a).total_cmp(&x(b)));
        Self { stations: held, named }
    }

    /// Twist of every station over the steps, rad: its turn less the base's at its place.
    ///
    /// A rigid turn of the frame on what yields is the same all along it; between two held points it goes from the one to the
    /// other, as a twist of the rig's bed under the dials does. Beyond them nothing is extrapolated.
    pub(crate) fn twists(&self, readings: &Readings<'_>) -> Vec<Vec<Option<f64>>> {
        let turns: Vec<Vec<Option<f64>>> = (0..readings.cells.len()).map(|station| readings.turns(station)).collect();
        let x = |station: usize| readings.sheet.stations[station].x;
        let sink = |station: usize, step: usize| -> Option<f64> {
            let places: Option<Vec<[f64; 2]>> =
                self.stations.iter().map(|held| Some([x(*held), turns[*held][step]?])).collect();
            if self.stations.is_empty() { Some(0.0) } else { along(&places?, x(station)) }
        };
        let steps = 0..readings.steps().len();
        (0..turns.len())
            .map(|station| steps.clone().map(|step| Some(turns[station][step]? - sink(station, step)?)).collect())
            .collect()
    }
}

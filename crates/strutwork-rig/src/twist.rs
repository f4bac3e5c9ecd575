//! Twist of the stations with the rig's own sink subtracted.

use crate::readings::Readings;

/// A held pair nearer than this to the loaded one along x, m, is at the post of its pivot: it reads what the rig yields there,
/// and holds no twist.
pub(crate) const PIVOT: f64 = 0.15;

/// What the sink is taken from.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Base {
    /// The stations whose turn is subtracted, in order of x.
    pub(crate) stations: Vec<usize>,
    /// Whether they are called held; otherwise the farthest from the loaded one stands in for them.
    pub(crate) named: bool,
}

impl Base {
    /// The held stations; without any, the station farthest along x from the loaded one.
    pub(crate) fn of(readings: &Readings<'_>, loaded: Option<usize>) -> Self {
        let x = |station: &usize| readings.sheet.stations[*station].x;
        let mut held: Vec<usize> = (0..readings.cells.len()).filter(|station| readings.is_held(*station)).collect();
        let named = !held.is_empty();
        if let (false, Some(loaded)) = (named, loaded) {
            let far = |station: &usize| (x(station) - x(&loaded)).abs();
            let others = (0..readings.cells.len()).filter(|station| *station != loaded);
            held.extend(others.max_by(|a, b| far(a).total_cmp(&far(b))));
        }
        held.sort_by(|a, b| x(a).total_cmp(&x(b)));
        Self { stations: held, named }
    }

    /// The base's value at a place: linear in x between two held stations, that of the nearest beyond them.
    ///
    /// A rigid turn of the frame on what yields is the same all along it; between two held points it goes from the one to the
    /// other, as a twist of the rig's bed under the dials does. Beyond them nothing is extrapolated.
    pub(crate) fn at(&self, x: f64, places: &[(f64, f64)]) -> Option<f64> {
        let after = places.iter().position(|(place, _)| *place >= x);
        match after {
            Some(0) => Some(places[0].1),
            None => places.last().map(|(_, value)| *value),
            Some(next) => {
                let ((a, va), (b, vb)) = (places[next - 1], places[next]);
                Some(if b > a { va + (vb - va) * (x - a) / (b - a) } else { vb })
            }
        }
    }

    /// Twist of every station over the steps, rad: its turn less the base's at its place.
    pub(crate) fn twists(&self, readings: &Readings<'_>) -> Vec<Vec<Option<f64>>> {
        let turns: Vec<Vec<Option<f64>>> = (0..readings.cells.len()).map(|station| readings.turns(station)).collect();
        let x = |station: usize| readings.sheet.stations[station].x;
        let sink = |station: usize, step: usize| -> Option<f64> {
            let places: Option<Vec<(f64, f64)>> =
                self.stations.iter().map(|held| Some((x(*held), turns[*held][step]?))).collect();
            if self.stations.is_empty() { Some(0.0) } else { self.at(x(station), &places?) }
        };
        let steps = 0..readings.steps().len();
        (0..turns.len())
            .map(|station| steps.clone().map(|step| Some(turns[station][step]? - sink(station, step)?)).collect())
            .collect()
    }
}

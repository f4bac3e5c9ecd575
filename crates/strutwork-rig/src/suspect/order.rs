//! Two stations whose readings stand in each other's place throughout.

use super::slopes::Slopes;
use super::{Expected, Suspicions};
use crate::readings::Readings;
use crate::remark::{Remark, codes};

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Expected twists of two stations that differ by less are not told apart.
const APART: f64 = 1.15;
/// The misfit that is worth a word, as a sum of logarithms, and how much of it may be left after the exchange.
const MISFIT: f64 = 0.25;
const LEFT: f64 = 0.5;
/// Two stations are in the wrong order where they are so by more than so many standard errors.
const ERRORS: f64 = 8.0;

/// Exchanges the readings of the two stations where that mends the order of twist along the frame.
pub(super) fn stations(readings: &mut Readings<'_>, expected: &Expected, found: &mut Suspicions) {
    let slopes = Slopes::of(readings);
    let (known, Some(scale)) = (slopes.known(readings, expected), slopes.scale(readings, expected)) else { return };
    if known.len() < 2 || scale <= 0.0 {
        return;
    }
    let spacing = |station: usize| readings.sheet.stations[station].spacing;
    let should = |station: usize| expected.twist[station].unwrap_or(f64::NAN);
    // Twist of each station with the readings of a and b exchanged.
    let twists = |exchanged: Option<(usize, usize)>| -> Vec<(usize, f64)> {
        known
            .iter()
            .map(|&(station, twist)| {
                let from = match exchanged {
                    Some((a, b)) if station == a => b,
                    Some((a, b)) if station == b => a,
                    _ => return (station, twist),
                };
                let own = known.iter().find(|(other, _)| *other == from).map_or(f64::NAN, |(_, twist)| *twist);
                (station, own * spacing(from) / spacing(station))
            })
            .collect()
    };
    let misfit = |twists: &[(usize, f64)]| {
        let logs: Vec<f64> = twists.iter().map(|(station, twist)| (twist / should(*station)).max(1e-9).ln()).collect();
        let middle = crate::line::median(logs.clone()).unwrap_or(0.0);
        logs.iter().map(|log| (log - middle).abs()).sum::<f64>()
    };
    let disorder = |twists: &[(usize, f64)]| {
        let pairs = twists.iter().enumerate().flat_map(|(place, a)| twists[place + 1..].iter().map(move |b| (a, b)));
        pairs
            .filter(|(a, b)| {
                let chance = ERRORS * (slopes.errors[a.0] / spacing(a.0)).hypot(slopes.errors[b.0] / spacing(b.0));
                (should(a.0) - should(b.0)) * (a.1 - b.1) < 0.0 && (a.1 - b.1).abs() > chance
            })
            .count()
    };
    let now = twists(None);
    let (before, disordered) = (misfit(&now), disorder(&now));
    if disordered == 0 || before < MISFIT {
        return;
    }
    let pairs = known.iter().enumerate().flat_map(|(place, a)| known[place + 1..].iter().map(move |b| (a.0, b.0)));
    let best = pairs
        .filter(|&(a, b)| (should(a) / should(b)).ln().abs() > APART.ln())
        .map(|pair| (pair, twists(Some(pair))))
        .filter(|(_, after)| disorder(after) == 0)
        .map(|(pair, after)| (pair, misfit(&after)))
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let Some(((a, b), after)) = best else { return };
    if after > LEFT * before {
        return;
    }
    let names = [a, b].map(|station| readings.name(station));
    let message = format!(
        "the twist along the frame goes back and forth at stations {} and {}, and is in order where their readings are exchanged. They are exchanged from here on",
        names[0], names[1]
    );
    let remedy =
        "look which dials stood where: exchange the two names in rig.csv, or their x_mm, and say so under `note`";
    let line = readings.sheet.stations[a].line;
    found.remarks.push(Remark::rig(codes::STATIONS_SWAPPED, &names.join(" and "), line, message, remedy));
    found.assumed.extend([a, b]);
    readings.cells.swap(a, b);
}

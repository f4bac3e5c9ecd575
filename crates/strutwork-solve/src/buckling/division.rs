//! Into how many pieces each tube goes: as many as its own bowing needs.

use std::f64::consts::PI;

use rayon::prelude::*;
use strutwork_model::{IndexVec, TubeId};

use super::forces::{greatest_compression, presses_nothing};
use super::ready::Hung;
use super::side::{Found, both, rough};
use super::{Buckling, BucklingWanted, Pieces};
use crate::counters::Counters;
use crate::error::SolveError;
use crate::results::{CaseResult, Station};

/// Pieces of a tube at most.
const MOST: usize = 64;
/// Divisions that are tried before what there is must do.
const TRIES: usize = 6;
/// Share of the bound that a tube must bring to be divided further.
const NOTABLE: f64 = 0.02;
/// Limit that the rough division keeps.
const ROUGH: f64 = 0.05;
/// A finer division aims at this share of the limit.
const AIM: f64 = 0.6;
/// Two places along a tube nearer than this share of it are one.
const SAME: f64 = 1e-6;

/// Load factors of cases that are held alike, each on one factorisation that they share.
///
/// # Errors
/// [`SolveError::Mechanism`] where the frame can move without resistance.
pub(super) fn together(
    hung: Hung<'_>,
    results: &[&CaseResult],
    wanted: BucklingWanted,
    counters: &mut Counters,
) -> Result<Vec<Buckling>, SolveError> {
    let name = &results[0].name;
    let jumps = jumps(hung, results);
    let tubes = hung.model.tubes();
    let (mut counts, limit) = match wanted.pieces {
        Pieces::Each(count) => (tubes.ids().map(|_| count.max(1)).collect(), f64::INFINITY),
        Pieces::Bounded(limit) => {
            let mut counts: IndexVec<TubeId, usize> = tubes.ids().map(|_| 1).collect();
            // Load factors from whole tubes are far too high; from roughly divided ones they are good enough to divide by.
            for limit in [ROUGH.max(limit), limit] {
                let needed = hung.divided(&cuts(&counts, &jumps), name, counters, |ready| {
                    let each = |result: &&CaseResult| {
                        let (last, counters) = rough(ready, result, wanted.count);
                        (needed(hung, result, last, limit, wanted.count), counters)
                    };
                    results.par_iter().map(each).collect::<Vec<_>>()
                })?;
                counts = tubes.ids().map(|_| 1).collect();
                for (own, work) in needed {
                    counters.add(&work);
                    finest(&mut counts, &own);
                }
            }
            (counts, limit)
        }
    };
    let mut done: Vec<Option<Buckling>> = results.iter().map(|_| None).collect();
    let mut open: Vec<usize> = (0..results.len()).collect();
    for again in 1..=TRIES {
        let found: Vec<Found> = hung.divided(&cuts(&counts, &jumps), name, counters, |ready| {
            open.par_iter().map(|place| both(ready, results[*place], wanted.count)).collect()
        })?;
        let before = counts.clone();
        let mut coarse = Vec::new();
        for (place, found) in open.iter().copied().zip(found) {
            counters.add(&found.counters);
            let finer = (limit.is_finite() && again < TRIES).then(|| finer(&before, &found, limit)).flatten();
            if let Some(finer) = finer {
                finest(&mut counts, &finer);
                coarse.push(place);
            } else {
                done[place] = Some(found.buckling);
            }
        }
        open = coarse;
        if open.is_empty() {
            break;
        }
    }
    Ok(done.into_iter().flatten().collect())
}

/// The finer of both, tube by tube.
fn finest(counts: &mut IndexVec<TubeId, usize>, other: &IndexVec<TubeId, usize>) {
    *counts = counts.iter().zip(other).map(|(a, b)| *a.max(b)).collect();
}

/// Pieces that each tube of a case needs at these load factors, judged by the tube alone.
///
/// ```text
/// u = L √(λN/EI) of a tube,  u/n of its pieces:   (u/n)⁴/720 / (1 − (u/n)²/4π²) ≤ limit
/// ```
fn needed(
    hung: Hung<'_>,
    result: &CaseResult,
    last: [Option<f64>; 2],
    limit: f64,
    wanted: usize,
) -> IndexVec<TubeId, usize> {
    let model = hung.model;
    let mut counts: IndexVec<TubeId, usize> = model.tubes().ids().map(|_| 1).collect();
    let first = (720.0 * limit).powf(0.25);
    let slim = (720.0 * limit * (1.0 - first * first / (4.0 * PI * PI)).max(0.1)).powf(0.25);
    for (sign, last) in [1.0, -1.0].into_iter().zip(last) {
        if presses_nothing(result, sign) {
            continue;
        }
        // u at λ = 1, by the smaller and the greater second moment.
        let slender = |tube: TubeId| {
            let row = &model.tubes()[tube];
            let (section, material) = (&model.sections()[row.section], &model.materials()[row.material]);
            let force = greatest_compression(result, tube, sign) / material.youngs;
            let of = |inertia: f64| model.length(tube) * (force / inertia).sqrt();
            [of(section.iy.min(section.iz)), of(section.iy.max(section.iz))]
        };
        let slender: IndexVec<TubeId, [f64; 2]> = model.tubes().ids().map(slender).collect();
        // The frame's k-th load factor is not above the k-th of all tubes clamped at both ends: u = 2π, 2.86π, 4π, …
        let clamped = |u: &f64| (1..=wanted).map(|wave| ((wave + 1) as f64 * PI / u).powi(2)).collect::<Vec<f64>>();
        let mut own: Vec<f64> = slender.iter().flatten().filter(|u| **u > 0.0).flat_map(clamped).collect();
        own.sort_by(f64::total_cmp);
        let Some(highest) = own.get(wanted - 1) else { continue };
        let factor = last.unwrap_or(f64::INFINITY).min(*highest);
        for (tube, [u, _]) in slender.iter_with_id() {
            counts[tube] = counts[tube].max(((u * factor.sqrt() / slim).ceil() as usize).clamp(1, MOST));
        }
    }
    counts
}

/// Pieces that bring a case under the limit; `None` where it is, or finer pieces would not help.
fn finer(counts: &IndexVec<TubeId, usize>, found: &Found, limit: f64) -> Option<IndexVec<TubeId, usize>> {
    if found.boundless {
        return None;
    }
    let mut finer = counts.clone();
    for (bound, shares) in &found.shares {
        if bound.is_some_and(|bound| bound <= limit) {
            continue;
        }
        let whole: f64 = shares.iter().filter(|share| share.is_finite()).sum();
        let over = bound.unwrap_or(limit * 16.0).max(whole.min(1.0)) / (AIM * limit);
        for (tube, share) in shares.iter_with_id() {
            let times = if share.is_infinite() { 2.0 } else { over.powf(0.25).min(4.0) };
            if *share > NOTABLE * whole || share.is_infinite() {
                let more = ((counts[tube] as f64 * times).ceil() as usize).max(counts[tube] + 1);
                finer[tube] = finer[tube].max(more.min(MOST));
            }
        }
    }
    (finer != *counts).then_some(finer)
}

/// For each tube the places where it is cut: equal pieces, and where the axial force of a case jumps.
fn cuts(counts: &IndexVec<TubeId, usize>, jumps: &IndexVec<TubeId, Vec<f64>>) -> IndexVec<TubeId, Vec<f64>> {
    let of_tube = |(count, jumps): (&usize, &Vec<f64>)| {
        let mut places = jumps.clone();
        let equal = (1..*count).map(|piece| piece as f64 / *count as f64);
        // A whole-numbered cut close to a jump gives way to it.
        let near = 0.25 / *count as f64;
        places.extend(equal.filter(|place| jumps.iter().all(|jump| (jump - place).abs() > near)));
        places.sort_by(f64::total_cmp);
        places
    };
    counts.iter().zip(jumps).map(of_tube).collect()
}

/// For each tube the places between its ends where the axial force of a case jumps, ascending.
fn jumps(hung: Hung<'_>, results: &[&CaseResult]) -> IndexVec<TubeId, Vec<f64>> {
    let of_tube = |tube: TubeId| {
        let mut places: Vec<f64> =
            results.iter().flat_map(|result| of_stations(&result.tubes[tube].stations)).collect();
        places.sort_by(f64::total_cmp);
        places.dedup_by(|next, last| *next - *last < SAME);
        places
    };
    hung.model.tubes().ids().map(of_tube).collect()
}

fn of_stations(stations: &[Station]) -> impl Iterator<Item = f64> {
    let most = stations.iter().map(|station| station.forces.n.abs()).fold(0.0, f64::max);
    stations.windows(2).filter_map(move |pair| {
        let [before, after] = pair else { return None };
        let inside = before.at > SAME && before.at < 1.0 - SAME;
        let jumps = (after.forces.n - before.forces.n).abs() > 1e-9 * most;
        (inside && after.at - before.at < SAME && jumps).then_some(before.at)
    })
}

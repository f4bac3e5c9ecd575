//! The loop between loading and unloading, and whether the line bends.

use crate::line::{Sample, along, extremes, fit_line, student};
use crate::readings::Readings;

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// Couples at which a loop is looked across, of each cycle.
const CUTS: usize = 20;
/// A cycle whose loading and unloading share less of the couples' range than this says nothing of a loop.
const SHARED: f64 = 0.5;
/// Different couples without which a line cannot be said to bend, where it was read both ways and where it was not.
const BOTH_WAYS: usize = 4;
const ONE_WAY: usize = 5;
/// Two-sided confidence beyond which a bend is no chance.
const NO_CHANCE: f64 = 0.9999;

/// The loop of the kept cycles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hysteresis {
    /// Width in the middle third of the couples over the twist's range, a share: unloading less loading, negative for a loop that
    /// runs backwards.
    pub width: f64,
    /// Energy that a cycle takes, of what loading puts in, a share.
    pub energy: f64,
    /// Standard deviation that chance gives the width, a share.
    pub chance: f64,
}

/// The mean loop of the cycles that were loaded and unloaded; `None` where there is none.
pub(crate) fn hysteresis(
    readings: &Readings<'_>,
    twist: &[Option<f64>],
    kept: &[bool],
    floor: f64,
) -> Option<Hysteresis> {
    let steps = readings.steps();
    let (mut widths, mut energies, mut ranges) = (vec![0.0; CUTS + 1], 0.0, Vec::new());
    let mut count = 0.0;
    for cycle in readings.cycles((0..steps.len()).filter(|step| kept[*step])) {
        let branch = |unloading: bool| -> Vec<[f64; 2]> {
            let of = |step: &usize| steps[*step].cycle == cycle && steps[*step].unloading == unloading;
            let mut points: Vec<[f64; 2]> =
                (0..steps.len()).filter(of).filter_map(|step| Some([steps[step].couple, twist[step]?])).collect();
            points.sort_by(|a, b| a[0].total_cmp(&b[0]));
            points
        };
        let (up, mut down) = (branch(false), branch(true));
        if up.len() < 2 || down.is_empty() {
            continue;
        }
        // The turning point belongs to both.
        let top = up.iter().copied().max_by(|a, b| a[0].abs().total_cmp(&b[0].abs()))?;
        if down.iter().all(|point| (point[0] - top[0]).abs() > 1e-6 * readings.reach()) {
            down.push(top);
            down.sort_by(|a, b| a[0].total_cmp(&b[0]));
        }
        let from = up[0][0].max(down[0][0]);
        let to = up[up.len() - 1][0].min(down[down.len() - 1][0]);
        let range = up.iter().chain(&down).map(|point| (point[1] - top[1]).abs()).fold(0.0, f64::max);
        if to - from < SHARED * readings.reach() || range <= 0.0 {
            continue;
        }
        let sense = if top[0] >= (from + to) / 2.0 { 1.0 } else { -1.0 };
        let mut area = 0.0;
        for (cut, sum) in widths.iter_mut().enumerate() {
            let couple = from + (to - from) * cut as f64 / CUTS as f64;
            let width = (along(&down, couple)? - along(&up, couple)?) * sense;
            *sum += width / range;
            area += width * (to - from) / (CUTS as f64 + 1.0);
        }
        // Over the couple that was there already: the energy above the preload.
        let put_in: f64 =
            up.windows(2).map(|pair| (pair[1][1] - pair[0][1]).abs() * ((pair[0][0] + pair[1][0]) / 2.0).abs()).sum();
        energies += if put_in > 0.0 { area / put_in } else { 0.0 };
        ranges.push(range);
        count += 1.0;
    }
    if count == 0.0 {
        return None;
    }
    // The middle third, where a loop is widest and where no single reading decides.
    let middle = &widths[CUTS / 3..=CUTS - CUTS / 3];
    let width = middle.iter().sum::<f64>() / (count * middle.len() as f64);
    let range = ranges.iter().sum::<f64>() / count;
    Some(Hysteresis { width, energy: energies / count, chance: floor * (2.0 / count).sqrt() / range })
}

/// How much a line bends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curvature {
    /// Slope at the greatest couple less that at the least, over the mean slope: positive, it grows softer.
    pub change: f64,
    /// Student's t of it, over the limit for 0.01 % chance: beyond 1 it is no chance.
    pub beyond_chance: f64,
}

/// The curvature that loading and unloading share; `None` where fewer than four couples were read.
///
/// The curvature is fitted beside the line to what the line leaves over, in the same groups (the theorem of Frisch, Waugh and
/// Lovell, from memory: the same as a fit of both at once). A loop bends loading and unloading against each other, and does
/// not count.
pub(crate) fn curvature(samples: &[Sample], both_ways: bool) -> Option<Curvature> {
    let [least, most] = extremes(samples.iter().map(|sample| sample.x));
    let (middle, half) = ((least + most) / 2.0, (most - least) / 2.0);
    let mut couples: Vec<f64> = samples.iter().map(|sample| sample.x).collect();
    couples.sort_by(f64::total_cmp);
    couples.dedup_by(|a, b| (*a - *b).abs() < 1e-3 * half);
    if couples.len() < if both_ways { BOTH_WAYS } else { ONE_WAY } {
        return None;
    }
    let line = fit_line(samples)?;
    let square = |sample: &Sample| ((sample.x - middle) / half).powi(2);
    let squares: Vec<Sample> = samples.iter().map(|sample| Sample { y: square(sample), ..*sample }).collect();
    let of_squares = fit_line(&squares)?;
    let (mut own, mut along, mut left) = (0.0, 0.0, 0.0);
    for sample in samples {
        let bend = square(sample) - of_squares.at(sample.x, sample.group)?;
        let off = sample.y - line.at(sample.x, sample.group)?;
        own += bend * bend;
        along += bend * off;
        left += off * off;
    }
    let freedom = line.freedom.checked_sub(1).filter(|freedom| *freedom > 0)?;
    if own < 1e-9 || line.slope == 0.0 {
        return None;
    }
    let size = along / own;
    let scatter = ((left - along * along / own).max(0.0) / freedom as f64).sqrt();
    let error = scatter / own.sqrt();
    // y = … + size·u², u from −1 to 1: the slope changes by 4·size over the range, against 2·half·slope.
    let change = 4.0 * size / (line.slope * half);
    let beyond_chance = if error > 0.0 { (size / error).abs() / student(NO_CHANCE, freedom) } else { f64::INFINITY };
    Some(Curvature { change, beyond_chance })
}

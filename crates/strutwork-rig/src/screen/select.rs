//! Which single reading, or which jump, explains most of what a smooth line leaves over.
//!
//! The smooth line has a level for each group, and a slope and a curvature for each direction, so that a loop of friction is
//! not taken for a fault. Candidates enter one at a time, the best first, as long as Student's t of what it takes away is
//! beyond a limit for that many candidates.

use nalgebra::{DMatrix, DVector};

use crate::line::{Sample, extremes, groups, steady_deviation, student};

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// How seldom a sheet without faults may be given one by chance, over all its candidates.
const FALSE_ALARM: f64 = 1e-5;

/// Candidates that enter at most, as a share of the readings.
const MOST: f64 = 0.25;
/// What is left of a candidate's square beside the line, below which the line can follow it by itself.
const FOLLOWED: f64 = 1e-6;
/// Readings of its group that a jump has on either side.
const BESIDE: usize = 2;
/// Different couples of a group without which the smooth line does not tilt, and does not bend, for its direction.
const TILTS: usize = 3;
const BENDS: usize = 4;

/// Something that explains what a smooth line leaves over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Culprit {
    /// The sample at this place, alone, is off by `by`.
    One { at: usize, by: f64 },
    /// From the sample at this place on, to the end of its group, everything is off by `by`.
    From { at: usize, by: f64 },
}

/// What is sought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sought {
    /// Single readings and jumps.
    Both,
    /// Jumps alone.
    Jumps,
}

/// What a search takes into account.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Limits {
    /// Standard deviation that a reading has at least.
    pub(crate) floor: f64,
    /// Smallest size worth a word.
    pub(crate) least: f64,
    /// How many candidates the whole sheet has, over all series.
    pub(crate) candidates: usize,
}

/// The culprits of a series, best first. `unloading` says of each group whether it is one of unloading.
pub(crate) fn culprits(samples: &[Sample], unloading: &[bool], sought: Sought, limits: Limits) -> Vec<Culprit> {
    let count = samples.len();
    let mut columns = smooth(samples, unloading);
    let readings = DVector::from_iterator(count, samples.iter().map(|sample| sample.y));
    let candidates = candidates(samples, sought);
    let mut found: Vec<usize> = Vec::new();
    let most = (MOST * count as f64) as usize;
    while found.len() < most {
        let Some(freedom) = count.checked_sub(columns.len() + 1).filter(|freedom| *freedom > 0) else { break };
        let basis = orthonormal(&columns);
        let left = rest(&readings, &basis);
        let all = left.norm_squared();
        let best = (0..candidates.len())
            .filter(|place| !found.contains(place))
            .map(|place| {
                let (_, column) = &candidates[place];
                let own = rest(column, &basis);
                let size = own.norm_squared();
                // A candidate that the line can follow by itself says nothing.
                if size < FOLLOWED {
                    (place, 0.0, 0.0)
                } else {
                    (place, own.dot(&left).powi(2) / size, own.dot(&left) / size)
                }
            })
            .max_by(|a, b| a.1.total_cmp(&b.1));
        let Some((place, gain, by)) = best else { break };
        let scatter = ((all - gain).max(0.0) / freedom as f64).sqrt().max(limits.floor);
        let limit = student(1.0 - FALSE_ALARM / limits.candidates.max(1) as f64, freedom);
        if by.abs() < limits.least || gain.sqrt() <= limit * scatter {
            break;
        }
        found.push(place);
        columns.push(candidates[place].1.clone());
    }
    sizes(&readings, &columns, &candidates, &found)
}

/// The sizes of all that were found, fitted together.
fn sizes(
    readings: &DVector<f64>,
    columns: &[DVector<f64>],
    candidates: &[(Culprit, DVector<f64>)],
    found: &[usize],
) -> Vec<Culprit> {
    let first = columns.len() - found.len();
    let size = |order: usize| {
        let mut others: Vec<DVector<f64>> = columns.to_vec();
        let own = others.remove(first + order);
        let own = rest(&own, &orthonormal(&others));
        own.dot(readings) / own.norm_squared()
    };
    let with = |(order, place): (usize, &usize)| match candidates[*place].0 {
        Culprit::One { at, .. } => Culprit::One { at, by: size(order) },
        Culprit::From { at, .. } => Culprit::From { at, by: size(order) },
    };
    found.iter().enumerate().map(with).collect()
}

/// How far a series jumps at a sample, as the smooth line with that one jump has it, and the standard error of that; `None`
/// where there is too little on either side.
pub(crate) fn jump_size(samples: &[Sample], unloading: &[bool], at: usize, floor: f64) -> Option<[f64; 2]> {
    let columns = smooth(samples, unloading);
    let jumps = candidates(samples, Sought::Jumps);
    let (_, column) =
        jumps.iter().find(|(culprit, _)| matches!(culprit, Culprit::From { at: own, .. } if *own == at))?;
    let freedom = samples.len().checked_sub(columns.len() + 1).filter(|freedom| *freedom > 1)?;
    let basis = orthonormal(&columns);
    let left = rest(&DVector::from_iterator(samples.len(), samples.iter().map(|sample| sample.y)), &basis);
    let own = rest(column, &basis);
    let size = own.norm_squared();
    if size < FOLLOWED {
        return None;
    }
    let by = own.dot(&left) / size;
    let scatter = ((left.norm_squared() - by * by * size).max(0.0) / freedom as f64).sqrt().max(floor);
    Some([by, scatter / size.sqrt()])
}

/// An orthonormal basis of columns that do not depend on each other.
fn orthonormal(columns: &[DVector<f64>]) -> DMatrix<f64> {
    DMatrix::from_columns(columns).qr().q()
}

/// Standard deviation of readings about the smooth line, robust against single ones; `None` where too few are left.
pub(crate) fn scatter(samples: &[Sample], unloading: &[bool]) -> Option<f64> {
    let columns = smooth(samples, unloading);
    let freedom = samples.len().checked_sub(columns.len()).filter(|freedom| *freedom > 1)?;
    let readings = DVector::from_iterator(samples.len(), samples.iter().map(|sample| sample.y));
    let left = rest(&readings, &orthonormal(&columns));
    Some(steady_deviation(left.iter().copied())? * (samples.len() as f64 / freedom as f64).sqrt())
}

/// What is left of a vector beside an orthonormal basis.
fn rest(vector: &DVector<f64>, basis: &DMatrix<f64>) -> DVector<f64> {
    vector - basis * basis.tr_mul(vector)
}

/// The columns of the smooth line.
fn smooth(samples: &[Sample], unloading: &[bool]) -> Vec<DVector<f64>> {
    let count = samples.len();
    let column = |value: &dyn Fn(&Sample) -> f64| DVector::from_iterator(count, samples.iter().map(value));
    let [least, most] = extremes(samples.iter().map(|sample| sample.x));
    let (middle, half) = ((least + most) / 2.0, ((most - least) / 2.0).max(f64::MIN_POSITIVE));
    let unit = |sample: &Sample| (sample.x - middle) / half;
    let groups = groups(samples);
    let mut columns: Vec<DVector<f64>> =
        groups.iter().map(|&group| column(&|sample: &Sample| if sample.group == group { 1.0 } else { 0.0 })).collect();
    columns.push(column(&unit));
    // A drift in time, and a loop that is not closed, tilt unloading against loading.
    let tilts = |way: bool| groups.iter().any(|&group| unloading[group] == way && different(samples, group) >= TILTS);
    if tilts(false) && tilts(true) {
        columns.push(column(&|s: &Sample| if unloading[s.group] { unit(s) } else { 0.0 }));
    }
    for way in [false, true] {
        let bends = groups.iter().any(|&group| unloading[group] == way && different(samples, group) >= BENDS);
        if bends {
            columns.push(column(&|s: &Sample| if unloading[s.group] == way { unit(s).powi(2) } else { 0.0 }));
        }
    }
    columns
}

/// How many different x a group has.
fn different(samples: &[Sample], group: usize) -> usize {
    let mut values: Vec<f64> = samples.iter().filter(|s| s.group == group).map(|s| s.x).collect();
    values.sort_by(f64::total_cmp);
    values.dedup();
    values.len()
}

/// Every single reading; every jump with two readings of its group on either side.
fn candidates(samples: &[Sample], sought: Sought) -> Vec<(Culprit, DVector<f64>)> {
    let count = samples.len();
    let mut all = Vec::new();
    if sought == Sought::Both {
        for at in 0..count {
            let mut column = DVector::zeros(count);
            column[at] = 1.0;
            all.push((Culprit::One { at, by: 0.0 }, column));
        }
    }
    for at in 0..count {
        let of_group = |place: &usize| samples[*place].group == samples[at].group;
        if (0..at).filter(of_group).count() < BESIDE || (at..count).filter(of_group).count() < BESIDE {
            continue;
        }
        let mut column = DVector::zeros(count);
        (at..count).filter(of_group).for_each(|place| column[place] = 1.0);
        all.push((Culprit::From { at, by: 0.0 }, column));
    }
    all
}

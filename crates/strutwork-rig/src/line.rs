//! Straight lines through readings: one slope, and a level of its own for each group of them.

use statrs::distribution::{ContinuousCDF, StudentsT};

/// Two-sided confidence of every interval that is stated.
pub const CONFIDENCE: f64 = 0.95;

/// A reading: what was set, what was read, and the group whose level it shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// What was set, exact.
    pub x: f64,
    /// What was read.
    pub y: f64,
    /// The group: readings of one group share a level.
    pub group: usize,
}

/// A fitted line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The slope, common to all groups.
    pub slope: f64,
    /// Standard error of the slope.
    pub error: f64,
    /// Standard deviation of the residuals.
    pub scatter: f64,
    /// Degrees of freedom left: readings less groups less 1.
    pub freedom: usize,
    /// Level of each group at x = 0, with the group, in order of group.
    pub levels: Vec<(usize, f64)>,
    /// Share of the variance within groups that the line takes up, R².
    pub taken_up: f64,
    /// Sum over groups of squared distances of x from the group's mean.
    pub spread: f64,
}

impl Line {
    /// What the line says for a reading of a group; `None` for a group that it has not seen.
    pub fn at(&self, x: f64, group: usize) -> Option<f64> {
        on_line(self.slope, &self.levels, x, group)
    }

    /// Half of the two-sided confidence interval of the slope, by Student's t.
    pub fn half_width(&self, confidence: f64) -> f64 {
        student(confidence, self.freedom) * self.error
    }
}

/// A line that a few wild readings do not move.
#[derive(Debug, PartialEq)]
pub struct SteadyLine {
    /// The slope, common to all groups.
    pub slope: f64,
    /// Standard deviation of the residuals, by their median.
    pub scatter: f64,
    /// Level of each group at x = 0, with the group, in order of group.
    pub levels: Vec<(usize, f64)>,
}

impl SteadyLine {
    /// What the line says for a reading of a group; `None` for a group that it has not seen.
    pub fn at(&self, x: f64, group: usize) -> Option<f64> {
        on_line(self.slope, &self.levels, x, group)
    }
}

fn on_line(slope: f64, levels: &[(usize, f64)], x: f64, group: usize) -> Option<f64> {
    let level = levels.iter().find(|(known, _)| *known == group)?.1;
    Some(level + slope * x)
}

/// Ordinary least squares: one slope, a level for each group.
///
/// ```text
/// b = Σ (x − x̄_g)(y − ȳ_g) / Σ (x − x̄_g)²      a_g = ȳ_g − b x̄_g
/// s² = Σ (y − a_g − b x)² / ν,  ν = n − groups − 1      s_b = s / √Σ (x − x̄_g)²
/// ```
///
/// `None` where no group has two different x, or fewer than one degree of freedom is left.
///
/// # Assumes
/// x exact, errors of y independent and alike.
///
/// # Source
/// Derived: the normal equations of a common slope with levels of their own (analysis of covariance). With one group it is
/// simple linear regression.
pub fn fit_line(samples: &[Sample]) -> Option<Line> {
    let groups = groups(samples);
    let of = |group: usize| samples.iter().filter(move |sample| sample.group == group);
    let means: Vec<[f64; 2]> = groups
        .iter()
        .map(|&group| {
            let count = of(group).count() as f64;
            [of(group).map(|s| s.x).sum::<f64>() / count, of(group).map(|s| s.y).sum::<f64>() / count]
        })
        .collect();
    let centred = || {
        samples.iter().map(|sample| {
            let [x, y] = means[groups.binary_search(&sample.group).unwrap_or_default()];
            (sample.x - x, sample.y - y)
        })
    };
    let spread: f64 = centred().map(|(x, _)| x * x).sum();
    let freedom = samples.len().checked_sub(groups.len() + 1).filter(|left| *left > 0)?;
    let largest = samples.iter().fold(0.0_f64, |most, sample| most.max(sample.x.abs()));
    if !spread.is_finite() || spread <= (largest * 1e-9).powi(2) {
        return None;
    }
    let slope = centred().map(|(x, y)| x * y).sum::<f64>() / spread;
    let left: f64 = centred().map(|(x, y)| (y - slope * x).powi(2)).sum();
    let all: f64 = centred().map(|(_, y)| y * y).sum();
    let scatter = (left / freedom as f64).sqrt();
    Some(Line {
        slope,
        error: scatter / spread.sqrt(),
        scatter,
        freedom,
        levels: groups.iter().zip(&means).map(|(&group, [x, y])| (group, y - slope * x)).collect(),
        taken_up: if all > 0.0 { 1.0 - left / all } else { 1.0 },
        spread,
    })
}

/// The factor of a two-sided interval: the quantile of Student's t; infinite without a degree of freedom.
pub fn student(confidence: f64, freedom: usize) -> f64 {
    StudentsT::new(0.0, 1.0, freedom as f64).map_or(f64::INFINITY, |t| t.inverse_cdf(0.5 + confidence / 2.0))
}

/// The middle value; `None` of nothing.
pub fn median(mut values: Vec<f64>) -> Option<f64> {
    values.retain(|value| value.is_finite());
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    match values.len() {
        0 => None,
        odd if odd % 2 == 1 => Some(values[middle]),
        _ => Some((values[middle - 1] + values[middle]) / 2.0),
    }
}

/// Standard deviation of values that lie about 0, by their median, so that a few wild ones do not move it; `None` of nothing.
///
/// 1.4826: the median of absolute deviations of a normal distribution to its standard deviation.
pub(crate) fn steady_deviation(off: impl Iterator<Item = f64>) -> Option<f64> {
    median(off.map(f64::abs).collect()).map(|middle| 1.4826 * middle)
}

/// Least and greatest of some values; ∞ and −∞ of none.
pub(crate) fn extremes(values: impl Iterator<Item = f64>) -> [f64; 2] {
    values.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], value| [least.min(value), most.max(value)])
}

/// The groups of samples, each once, in order.
pub(crate) fn groups(samples: &[Sample]) -> Vec<usize> {
    let mut groups: Vec<usize> = samples.iter().map(|sample| sample.group).collect();
    groups.sort_unstable();
    groups.dedup();
    groups
}

/// A value along points that are sorted by x: linear between them, that of the end beyond it; `None` without a point.
pub(crate) fn along(points: &[[f64; 2]], x: f64) -> Option<f64> {
    match points.partition_point(|point| point[0] < x) {
        0 => points.first().map(|first| first[1]),
        end if end == points.len() => points.last().map(|last| last[1]),
        next => {
            let ([a, va], [b, vb]) = (points[next - 1], points[next]);
            Some(if b > a { va + (vb - va) * (x - a) / (b - a) } else { vb })
        }
    }
}

/// A line that a few wild readings do not move: the median of the slopes of all pairs within groups, the median level of each.
///
/// # Source
/// H. Theil 1950 and P. K. Sen 1968, the median of pairwise slopes (from memory).
pub fn steady_line(samples: &[Sample]) -> Option<SteadyLine> {
    let mut slopes = Vec::new();
    for (place, a) in samples.iter().enumerate() {
        let later = samples[place + 1..].iter().filter(|b| b.group == a.group && b.x != a.x);
        slopes.extend(later.map(|b| (b.y - a.y) / (b.x - a.x)));
    }
    let slope = median(slopes)?;
    let level = |group: usize| {
        let of = samples.iter().filter(|sample| sample.group == group);
        Some((group, median(of.map(|sample| sample.y - slope * sample.x).collect())?))
    };
    let levels: Vec<(usize, f64)> = groups(samples).into_iter().filter_map(level).collect();
    let off = samples.iter().filter_map(|sample| Some(sample.y - on_line(slope, &levels, sample.x, sample.group)?));
    let scatter = steady_deviation(off).unwrap_or(0.0);
    Some(SteadyLine { slope, scatter, levels })
}

//! Lines of twist against couple: loading, unloading and both together, with their intervals.

use crate::line::{CONFIDENCE, Line, Sample, fit_line};
use crate::readings::Readings;

/// Two standard uncertainties of a tolerance beside the 95 % interval of a fit.
///
/// # Source
/// JCGM 100:2008 (GUM), 4.3.7 (a tolerance ±a without more knowledge: a/√3) and 6.3.3 (coverage factor 2); from memory.
const COVER: f64 = 2.0;

/// A torsional stiffness as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// N·m/rad.
    pub stiffness: f64,
    /// 95 % interval of the fit alone, N·m/rad.
    pub by_fit: [f64; 2],
    /// With the tolerances of couple and spacing and the dials' own steps as well, N·m/rad.
    pub interval: [f64; 2],
    /// The line: twist in rad over couple in N·m.
    pub line: Line,
}

/// Which steps a line goes through.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Branch {
    Loading,
    Unloading,
    Both,
}

/// What a fit takes into account.
pub(crate) struct Wanted<'w> {
    /// The group of each step, split at jumps.
    pub(crate) groups: &'w [usize],
    /// Whether each step's cycle is kept.
    pub(crate) kept: &'w [bool],
    /// Standard uncertainty of the slope from the tolerances, as a share.
    pub(crate) tolerance: f64,
    /// Standard deviation that a value has at least, rad.
    pub(crate) floor: f64,
}

/// The samples of a series that a line goes through.
pub(crate) fn samples(
    readings: &Readings<'_>,
    twist: &[Option<f64>],
    branch: Branch,
    wanted: &Wanted<'_>,
) -> Vec<Sample> {
    let steps = readings.steps();
    let fits = |step: usize| match branch {
        Branch::Both => true,
        Branch::Loading => !steps[step].unloading,
        Branch::Unloading => steps[step].unloading,
    };
    let sample = |step: usize| Some(Sample { x: steps[step].couple, y: twist[step]?, group: wanted.groups[step] });
    (0..steps.len()).filter(|step| wanted.kept[*step] && fits(*step)).filter_map(sample).collect()
}

/// The line through a branch; `None` where there is too little.
pub(crate) fn line(
    readings: &Readings<'_>,
    twist: &[Option<f64>],
    branch: Branch,
    wanted: &Wanted<'_>,
) -> Option<Line> {
    fit_line(&samples(readings, twist, branch, wanted))
}

/// Half of the interval of a slope: of the fit, not below what the dials' steps leave open, and the tolerances.
pub(crate) fn half(line: &Line, wanted: &Wanted<'_>) -> f64 {
    let fit = line.half_width(CONFIDENCE).max(COVER * wanted.floor / line.spread.sqrt());
    fit.hypot(COVER * wanted.tolerance * line.slope)
}

/// The stiffness that a line means; `None` for a line that does not rise or fall for sure.
pub(crate) fn measured(line: Line, wanted: &Wanted<'_>) -> Option<Measured> {
    let slope = line.slope.abs();
    let (fit, half) = (line.half_width(CONFIDENCE), half(&line, wanted));
    if half.is_nan() || half >= slope {
        return None;
    }
    let around = |half: f64| [1.0 / (slope + half), 1.0 / (slope - half)];
    Some(Measured { stiffness: 1.0 / slope, by_fit: around(fit), interval: around(half), line })
}

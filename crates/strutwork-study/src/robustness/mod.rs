//! The band of the answers when walls, outsides and joints vary within their tolerances.
//!
//! Many frames are drawn by lot and solved as a whole; beside the band of the torsional stiffness stands what its derivatives
//! say of it, so that each checks the other.

mod draw;
mod linear;
mod statistics;
mod stock;
mod tolerances;

pub use linear::{LinearBand, Swing};
pub(crate) use statistics::percentile;
pub use statistics::{Band, Percentile};
pub use tolerances::{OutsideTolerance, Sharing, Spread, Tolerances};

use rayon::prelude::*;
use strutwork_model::spec::ModelSpec;
use strutwork_model::units::to_nm_per_deg;
use strutwork_model::{Faults, Model};

use crate::sensitivity::SensitivityFault;
use crate::sizing::{Derive, Strength};
use draw::Drawer;

/// What is to be found out.
pub struct BandTask<'a> {
    /// The frame as written.
    pub spec: &'a ModelSpec,
    /// Its load cases, made anew for every frame that is drawn.
    pub derive: &'a Derive<'a>,
    /// How far sizes and places may be off.
    pub tolerances: Tolerances,
    /// The case whose torsional stiffness is read; `None` for none.
    pub twist_case: Option<String>,
    /// Which utilisation is read: `None`, of yield, or of all design checks.
    pub strength: Strength,
    /// How many frames are drawn.
    pub samples: usize,
    /// Where the numbers drawn by lot start.
    pub seed: u64,
}

/// What one frame that was drawn came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    /// Counted from 0.
    pub number: usize,
    /// In the order of the bands; `Err` says why the frame could not be solved.
    pub values: Result<Vec<f64>, String>,
}

/// The bands of all answers.
#[derive(Debug, Clone, PartialEq)]
pub struct BandOutcome {
    /// Tube mass; torsional stiffness and utilisation where asked for.
    pub bands: Vec<Band>,
    /// What derivatives say of the torsional stiffness; `None` where there are none, with the reason among the remarks.
    pub linear: Option<LinearBand>,
    /// Every frame that was drawn.
    pub samples: Vec<Sample>,
    /// What a reader must know.
    pub remarks: Vec<String>,
}

/// Why there is no band.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BandFault {
    /// The nominal frame is faulty.
    #[error("the frame is faulty:\n{0}")]
    Model(Faults),
    /// The nominal frame's cases cannot be made or solved, or lack what is asked for.
    #[error("the frame as it is drawn: {0}")]
    Nominal(String),
    /// A tolerance or count that says no sense.
    #[error("{what} must be {range}, not {value}")]
    OutOfRange {
        /// Which.
        what: &'static str,
        /// As given.
        value: f64,
        /// What it may be.
        range: &'static str,
    },
    /// Derivatives of the nominal frame.
    #[error("{0}")]
    Rates(#[from] SensitivityFault),
}

/// Draws frames and finds the bands.
///
/// The outcome depends on the seed and the task alone: not on the number of threads, and a longer run starts with the same frames.
///
/// # Errors
/// [`BandFault`]. A frame that was drawn and cannot be solved is told among the samples, and counted in the remarks.
pub fn band(task: &BandTask<'_>) -> Result<BandOutcome, BandFault> {
    task.tolerances.check()?;
    if task.samples < 2 {
        let value = task.samples as f64;
        return Err(BandFault::OutOfRange { what: "the number of frames to draw", value, range: "2 or more" });
    }
    let model = strutwork_model::validate::validate(task.spec).map_err(BandFault::Model)?.value;
    let drawer = Drawer::of(task, &model);
    let nominal = drawer.values(task, task.spec).map_err(BandFault::Nominal)?;
    let samples: Vec<Sample> = (0..task.samples)
        .into_par_iter()
        .map(|number| Sample { number, values: drawer.values(task, &drawer.draw(task, number)) })
        .collect();
    let mut remarks = drawer.remarks.clone();
    let unsolved: Vec<&Sample> = samples.iter().filter(|sample| sample.values.is_err()).collect();
    if let Some(Sample { number, values: Err(why) }) = unsolved.first() {
        remarks.push(format!(
            "{} of {} frames could not be solved and are left out; the first, number {number}: {why}",
            unsolved.len(),
            samples.len()
        ));
    }
    let names = task.names();
    let bands = names
        .iter()
        .zip(&nominal)
        .enumerate()
        .map(|(place, (&(name, unit), nominal))| {
            let values = samples.iter().filter_map(|sample| Some(sample.values.as_ref().ok()?[place])).collect();
            Band::of(name, unit, *nominal, values)
        })
        .collect();
    let linear = match &task.twist_case {
        Some(case) => match linear::linear(task, &model, &drawer, case) {
            Ok(band) => Some(band),
            Err(BandFault::Rates(why)) => {
                remarks.push(format!("no linear estimate: {why}"));
                None
            }
            Err(fault) => return Err(fault),
        },
        None => None,
    };
    Ok(BandOutcome { bands, linear, samples, remarks })
}

impl BandTask<'_> {
    /// Names and door units of what is read, in order.
    fn names(&self) -> Vec<(&'static str, &'static str)> {
        let mut names = vec![("tube mass", "kg")];
        if self.twist_case.is_some() {
            names.push(("torsional stiffness", "N·m/deg"));
        }
        if self.strength != Strength::None {
            names.push(("worst utilisation", ""));
        }
        names
    }
}

impl Drawer {
    /// What is read of a frame.
    fn values(&self, task: &BandTask<'_>, spec: &ModelSpec) -> Result<Vec<f64>, String> {
        let model = strutwork_model::validate::validate(spec).map_err(|faults| faults.to_string())?.value;
        let cases = (task.derive)(&model)?;
        let results = strutwork_solve::solve_cases(&model, &cases).map_err(|error| words(&model, &error))?;
        let mut values = vec![model.tubes().ids().map(|tube| model.tube_mass(tube)).sum()];
        if let Some(name) = &task.twist_case {
            let place = cases.0.iter().position(|case| case.name == *name);
            let place = place.ok_or_else(|| format!("there is no load case `{name}`"))?;
            let stiffness = crate::exact::first_twist(&results.cases[place].measures);
            let stiffness = stiffness.ok_or_else(|| format!("the load case `{name}` measures no twist"))?;
            values.push(to_nm_per_deg(stiffness));
        }
        if task.strength != Strength::None {
            values.push(crate::sizing::worst_utilisation(task.strength, &model, &cases, &results));
        }
        Ok(values)
    }
}

/// A solver's reason in words.
fn words(model: &Model, error: &strutwork_solve::SolveError) -> String {
    let reasons = strutwork_solve::explain::explain(model, error).into_iter().map(|reason| reason.message);
    reasons.collect::<Vec<_>>().join("; ")
}

//! Figures that sum a vehicle's frame up: torsional stiffness and its band, what it weighs for that, how much of a shift of
//! roll couple reaches the tyres.

use strutwork_loads::case::Nature;
use strutwork_loads::wheels::roll_model;
use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::Model;
use strutwork_model::model::SoftWhen;
use strutwork_model::units::to_nm_per_deg;
use strutwork_solve::results::{CaseResult, MeasureResult};
use strutwork_solve::{Results, SolveError, solve_cases};

/// Figures of a vehicle's frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// The case that measured the stiffness.
    pub case: String,
    /// Torsional stiffness K, N·m/rad, of the model as it was solved.
    pub stiffness: f64,
    /// K with every joint as the model gives it, and K with the rule for soft joints on as well; N·m/rad. `None` where the
    /// rule is off, or on in every run.
    pub band: Option<Band>,
    /// Mass of the tubes, kg.
    pub frame_mass: f64,
    /// Share of a shift of roll couple between the axles that reaches the tyres, K_c/(K_c + K_s), with K_c = K; `None`
    /// where the model does not give both axles' roll stiffness.
    pub chassis_share: Option<ChassisShare>,
}

/// Where the torsional stiffness lies between rigid joints and the rule for soft ones.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// With the rule for soft joints, N·m/rad.
    pub soft: f64,
    /// With joints as the model gives them, N·m/rad.
    pub rigid: f64,
    /// How many tube ends the rule makes soft.
    pub ends: usize,
}

/// How the frame's stiffness stands beside the roll stiffness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChassisShare {
    /// K_c/(K_c + K_s), 0 to 1.
    pub share: f64,
    /// The axles' roll stiffness in series, K_s, N·m/rad.
    pub in_series: f64,
    /// Roll stiffness of the front and the rear axle, N·m/rad.
    pub axles: [f64; 2],
}

impl Figures {
    /// Grams of tube per N·m/deg of torsional stiffness: a figure to rank frames by.
    ///
    /// # Source
    /// J. Linton, MSc thesis, Cranfield 2002 (abstract read): 88 g per N·m/deg for a production frame, 23 for the best study.
    pub fn grams_per_nm_per_deg(&self) -> f64 {
        self.frame_mass * 1e3 / to_nm_per_deg(self.stiffness)
    }
}

/// The figures of a model whose cases were solved; `None` where no case measured a torsional stiffness.
///
/// Where the options ask for the band, the measuring case is solved once more with the rule for soft joints on. The loads
/// of that case are taken as they are: the rule changes no mass and no geometry.
///
/// # Units and shapes
/// N·m/rad, kg.
///
/// # Errors
/// [`SolveError`] where the frame with soft joints cannot be solved.
///
/// # Source
/// K_c/(K_c + K_s): two-mass roll model (derived; [`strutwork_loads::roll::RollModel`]).
pub fn figures(model: &Model, cases: &LoadCases, results: &Results) -> Result<Option<Figures>, SolveError> {
    let Some((case, stiffness)) = measuring(cases, results) else { return Ok(None) };
    let band = match model.options().soft_joints.when {
        SoftWhen::Band => band(model, case, stiffness)?,
        SoftWhen::Off | SoftWhen::Always => None,
    };
    let frame_mass: f64 = model.tubes().ids().map(|tube| model.tube_mass(tube)).sum();
    Ok(Some(Figures {
        case: case.name.clone(),
        stiffness,
        band,
        frame_mass,
        chassis_share: chassis_share(model, stiffness),
    }))
}

/// The first notional case that measures a twist, or else the first that does, with what it gave.
fn measuring<'c>(cases: &'c LoadCases, results: &Results) -> Option<(&'c LoadCase, f64)> {
    let found: Vec<(&LoadCase, f64)> = cases
        .0
        .iter()
        .zip(&results.cases)
        .filter_map(|(case, result)| measured(result).map(|stiffness| (case, stiffness)))
        .filter(|(_, stiffness)| stiffness.is_finite() && *stiffness > 0.0)
        .collect();
    found.iter().find(|(case, _)| case.nature == Nature::Notional).or_else(|| found.first()).copied()
}

fn measured(result: &CaseResult) -> Option<f64> {
    result.measures.iter().find_map(|measure| match measure {
        MeasureResult::Twist { stiffness, .. } => Some(*stiffness),
        MeasureResult::Movement { .. } => None,
    })
}

fn band(model: &Model, case: &LoadCase, rigid: f64) -> Result<Option<Band>, SolveError> {
    let ends = model.soft_ends().len();
    if ends == 0 {
        return Ok(None);
    }
    let soft = solve_cases(&model.with_soft_joints(), &LoadCases(vec![case.clone()]))?;
    Ok(soft.cases.first().and_then(measured).map(|soft| Band { soft, rigid, ends }))
}

fn chassis_share(model: &Model, stiffness: f64) -> Option<ChassisShare> {
    let vehicle = model.vehicle()?;
    let axles = [vehicle.axles[0].roll_stiffness?, vehicle.axles[1].roll_stiffness?];
    let roll = roll_model(vehicle, Some(stiffness)).ok()?;
    Some(ChassisShare { share: roll.reaching(), in_series: roll.in_series(), axles })
}

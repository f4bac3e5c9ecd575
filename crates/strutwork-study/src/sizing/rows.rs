//! How the limits near their bounds change with the sizes: exact derivatives, carried on by the reciprocals of the properties.
//!
//! ```text
//! use(p) ≈ use(p₀) + Σ ∂use/∂p · p₀ (1 − p₀/p),   p = A, Iy, Iz, J of every variable
//! ```
//!
//! A movement of a statically determinate frame is linear in these reciprocals, so that the estimate is then exact.

use strutwork_model::TubeId;
use strutwork_model::model::Section;
use strutwork_solve::recover::stress;
use strutwork_solve::results::{SectionForces, TubeResult};

use super::frame::{Evaluated, Frame, Limited, Use};
use crate::sensitivity::{Response, SectionRate, SensitivityFault, frequency_rate, section_rates};

/// Limits used by less than this share of the greatest use are not looked at.
const NEAR: f64 = 0.7;
/// No more than this many limits are differentiated at once, the nearest to their bounds first.
const MOST_ROWS: usize = 80;

/// One limit near its bound.
pub(super) struct Row {
    /// Its use now.
    pub use_now: f64,
    /// Change of the use with A, Iy, Iz, J of each variable, by movements and forces alone.
    pub rates: Vec<SectionRate>,
    /// A check of one tube: its variable, and the forces where the tube is stressed most.
    own: Option<(usize, SectionForces)>,
}

/// The limits near their bounds, as functions of the sizes.
pub(super) struct Rows {
    pub rows: Vec<Row>,
    /// Solutions that the derivatives took.
    pub solves: u64,
}

impl Rows {
    /// Differentiates the limits that are near their bounds.
    pub(super) fn of(frame: &Frame<'_>, evaluated: &Evaluated) -> Result<Self, SensitivityFault> {
        let floor = NEAR * evaluated.worst().min(1.0);
        let mut near: Vec<&Use> =
            evaluated.uses.iter().filter(|one| one.ratio >= floor && one.ratio.is_finite()).collect();
        near.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
        near.truncate(MOST_ROWS);
        let (asked, responses): (Vec<usize>, Vec<Response>) =
            near.iter().enumerate().filter_map(|(place, one)| Some((place, response(evaluated, &one.of)?))).unzip();
        let mut rows: Vec<Row> = near
            .iter()
            .map(|one| Row { use_now: one.ratio, rates: Vec::new(), own: own(frame, evaluated, &one.of) })
            .collect();
        let mut solves = 0;
        if !responses.is_empty() {
            let found = section_rates(evaluated.model(), evaluated.solved.cases(), &responses)?;
            solves = found.results.counters.solves;
            for (place, of) in asked.into_iter().zip(&found.responses) {
                let factor = factor(evaluated, near[place]);
                rows[place].rates = of_variables(frame, evaluated, |tube| of.tubes[tube].scaled(factor));
            }
        }
        for (row, one) in rows.iter_mut().zip(&near) {
            if one.of == Limited::Frequency {
                let rates = frequency_rate(evaluated.model())?;
                // use = (least/f)²
                let factor = -2.0 * one.ratio / rates.frequency;
                row.rates = of_variables(frame, evaluated, |tube| rates.tubes[tube].scaled(factor));
            }
        }
        Ok(Self { rows, solves })
    }
}

impl Row {
    /// The use when one variable takes another section, less the use now.
    ///
    /// Of a check it is what the forces bring and, for the tube's own variable, what its new section makes of them.
    pub(super) fn change(&self, variable: usize, from: Option<&Section>, to: Option<&Section>) -> f64 {
        let forces = self.of_forces(variable, from, to);
        let (Some((own, acting)), Some(from), Some(to)) = (&self.own, from, to) else { return forces };
        if *own != variable {
            return forces;
        }
        let stress = |section| stress(section, acting).map_or(f64::NAN, |stress| stress.von_mises);
        let ratio = stress(to) / stress(from);
        if ratio.is_finite() { (self.use_now + forces) * ratio - self.use_now } else { forces }
    }

    fn of_forces(&self, variable: usize, from: Option<&Section>, to: Option<&Section>) -> f64 {
        let Some(rates) = self.rates.get(variable) else { return 0.0 };
        match (from, to) {
            (Some(from), Some(to)) => {
                let [old, new] = [from, to].map(|section| [section.area, section.iy, section.iz, section.j]);
                rates.along(std::array::from_fn(|i| old[i] * (1.0 - old[i] / new[i])))
            }
            // To the first order: what is left out has no reciprocal.
            (Some(from), None) => rates.along([-from.area, -from.iy, -from.iz, -from.j]),
            (None, _) => 0.0,
        }
    }
}

fn response(evaluated: &Evaluated, of: &Limited) -> Option<Response> {
    match *of {
        Limited::Twist { case } => Some(Response::Twist { case }),
        Limited::Movement { case, joint, dof } => Some(Response::Movement { case, joint, dof }),
        Limited::Axial { case, tube, .. } => Some(Response::Stretch { case, tube }),
        Limited::Check { case: Some(case), tube: Some(tube), .. } => stress_response(evaluated, case, tube),
        Limited::Check { .. } | Limited::Frequency => None,
    }
}

/// The change of the greatest stress of a tube with the forces on its ends, as a share of the stress.
fn stress_response(evaluated: &Evaluated, case: usize, tube: TubeId) -> Option<Response> {
    let model = evaluated.model();
    let section = &model.sections()[model.tubes()[tube].section];
    let (at, forces) = most_stressed(&evaluated.solved.case(case).tubes[tube])?;
    let now = stress(section, &forces)?.von_mises;
    let x = at * model.length(tube);
    // A force and a moment that give about this stress: the steps of the differences.
    let force = now * section.area;
    let moment = now * section.wel_y?.min(section.wel_z?);
    let slope = |change: fn(&mut SectionForces) -> &mut f64, size: f64| -> Option<f64> {
        let step = 1e-5 * size;
        let (mut low, mut high) = (forces, forces);
        *change(&mut low) -= step;
        *change(&mut high) += step;
        Some((stress(section, &high)?.von_mises - stress(section, &low)?.von_mises) / (2.0 * step * now))
    };
    let by_n = slope(|f| &mut f.n, force)?;
    let by_vy = slope(|f| &mut f.vy, force)?;
    let by_vz = slope(|f| &mut f.vz, force)?;
    let by_t = slope(|f| &mut f.t, moment)?;
    let by_my = slope(|f| &mut f.my, moment)?;
    let by_mz = slope(|f| &mut f.mz, moment)?;
    // N = −F₁, V = −F, T = −M₁x, My = −M₁y − x F₁z, Mz = −M₁z + x F₁y
    let mut weights = [0.0; 12];
    weights[..6].copy_from_slice(&[-by_n, -by_vy + x * by_mz, -by_vz - x * by_my, -by_t, -by_my, -by_mz]);
    Some(Response::Forces { case, tube, weights })
}

/// Change of a use with its response.
fn factor(evaluated: &Evaluated, one: &Use) -> f64 {
    match one.of {
        // use = least/K
        Limited::Twist { .. } => -one.ratio / one.value,
        Limited::Movement { case, joint, dof } => {
            evaluated.solved.movement(case, joint)[dof.index()].signum() / one.limit
        }
        Limited::Axial { tube, .. } => {
            let youngs = evaluated.model().materials()[evaluated.model().tubes()[tube].material].youngs;
            youngs / evaluated.model().length(tube) / one.limit
        }
        // The response is a share already.
        Limited::Check { .. } => one.ratio,
        Limited::Frequency => 0.0,
    }
}

/// The rates of all tubes of each variable together.
fn of_variables(frame: &Frame<'_>, evaluated: &Evaluated, rate: impl Fn(TubeId) -> SectionRate) -> Vec<SectionRate> {
    let of_variable = |tubes: &[String]| {
        let ids = tubes.iter().filter_map(|name| evaluated.model().tube_named(name));
        ids.map(&rate).fold(SectionRate::default(), SectionRate::plus)
    };
    frame.variables.iter().map(|variable| of_variable(&variable.tubes)).collect()
}

/// The variable of the tube that a check judges, and the forces where the tube is stressed most in that case.
fn own(frame: &Frame<'_>, evaluated: &Evaluated, of: &Limited) -> Option<(usize, SectionForces)> {
    let Limited::Check { case, tube, .. } = of else { return None };
    let (case, tube) = ((*case)?, (*tube)?);
    let name = &evaluated.model().tubes()[tube].name;
    let variable = frame.variables.iter().position(|variable| variable.tubes.contains(name))?;
    Some((variable, most_stressed(&evaluated.solved.case(case).tubes[tube])?.1))
}

/// Where a tube is stressed most, 0 to 1, and the forces there.
fn most_stressed(result: &TubeResult) -> Option<(f64, SectionForces)> {
    let stressed = result.stations.iter().filter_map(|station| Some((station.stress?.von_mises, station)));
    let most = stressed.reduce(|most, other| if other.0 > most.0 { other } else { most });
    most.map(|(_, station)| (station.at, station.forces))
}

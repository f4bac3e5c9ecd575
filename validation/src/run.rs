//! Re-solves a case and sets our values beside the printed ones.

use strutwork_loads::case::{LoadCases, Measure};
use strutwork_loads::{CaseBuilder, LoadError, MassModel, derive_plain};
use strutwork_model::model::{Model, Point, Section};
use strutwork_model::{Faults, JointId, SectionId, TubeId, read_model};
use strutwork_solve::results::{CaseResult, MeasureResult, SectionForces, Stress};
use strutwork_solve::{Results, SolveError, recover, solve_cases};

use crate::case::{Case, Quantity, Seen, Source};
use crate::what::{Component, End, StressComponent, What};

/// A case with our values beside the printed ones.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseReport {
    /// The folder it stands in.
    pub family: String,
    /// Its own folder's name.
    pub name: String,
    /// One line for headings.
    pub title: String,
    /// What a reader must know.
    pub notes: Vec<String>,
    /// Where it comes from.
    pub source: Source,
    /// One for each printed value; ours are missing where `failure` says why.
    pub rows: Vec<Row>,
    /// Why the case could not be solved.
    pub failure: Option<String>,
}

/// A printed value and ours.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What it is a value of.
    pub what: String,
    /// The unit of both values.
    pub unit: &'static str,
    /// As the source prints it.
    pub printed: String,
    /// Ours, in the manner of the printed one; empty where there is none.
    pub computed: String,
    /// Ours less the printed one, in units of the last printed digit; NaN where there is none.
    pub difference: f64,
    /// Greatest difference at which they agree, in units of the last printed digit.
    pub allowed: f64,
    /// `allowed` in the unit of both values, as the case gives it; 0 where it is half a unit of the last digit.
    pub allowance: f64,
    /// Why `allowed` is not one half; empty where it is.
    pub because: String,
    /// The formula behind the printed value; empty for none.
    pub formula: String,
    /// How the printed value came to us.
    pub seen: Seen,
    /// Whether they agree.
    pub agrees: bool,
    /// Why there is no value of ours; empty where there is one.
    pub problem: String,
}

impl CaseReport {
    /// Whether every value agrees.
    pub fn agrees(&self) -> bool {
        self.failure.is_none() && self.rows.iter().all(|row| row.agrees)
    }
}

/// Re-solves a case.
///
/// # Signs and order
/// Rows stand in the order of the case's quantities. A value agrees where it differs by no more than half a unit of the
/// last printed digit, or than what the case allows with its reason.
pub fn run(case: &Case) -> CaseReport {
    let solved = Solved::of(case);
    let rows = case.quantities.iter().map(|quantity| {
        let ours = solved.as_ref().map_err(|_| String::new()).and_then(|solved| solved.value(&quantity.what));
        row(case, quantity, ours)
    });
    CaseReport {
        family: case.family.clone(),
        name: case.name.clone(),
        title: case.title.clone(),
        notes: case.notes.clone(),
        source: case.source.clone(),
        rows: rows.collect(),
        failure: solved.as_ref().err().map(ToString::to_string),
    }
}

/// Room for the rounding of the quotient where a value lies half a unit away.
const ROUNDING: f64 = 1e-6;

fn row(case: &Case, quantity: &Quantity, ours: Result<f64, String>) -> Row {
    let printed = &quantity.printed;
    let ours = ours.map(|value| value / quantity.unit.size);
    let difference = ours.as_ref().map_or(f64::NAN, |value| (value - printed.value()) / printed.last_digit());
    let allowed = quantity.allowed.as_ref().map_or(0.5, |allowed| allowed.difference / printed.last_digit());
    Row {
        what: quantity.what.to_string(),
        unit: quantity.unit.name,
        printed: printed.text().to_owned(),
        computed: ours.as_ref().map_or_else(|_| String::new(), |&value| printed.beside(value)),
        difference,
        allowed,
        allowance: quantity.allowed.as_ref().map_or(0.0, |allowed| allowed.difference),
        because: quantity.allowed.as_ref().map_or_else(String::new, |allowed| allowed.because.clone()),
        formula: quantity.formula.clone(),
        seen: quantity.seen.unwrap_or(case.source.seen),
        agrees: difference.abs() <= allowed + ROUNDING,
        problem: ours.err().unwrap_or_default(),
    }
}

/// Why a case could not be solved.
#[derive(Debug, thiserror::Error)]
enum RunFault {
    #[error("the model: {0}")]
    Model(#[from] Faults),
    #[error("the loads: {0}")]
    Loads(#[from] LoadError),
    #[error("balance by inertia is for cases with loads at joints only")]
    CannotBalance,
    #[error("{0}")]
    Solve(#[from] SolveError),
    #[error("there is no joint `{0}`")]
    Joint(String),
    #[error("there is no load case `{0}`")]
    Case(String),
}

/// A case's model with its results.
struct Solved {
    model: Model,
    mass: MassModel,
    cases: LoadCases,
    /// `None` where no quantity needs a solution.
    results: Option<Results>,
}

impl Solved {
    fn of(case: &Case) -> Result<Self, RunFault> {
        let model = read_model(&case.files)?.value;
        let mass = MassModel::of(&model);
        let mut cases = derive_plain(&model)?;
        if case.balance {
            cases = balanced(&model, &cases)?;
        }
        for quantity in &case.quantities {
            ask(&model, &mut cases, &quantity.what)?;
        }
        let solve = case.quantities.iter().any(|quantity| quantity.what.needs_solution());
        let results = if solve { Some(solve_cases(&model, &cases)?) } else { None };
        Ok(Self { model, mass, cases, results })
    }

    fn value(&self, what: &What) -> Result<f64, String> {
        match what {
            What::Displacement { case, joint, minus_joint, dof } => {
                let moves = &self.result(case)?.1.displacements;
                let of = |joint: &str| Ok::<_, String>(moves[self.joint(joint)?][dof.index()]);
                Ok(of(joint)? - minus_joint.as_deref().map_or(Ok(0.0), of)?)
            }
            What::Reaction { case, joint, dof } => {
                let at = self.joint(joint)?;
                let reactions = &self.result(case)?.1.reactions;
                let found = reactions.iter().find(|(held, _)| *held == at);
                found.map(|(_, force)| force[dof.index()]).ok_or_else(|| format!("joint `{joint}` is not held"))
            }
            What::MemberForce { case, tube, at, component } => {
                let (place, result) = self.result(case)?;
                let tube = self.tube(tube)?;
                let forces = recover::forces_at(&self.model, &self.cases.0[place], result, tube, *at);
                Ok(part(&forces, *component))
            }
            What::EndForce { case, tube, end, component } => {
                // At the `from` end the joint stands on the side that is acted on, at the `to` end on the side that acts.
                let stations = &self.result(case)?.1.tubes[self.tube(tube)?].stations;
                let (station, sign) = match end {
                    End::From => (stations.first(), -1.0),
                    End::To => (stations.last(), 1.0),
                };
                let station = station.ok_or_else(|| "the tube has no stations".to_owned())?;
                Ok(sign * part(&station.forces, *component))
            }
            What::Stress { case, tube, at, component } => {
                let stations = &self.result(case)?.1.tubes[self.tube(tube)?].stations;
                let station = stations.iter().find(|station| station.at == *at);
                let stress = station.and_then(|station| station.stress);
                stress.map(|stress| stress_part(&stress, *component)).ok_or_else(|| "no stress there".to_owned())
            }
            What::Section { section, property } => {
                let (id, row) = self.section(section)?;
                let tube = self.model.tubes().iter().find(|tube| tube.section == id);
                let density = tube.map_or(0.0, |tube| self.model.materials()[tube.material].density);
                property.of(row, density).ok_or_else(|| "the section does not have it".to_owned())
            }
            What::Mass { property } => Ok(property.of(&self.mass)),
            What::Acceleration { case, dof } => {
                let acceleration = self.cases.0[self.result(case)?.0].derivation.acceleration;
                acceleration.map(|six| six[dof.index()]).ok_or_else(|| "the case is not balanced".to_owned())
            }
            What::TorsionalStiffness { case, front, rear, couple } => {
                let (place, result) = self.result(case)?;
                let asked = twist(&self.model, front, rear, *couple).map_err(|fault| fault.to_string())?;
                let measures = self.cases.0[place].measures.iter().zip(&result.measures);
                let found = measures.into_iter().find_map(|(measure, read)| match read {
                    MeasureResult::Twist { stiffness, .. } if *measure == asked => Some(*stiffness),
                    _ => None,
                });
                found.ok_or_else(|| "the twist was not read".to_owned())
            }
        }
    }

    fn result(&self, case: &str) -> Result<(usize, &CaseResult), String> {
        let cases = self.results.as_ref().map_or(&[][..], |results| &results.cases);
        let found = cases.iter().enumerate().find(|(_, result)| result.name == case);
        found.ok_or_else(|| format!("there is no load case `{case}`"))
    }

    fn joint(&self, name: &str) -> Result<JointId, String> {
        joint(&self.model, name).map_err(|fault| fault.to_string())
    }

    fn tube(&self, name: &str) -> Result<TubeId, String> {
        self.model.tube_named(name).ok_or_else(|| format!("there is no tube `{name}`"))
    }

    fn section(&self, name: &str) -> Result<(SectionId, &Section), String> {
        let found = self.model.sections().iter_with_id().find(|(_, section)| section.name == name);
        found.ok_or_else(|| format!("there is no section `{name}`"))
    }
}

fn joint(model: &Model, name: &str) -> Result<JointId, RunFault> {
    model.joint_named(name).ok_or_else(|| RunFault::Joint(name.to_owned()))
}

/// The plain cases again, each brought to balance by the frame's own inertia and held as the model says.
fn balanced(model: &Model, plain: &LoadCases) -> Result<LoadCases, RunFault> {
    let mut cases = LoadCases::default();
    for case in &plain.0 {
        let joints_only = case.tube_loads.is_empty()
            && case.tube_point_loads.is_empty()
            && case.temperatures.is_empty()
            && case.settlements.is_empty();
        if !joints_only {
            return Err(RunFault::CannotBalance);
        }
        let mut builder = CaseBuilder::new(model, &case.name, &case.title, case.nature)?;
        builder.hold_as_model();
        for row in &case.joint_loads {
            let [fx, fy, fz, mx, my, mz] = row.load.0;
            builder.joint_load(row.joint, [fx, fy, fz], [mx, my, mz])?;
        }
        builder.balance()?;
        cases.0.push(builder.finish()?);
    }
    Ok(cases)
}

/// Has a case read off what a quantity needs.
fn ask(model: &Model, cases: &mut LoadCases, what: &What) -> Result<(), RunFault> {
    if let What::TorsionalStiffness { case, front, rear, couple } = what {
        let measure = twist(model, front, rear, *couple)?;
        let found = cases.0.iter_mut().find(|known| known.name == *case);
        found.ok_or_else(|| RunFault::Case(case.clone()))?.measures.push(measure);
    }
    Ok(())
}

fn twist(model: &Model, front: &[String; 2], rear: &[String; 2], couple: f64) -> Result<Measure, RunFault> {
    let pair =
        |[left, right]: &[String; 2]| Ok::<_, RunFault>([joint(model, left)?, joint(model, right)?].map(Point::Joint));
    Ok(Measure::Twist { front: pair(front)?, rear: pair(rear)?, couple })
}

fn part(forces: &SectionForces, component: Component) -> f64 {
    match component {
        Component::N => forces.n,
        Component::Vy => forces.vy,
        Component::Vz => forces.vz,
        Component::T => forces.t,
        Component::My => forces.my,
        Component::Mz => forces.mz,
    }
}

fn stress_part(stress: &Stress, component: StressComponent) -> f64 {
    match component {
        StressComponent::Axial => stress.axial,
        StressComponent::BendingY => stress.bending_y,
        StressComponent::BendingZ => stress.bending_z,
        StressComponent::SigmaMax => stress.sigma_max,
        StressComponent::Torsion => stress.torsion,
    }
}

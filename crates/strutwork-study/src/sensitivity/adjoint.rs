//! The cases that have to be solved beside the frame's own.

use strutwork_loads::case::Nature;
use strutwork_loads::{CaseBuilder, LoadCase, LoadCases};
use strutwork_model::ids::Id;
use strutwork_model::model::{BodyLoad, JointLoad};
use strutwork_model::{DofMap, Model};

use super::{Functional, SensitivityFault};

/// Loads that are a multiple of a functional's weights to this share are that multiple.
const SAME: f64 = 1e-12;

/// Where the adjoint solution of a functional is found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Place {
    /// The case's own solution, times this.
    Own(f64),
    /// Among the added cases.
    Added(usize),
}

/// The cases to solve beside the frame's own, and where each functional finds its solution.
pub(super) struct Adjoints {
    pub cases: Vec<LoadCase>,
    pub places: Vec<Place>,
}

impl Adjoints {
    /// One case for each functional, but for those whose case is loaded by a multiple of their weights, and for those that
    /// another functional has already asked for.
    pub(super) fn of(model: &Model, cases: &LoadCases, functionals: &[Functional]) -> Result<Self, SensitivityFault> {
        let mut adjoints = Self { cases: Vec::new(), places: Vec::with_capacity(functionals.len()) };
        for functional in functionals {
            let case = &cases.0[functional.case];
            let place = match multiple(model, functional, case) {
                Some(scale) => Place::Own(scale),
                None => {
                    let wanted = adjoint(model, functional, case)?;
                    let same = |known: &LoadCase| {
                        known.free == wanted.free
                            && known.supports == wanted.supports
                            && known.joint_loads == wanted.joint_loads
                            && known.body_loads == wanted.body_loads
                    };
                    Place::Added(adjoints.cases.iter().position(same).unwrap_or_else(|| {
                        adjoints.cases.push(wanted);
                        adjoints.cases.len() - 1
                    }))
                }
            };
            adjoints.places.push(place);
        }
        Ok(adjoints)
    }
}

/// The case loaded by a functional's weights, held as its own.
fn adjoint(model: &Model, functional: &Functional, case: &LoadCase) -> Result<LoadCase, SensitivityFault> {
    if case.free {
        let name = format!("response in {}", case.name);
        let mut builder = CaseBuilder::new(model, &name, &name, Nature::Notional).map_err(SensitivityFault::Loads)?;
        for (joint, [fx, fy, fz, mx, my, mz]) in &functional.joints {
            builder.joint_load(*joint, [*fx, *fy, *fz], [*mx, *my, *mz]).map_err(SensitivityFault::Loads)?;
        }
        for (body, [fx, fy, fz, mx, my, mz]) in &functional.bodies {
            builder.body_load(*body, [*fx, *fy, *fz], [*mx, *my, *mz], None).map_err(SensitivityFault::Loads)?;
        }
        builder.balance().map_err(SensitivityFault::Loads)?;
        return builder.finish().map_err(SensitivityFault::Loads);
    }
    let mut adjoint = LoadCase::new(format!("response in {}", case.name), Nature::Notional, case.supports.clone());
    adjoint.joint_loads =
        functional.joints.iter().map(|(joint, weights)| JointLoad { joint: *joint, load: DofMap(*weights) }).collect();
    adjoint.body_loads =
        functional.bodies.iter().map(|(body, weights)| BodyLoad { body: *body, load: DofMap(*weights) }).collect();
    Ok(adjoint)
}

/// The factor that makes a case's solution the adjoint one, where its loads are a multiple of the weights.
fn multiple(model: &Model, functional: &Functional, case: &LoadCase) -> Option<f64> {
    let direct = case.tube_loads.is_empty()
        && case.tube_point_loads.is_empty()
        && case.temperatures.is_empty()
        && case.settlements.is_empty();
    if !direct {
        return None;
    }
    let joints = model.joints().len();
    let gathered = |on_joints: &mut dyn Iterator<Item = (usize, [f64; 6])>| {
        let mut sums = vec![[0.0; 6]; joints + model.bodies().len()];
        for (node, load) in on_joints {
            sums[node].iter_mut().zip(load).for_each(|(sum, part)| *sum += part);
        }
        sums.concat()
    };
    let loads = gathered(
        &mut (case.joint_loads.iter().map(|load| (load.joint.index(), load.load.0)))
            .chain(case.body_loads.iter().map(|load| (joints + load.body.index(), load.load.0))),
    );
    let weights = gathered(
        &mut (functional.joints.iter().map(|(joint, load)| (joint.index(), *load)))
            .chain(functional.bodies.iter().map(|(body, load)| (joints + body.index(), *load))),
    );
    let square: f64 = loads.iter().map(|load| load * load).sum();
    let scale = loads.iter().zip(&weights).map(|(load, weight)| load * weight).sum::<f64>() / square;
    let most = weights.iter().fold(0.0_f64, |most, weight| most.max(weight.abs()));
    let alike = loads.iter().zip(&weights).all(|(load, weight)| (scale * load - weight).abs() <= SAME * most);
    (scale.is_finite() && alike).then_some(scale)
}

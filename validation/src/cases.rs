//! The load cases of a case: those of its load files, and those of forces on wheels.

use strutwork_loads::case::{LoadCases, Measure, Nature};
use strutwork_loads::{CaseBuilder, LoadError, derive_plain};
use strutwork_model::model::{Model, Point};

use crate::case::{Case, How, WheelForce};
use crate::run::RunFault;
use crate::what::CaseWhat;

/// All load cases, with what is to be read off them.
pub(crate) fn derive(case: &Case, model: &Model) -> Result<LoadCases, RunFault> {
    let mut cases = derive_plain(model)?;
    if case.balance {
        cases = balanced(model, &cases)?;
    }
    on_wheels(model, &case.wheel_forces, &mut cases)?;
    for quantity in &case.quantities {
        for (name, result) in quantity.what.of_cases() {
            ask(model, &mut cases, name, result)?;
        }
    }
    Ok(cases)
}

/// The plain cases again, each brought to balance by the frame's own inertia and held as the model says.
fn balanced(model: &Model, plain: &LoadCases) -> Result<LoadCases, RunFault> {
    let mut cases = LoadCases::default();
    for case in &plain.0 {
        let joints_only = case.body_loads.is_empty()
            && case.tube_loads.is_empty()
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

/// Adds the cases of forces on wheels, held as the model says, in the order in which they are first named.
fn on_wheels(model: &Model, forces: &[WheelForce], cases: &mut LoadCases) -> Result<(), RunFault> {
    let mut names: Vec<&str> = Vec::new();
    for force in forces {
        if !names.contains(&force.case.as_str()) {
            names.push(&force.case);
        }
    }
    for name in names {
        if cases.0.iter().any(|known| known.name == name) {
            return Err(RunFault::Loads(LoadError::DuplicateCase { name: name.to_owned() }));
        }
        let mut builder = CaseBuilder::new(model, name, "", Nature::Plain)?;
        builder.hold_as_model();
        for row in forces.iter().filter(|row| row.case == name) {
            match row.how {
                How::Road => builder.wheel_force(row.wheel, row.force)?,
                How::Centre => builder.wheel_centre_force(row.wheel, row.force)?,
                How::Brake => builder.brake_force(row.wheel, row.force[0])?,
                How::Drive => builder.drive_force(row.wheel, row.force[0])?,
            }
        }
        cases.0.push(builder.finish()?);
    }
    Ok(())
}

/// Has a case read off what a result needs.
fn ask(model: &Model, cases: &mut LoadCases, case: &str, result: &CaseWhat) -> Result<(), RunFault> {
    if let CaseWhat::TorsionalStiffness { front, rear, couple } = result {
        let measure = twist(model, front, rear, *couple)?;
        let found = cases.0.iter_mut().find(|known| known.name == case);
        found.ok_or_else(|| RunFault::Case(case.to_owned()))?.measures.push(measure);
    }
    Ok(())
}

/// The measure that reads a torsional stiffness.
pub(crate) fn twist(model: &Model, front: &[String; 2], rear: &[String; 2], couple: f64) -> Result<Measure, RunFault> {
    let place = |name: &str| {
        let joint = model.joint_named(name).ok_or_else(|| RunFault::Joint(name.to_owned()))?;
        Ok::<_, RunFault>(Point::Joint(joint))
    };
    let pair = |[left, right]: &[String; 2]| Ok::<_, RunFault>([place(left)?, place(right)?]);
    Ok(Measure::Twist { front: pair(front)?, rear: pair(rear)?, couple })
}

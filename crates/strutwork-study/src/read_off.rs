//! Responses, read off a solved variant.

use std::sync::Arc;

use strutwork_checks::governing::Standing;
use strutwork_checks::items;
use strutwork_loads::case::Nature;
use strutwork_loads::{CarriedInertia, MassModel, carried_inertia};
use strutwork_model::units::{to_deg, to_mm, to_nm_per_deg};
use strutwork_model::{Dof, JointId, Model};
use strutwork_solve::{BucklingWanted, Modes, ModesWanted, buckling, natural_modes};

use crate::evaluate::{Own, Trouble};
use crate::outcome::Status;
use crate::response::{Asked, MountForce, Needs, Response};
use crate::solved::Solved;
use crate::study::Study;
use crate::value::Value;

/// A solved variant and what else its responses need.
pub struct ReadOff<'a> {
    solved: &'a Arc<Solved>,
    /// N·m/rad.
    twist: Option<f64>,
    modes: Option<Modes>,
}

impl<'a> ReadOff<'a> {
    /// With the torsional stiffness, N·m/rad, where it is known; looks for natural modes where a response asks for one.
    pub(crate) fn new(solved: &'a Arc<Solved>, twist: Option<f64>, needs: &Needs) -> Result<Self, Trouble> {
        let modes = if needs.modes > 0 { Some(modes(solved, needs.modes)?) } else { None };
        Ok(Self { solved, twist, modes })
    }

    /// The answers to all responses, in their order.
    ///
    /// # Errors
    /// [`Trouble`] where something that is asked for is not there, or is no number.
    pub fn all(&self, study: &Study, values: &[Value], own: Option<&dyn Own>) -> Result<Vec<Option<f64>>, Trouble> {
        let mut answers = Vec::with_capacity(study.responses.len());
        for (place, response) in study.responses.iter().enumerate() {
            answers.push(a_number(self.one(place, response, values, own)?, response)?);
        }
        Ok(answers)
    }

    /// The answer to the response at a place.
    pub(crate) fn one(
        &self,
        place: usize,
        response: &Response,
        values: &[Value],
        own: Option<&dyn Own>,
    ) -> Result<Option<f64>, Trouble> {
        match (&response.asked, own) {
            (Asked::Own, Some(own)) => own.respond(place, self.solved, values),
            (asked, _) => self.answer(asked),
        }
    }

    fn answer(&self, asked: &Asked) -> Result<Option<f64>, Trouble> {
        let solved = self.solved;
        Ok(match asked {
            Asked::TubesMass => {
                let model = solved.model();
                Some(model.tubes().ids().map(|tube| model.tube_mass(tube)).sum())
            }
            Asked::TotalMass => Some(MassModel::of(solved.model()).total),
            Asked::TwistStiffness => {
                Some(to_nm_per_deg(self.twist.ok_or_else(|| Trouble::not_there("no load case measures a twist"))?))
            }
            Asked::Frequency(n) => {
                self.modes.as_ref().and_then(|modes| modes.modes.get(n - 1)).map(|mode| mode.frequency)
            }
            Asked::Buckling(case) => lowest_factor(solved, case.as_deref())?,
            Asked::Utilisation(None) => Some(solved.worst_utilisation()),
            Asked::Utilisation(Some(check)) => Some(solved.utilisation_of(check)),
            Asked::OutsideScope => {
                let all = items(solved.design_findings());
                Some(all.iter().filter(|item| item.standing() == Standing::Outside).count() as f64)
            }
            Asked::Movement { case, joint, dof } => {
                let id = joint_named(solved.frame(), joint)?;
                Some(in_door_units(*dof, solved.movement(case_named(solved, case)?, id)[dof.index()]))
            }
            Asked::Mount { case, body, joint, force } => mount(solved, case, body, joint, *force)?,
            Asked::Own => None,
        })
    }
}

/// An answer that is a number, or none.
pub(crate) fn a_number(answer: Option<f64>, response: &Response) -> Result<Option<f64>, Trouble> {
    if answer.is_some_and(f64::is_nan) {
        return Err(Trouble { status: Status::Unsolved, note: format!("`{}` is not a number", response.name) });
    }
    Ok(answer)
}

fn joint_named(frame: &Model, name: &str) -> Result<JointId, Trouble> {
    frame.joint_named(name).ok_or_else(|| Trouble::not_there(format!("there is no joint named `{name}`")))
}

pub(crate) fn in_door_units(dof: Dof, value: f64) -> f64 {
    if dof.is_rotation() { to_deg(value) } else { to_mm(value) }
}

/// The place of a case.
fn case_named(solved: &Solved, name: &str) -> Result<usize, Trouble> {
    let names = || (0..solved.count()).map(|place| solved.case_name(place));
    names().position(|known| known == name).ok_or_else(|| no_case(name, names()))
}

/// A load case that is not there, with the nearest that is.
pub(crate) fn no_case<'n>(name: &str, known: impl Iterator<Item = &'n str>) -> Trouble {
    let nearest = strutwork_model::nearest::nearest(name, known);
    let hint = nearest.map_or_else(String::new, |nearest| format!("; did you mean `{nearest}`?"));
    Trouble::not_there(format!("there is no load case named `{name}`{hint}"))
}

fn mount(solved: &Solved, case: &str, body: &str, joint: &str, force: MountForce) -> Result<Option<f64>, Trouble> {
    let model = solved.model();
    let mounts = &solved.case(case_named(solved, case)?).mounts;
    let at = model
        .mounts()
        .iter_with_id()
        .find(|(_, mount)| model.bodies()[mount.body].name == body && model.joints()[mount.joint].name == joint);
    let (id, _) =
        at.ok_or_else(|| Trouble::not_there(format!("no body named `{body}` is bolted to a joint named `{joint}`")))?;
    let load = &mounts[id];
    let [fx, fy, fz, ..] = load.on_frame;
    Ok(match force {
        MountForce::Force => Some(fx.hypot(fy).hypot(fz)),
        MountForce::Axial => load.axial,
        MountForce::Shear => load.shear,
        MountForce::Moment => Some(load.moment),
    })
}

fn carried(solved: &Solved) -> Result<Vec<CarriedInertia>, Trouble> {
    carried_inertia(solved.model()).map_err(|error| Trouble::from(&error))
}

fn modes(solved: &Solved, count: usize) -> Result<Modes, Trouble> {
    let model = solved.model();
    let wanted = ModesWanted { count, ..ModesWanted::default() };
    let found = natural_modes(model, model.supports(), &carried(solved)?, wanted)
        .map_err(|error| Trouble::of_solving(model, &error))?;
    if found.proof.complete() {
        Ok(found)
    } else {
        Err(Trouble { status: Status::Unsolved, note: format!("natural modes: {}", found.proof.words()) })
    }
}

/// The lowest positive load factor of a case, or of all but notional ones; `None` where nothing is pressed.
fn lowest_factor(solved: &Solved, case: Option<&str>) -> Result<Option<f64>, Trouble> {
    let model = solved.model();
    let carried = carried(solved)?;
    let wanted = BucklingWanted { count: 1, ..BucklingWanted::default() };
    let mut lowest: Option<f64> = None;
    if let Some(name) = case {
        case_named(solved, name)?;
    }
    for (place, acting) in solved.cases().0.iter().enumerate() {
        let asked = case.map_or(acting.nature != Nature::Notional, |name| name == acting.name);
        if asked {
            let found = buckling(model, &acting.supports, &carried, solved.case(place), wanted)
                .map_err(|error| Trouble::of_solving(model, &error))?;
            let factor = found.positive.first().map(|mode| mode.factor);
            lowest = factor.map_or(lowest, |factor| Some(lowest.map_or(factor, |known| known.min(factor))));
        }
    }
    Ok(lowest)
}

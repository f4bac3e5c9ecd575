//! What is asked of each variant, and what is required.

use rhai::FnPtr;
use rhai::plugin::*;
use strutwork_model::Dof;
use strutwork_study::{Asked, Constraint, Limit, MountForce, Response};

use super::StudyHandle;
use crate::api::Raised;
use crate::fault::Fault;
use crate::number::{number, whole};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn add(study: &StudyHandle, name: impl Into<String>, asked: Asked) -> Result<(), Fault> {
    study.add(|described| {
        described.study.responses.push(Response { name: name.into(), asked });
        Ok(())
    })
}

fn add_own(study: &StudyHandle, name: &str, function: FnPtr, takes_values: bool) -> Result<(), Fault> {
    add(study, name, Asked::Own)?;
    study.add(|described| {
        described.answers.insert(described.study.responses.len() - 1, (function, takes_values));
        Ok(())
    })
}

fn bound(study: &StudyHandle, response: &str, limit: Limit) -> Result<(), Fault> {
    study.add(|described| {
        let response = described.study.response(response)?;
        described.study.constraints.push(Constraint { response, limit });
        Ok(())
    })
}

#[export_module]
mod functions {
    use super::*;

    /// Asks for the mass of the tubes. Column `tubes_kg`.
    ///
    /// # Units
    /// kg.
    ///
    /// ```rhai
    /// model().new_study("s").ask_mass();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_mass(study: StudyHandle) -> Result<(), Raised> {
        Ok(add(&study, "tubes_kg", Asked::TubesMass)?)
    }

    /// Asks for the mass of the frame with everything that it carries. Column `total_kg`.
    ///
    /// # Units
    /// kg.
    ///
    /// ```rhai
    /// model().new_study("s").ask_total_mass();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_total_mass(study: StudyHandle) -> Result<(), Raised> {
        Ok(add(&study, "total_kg", Asked::TotalMass)?)
    }

    /// Asks for the torsional stiffness: that of the first load case that measures a twist, otherwise between the spring places.
    /// Column `stiffness_nm_per_deg`.
    ///
    /// # Units
    /// N·m/degree.
    ///
    /// ```rhai
    /// model().new_study("s").ask_stiffness();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_stiffness(study: StudyHandle) -> Result<(), Raised> {
        Ok(add(&study, "stiffness_nm_per_deg", Asked::TwistStiffness)?)
    }

    /// Asks for the frequency of the n-th natural mode besides the rigid ones, counted from 1. Column `frequency_N_hz`.
    ///
    /// # Units
    /// Hz.
    ///
    /// ```rhai
    /// model().new_study("s").ask_frequency(1);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_frequency(study: StudyHandle, n: Dynamic) -> Result<(), Raised> {
        let n = whole("the number of the mode", &n, 1, 500, "a whole number from 1 to 500")?;
        Ok(add(&study, format!("frequency_{n}_hz"), Asked::Frequency(n as usize))?)
    }

    /// Asks for the lowest load factor at which any load case, but for notional ones, buckles the frame. Column
    /// `buckling_factor`, empty where nothing is pressed.
    ///
    /// # Units
    /// Times the loads of the case.
    ///
    /// ```rhai
    /// model().new_study("s").ask_buckling();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_buckling(study: StudyHandle) -> Result<(), Raised> {
        Ok(add(&study, "buckling_factor", Asked::Buckling(None))?)
    }

    /// Asks for the lowest load factor at which one load case buckles the frame. Column `buckling_factor of CASE`.
    ///
    /// # Units
    /// Times the loads of the case.
    ///
    /// ```rhai
    /// model().new_study("s").ask_buckling_of("bending");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_buckling_of(study: StudyHandle, load_case: &str) -> Result<(), Raised> {
        Ok(add(&study, format!("buckling_factor of {load_case}"), Asked::Buckling(Some(load_case.to_owned())))?)
    }

    /// Asks for the worst utilisation over all checks and cases. Columns `utilisation` and `items_outside_scope`.
    ///
    /// * The second counts items that are within their limits, but outside the scope of a clause: they are no pass.
    ///
    /// # Units
    /// Value over limit: above 1 a limit is exceeded.
    ///
    /// ```rhai
    /// model().new_study("s").ask_utilisation();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_utilisation(study: StudyHandle) -> Result<(), Raised> {
        add(&study, "utilisation", Asked::Utilisation(None))?;
        Ok(add(&study, "items_outside_scope", Asked::OutsideScope)?)
    }

    /// Asks for the worst utilisation of one check, such as `D022`. Column `utilisation of D022`.
    ///
    /// # Units
    /// Value over limit: above 1 the limit is exceeded.
    ///
    /// ```rhai
    /// model().new_study("s").ask_utilisation_of("D001");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_utilisation_of(study: StudyHandle, check: &str) -> Result<(), Raised> {
        let codes = strutwork_checks::PAGES.iter().map(|page| page.code);
        if codes.clone().all(|code| code != check) {
            return Err(Fault::unknown("check", check, codes).into());
        }
        Ok(add(&study, format!("utilisation of {check}"), Asked::Utilisation(Some(check.to_owned())))?)
    }

    /// Asks how far a joint moves in a load case: `ux`, `uy`, `uz`, `rx`, `ry` or `rz`, global axes. Column `CASE JOINT uz_mm`.
    ///
    /// # Units
    /// mm, degrees.
    ///
    /// ```rhai
    /// model().new_study("s").ask_movement("bending", "FL", "uz");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_movement(study: StudyHandle, load_case: &str, joint: &str, freedom: &str) -> Result<(), Raised> {
        let known = Dof::ALL.into_iter().map(Dof::name);
        let dof = Dof::from_name(freedom).ok_or_else(|| Fault::unknown("freedom", freedom, known))?;
        let unit = if dof.is_rotation() { "deg" } else { "mm" };
        let asked = Asked::Movement { case: load_case.to_owned(), joint: joint.to_owned(), dof };
        Ok(add(&study, format!("{load_case} {joint} {freedom}_{unit}"), asked)?)
    }

    /// Asks for the load of a bolted joint of a body in a load case: `force`, `axial`, `shear` or `moment`. Column
    /// `CASE BODY JOINT axial_n`.
    ///
    /// * `axial` and `shear` are empty where the bolt's axis is not given.
    ///
    /// # Units
    /// N, N·m.
    ///
    /// ```rhai
    /// let frame = model();
    /// if frame.bodies().len() > 0 { frame.new_study("s").ask_mount("bending", frame.bodies()[0], "FL", "force"); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_mount(study: StudyHandle, load_case: &str, body: &str, joint: &str, part: &str) -> Result<(), Raised> {
        let (force, unit) = match part {
            "force" => (MountForce::Force, "n"),
            "axial" => (MountForce::Axial, "n"),
            "shear" => (MountForce::Shear, "n"),
            "moment" => (MountForce::Moment, "nm"),
            _ => {
                let known = ["force", "axial", "shear", "moment"];
                return Err(Fault::unknown("part of a mount's load", part, known.into_iter()).into());
            }
        };
        let asked = Asked::Mount { case: load_case.to_owned(), body: body.to_owned(), joint: joint.to_owned(), force };
        Ok(add(&study, format!("{load_case} {body} {joint} {part}_{unit}"), asked)?)
    }

    /// Asks what a function of the script makes of the results: it is called with the `Results` of each variant, and gives a
    /// number, or `()` for none. The column has this name: let it say the unit.
    ///
    /// * Variants run side by side: what the function writes into variables outside itself is lost.
    ///
    /// # Units
    /// The script's own.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.ask("worst_mpa", |r| r.worst_tube("bending").von_mises_mpa);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask(study: StudyHandle, name: &str, function: FnPtr) -> Result<(), Raised> {
        Ok(add_own(&study, name, function, false)?)
    }

    /// As `ask`, for a function that takes the values of the variant too, a map from the names of the parameters.
    ///
    /// # Units
    /// The script's own.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.ask_with_values("worst_mpa", |r, v| r.worst_tube("bending").von_mises_mpa);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn ask_with_values(study: StudyHandle, name: &str, function: FnPtr) -> Result<(), Raised> {
        Ok(add_own(&study, name, function, true)?)
    }

    /// Requires a response to be at least so much. A variant that keeps everything that is required is feasible.
    ///
    /// # Units
    /// Those of the response.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.ask_stiffness();
    /// s.at_least("stiffness_nm_per_deg", 1000);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn at_least(study: StudyHandle, response: &str, least: Dynamic) -> Result<(), Raised> {
        Ok(bound(&study, response, Limit::AtLeast(number("the bound", &least)?))?)
    }

    /// Requires a response to be at most so much.
    ///
    /// # Units
    /// Those of the response.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.ask_utilisation();
    /// s.at_most("utilisation", 1);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn at_most(study: StudyHandle, response: &str, most: Dynamic) -> Result<(), Raised> {
        Ok(bound(&study, response, Limit::AtMost(number("the bound", &most)?))?)
    }
}

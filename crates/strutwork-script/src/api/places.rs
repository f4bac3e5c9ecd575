//! Places of the vehicle at which standard cases act: anchorages, hoops, towing eye, jacking points.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_loads::build;
use strutwork_model::model::{Carrier, Place, Role};
use strutwork_model::units::to_mm;

use super::Raised;
use crate::fault::Fault;
use crate::handle::{Case, Frame};
use crate::number::{Named, map, names, optional};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const FORCE: [&str; 3] = ["fx_n", "fy_n", "fz_n"];
const MOMENT: [&str; 3] = ["mx_nm", "my_nm", "mz_nm"];
const LOAD: &[&str] = &["fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm"];

fn role(word: &str) -> Result<Role, Fault> {
    Role::from_word(word).ok_or_else(|| Fault::unknown("role of a place", word, Role::ALL.into_iter().map(Role::word)))
}

fn entry(model: &strutwork_model::Model, place: &Place) -> Map {
    let [x, y, z] = place.at.map(to_mm);
    let mut data = map([("x_mm", x), ("y_mm", y), ("z_mm", z)]);
    data.insert("name".into(), place.name.clone().into());
    data.insert("role".into(), place.role.word().into());
    data.insert("group".into(), place.group.clone().into());
    data.insert("mass_kg".into(), optional(place.mass));
    let joints = match &place.carrier {
        Carrier::Joints(joints) => names(joints.iter().map(|&joint| model.joints()[joint].name.as_str())),
        Carrier::Body(_) | Carrier::Upright(_) => Array::new(),
    };
    data.insert("joints".into(), joints.into());
    data
}

#[export_module]
mod functions {
    use super::*;

    /// The places with a role, as an array of maps: `name`, `role`, `group`, `joints`, `x_mm`, `y_mm`, `z_mm`, `mass_kg`.
    ///
    /// * Roles: `lap-belt`, `shoulder-belt`, `seat`, `main-hoop`, `front-hoop`, `towing-eye`, `jack`.
    /// * `joints` is empty for a place on a body; `mass_kg` is `()` where the model gives none.
    ///
    /// # Units
    /// Places in mm, masses in kg.
    ///
    /// ```rhai
    /// for place in model().places("jack") { print(place.name); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn places(frame: Frame, role: &str) -> Result<Array, Raised> {
        let role = super::role(role)?;
        let model = frame.model()?;
        Ok(build::places(&model, Some(role), None).map(|place| Dynamic::from(entry(&model, place))).collect())
    }

    /// A force and a moment at a place, onto the joints or the body that carry it, global axes.
    ///
    /// # Units
    /// `fx_n`, `fy_n`, `fz_n` in N; `mx_nm`, `my_nm`, `mz_nm` in N·m. What is not given is zero.
    ///
    /// ```rhai
    /// let frame = model();
    /// let c = frame.new_case("jacked", "", "notional");
    /// for place in frame.places("jack") { c.place_force(place.name, #{ fz_n: 1500 }); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn place_force(handle: Case, place: &str, load: Map) -> Result<(), Raised> {
        let load = Named::new("place_force", &load, LOAD)?;
        let (force, moment) = (load.vector(FORCE)?, load.vector(MOMENT)?);
        Ok(handle.add("place_force", |case| Ok(case.place_force(place, force, moment)?))?)
    }
}

//! What bolts, links and panels carry, and what each tube sees over all cases.

use rhai::Map;
use rhai::plugin::*;
use strutwork_model::Model;
use strutwork_model::model::{Suspension, Wheel};
use strutwork_model::units::{to_deg, to_mm, to_mpa};
use strutwork_model::{BodyId, PanelId};
use strutwork_solve::quantity::Quantity;

use super::Raised;
use super::models::{joint_named, tube_named};
use crate::fault::Fault;
use crate::handle::{Solved, SolvedRun};
use crate::number::{map, optional};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn body_named(model: &Model, name: &str) -> Result<BodyId, Fault> {
    let known = || model.bodies().iter().map(|body| body.name.as_str());
    model.body_named(name).ok_or_else(|| Fault::unknown("body", name, known()))
}

fn panel_named(model: &Model, name: &str) -> Result<PanelId, Fault> {
    let known = || model.panels().iter().map(|panel| panel.name.as_str());
    model.panel_named(name).ok_or_else(|| Fault::unknown("panel", name, known()))
}

/// The place of a link among its corner's links.
fn link_named(model: &Model, wheel: &str, link: &str) -> Result<(Wheel, usize), Fault> {
    let wheels = || Wheel::ALL.into_iter().map(Wheel::name);
    let wheel = Wheel::from_name(wheel).ok_or_else(|| Fault::unknown("wheel", wheel, wheels()))?;
    let links = match model.vehicle().map(|vehicle| &vehicle.corner(wheel).suspension) {
        Some(Suspension::Linked(links)) => links.as_slice(),
        Some(Suspension::Rigid(_)) | None => &[],
    };
    let place = links.iter().position(|known| known.name == link);
    let place = place.ok_or_else(|| Fault::unknown("link", link, links.iter().map(|link| link.name.as_str())))?;
    Ok((wheel, place))
}

/// A quantity by its key.
fn quantity_named(key: &str) -> Result<Quantity, Fault> {
    let found = Quantity::ALL.into_iter().find(|quantity| quantity.key() == key);
    found.ok_or_else(|| Fault::unknown("quantity of a tube", key, Quantity::ALL.into_iter().map(Quantity::key)))
}

/// The least and the greatest of a quantity over all cases, each with its case.
fn envelope_of(run: &SolvedRun, tube: &str, name: &str) -> Result<Map, Fault> {
    let id = tube_named(run.model(), tube)?;
    let quantity = quantity_named(name)?;
    let door = |value: f64| if quantity.is_stress() { to_mpa(value) } else { value };
    let mut ends: Option<[(f64, &str); 2]> = None;
    for case in (0..run.count()).map(|place| run.0.case(place)) {
        for found in case.tubes[id].stations.iter().filter_map(|station| quantity.at(station)).map(door) {
            let here = (found, case.name.as_str());
            let [least, greatest] = ends.get_or_insert([here, here]);
            if found < least.0 {
                *least = here;
            }
            if found > greatest.0 {
                *greatest = here;
            }
        }
    }
    let [least, greatest] =
        ends.ok_or_else(|| Fault::NoResult { case: "any".to_owned(), what: "value of that kind in that tube" })?;
    let mut data = map([("least", least.0), ("greatest", greatest.0)]);
    data.insert("least_case".into(), least.1.into());
    data.insert("greatest_case".into(), greatest.1.into());
    Ok(data)
}

#[export_module]
mod functions {
    use super::*;

    /// What a body exerts on the frame through one of its bolts in a case.
    ///
    /// * `axial_n` and `shear_n` are `()` where the model gives no axis of the bolt.
    /// * A joint at which the body has no bolt stops the script.
    ///
    /// # Units
    /// `fx_n`, `fy_n`, `fz_n`, `axial_n`, `shear_n` in N; `mx_nm`, `my_nm`, `mz_nm`, `moment_nm` in N·m; global axes.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// for body in frame.bodies() { print(r.mount("bending", body, "FL").shear_n); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn mount(results: Solved, load_case: &str, body: &str, joint: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let (body, joint) = (body_named(run.model(), body)?, joint_named(run.model(), joint)?);
        let bolts = &run.model().bodies()[body].mounts;
        let bolt = bolts.iter().find(|mount| run.model().mounts()[**mount].joint == joint);
        let missing = || Fault::NoResult { case: load_case.to_owned(), what: "bolt of that body at that joint" };
        let load = run.case(load_case)?.mounts[*bolt.ok_or_else(missing)?];
        let [fx, fy, fz, mx, my, mz] = load.on_frame;
        let mut data = map([
            ("fx_n", fx),
            ("fy_n", fy),
            ("fz_n", fz),
            ("mx_nm", mx),
            ("my_nm", my),
            ("mz_nm", mz),
            ("moment_nm", load.moment),
        ]);
        data.insert("axial_n".into(), optional(load.axial));
        data.insert("shear_n".into(), optional(load.shear));
        Ok(data)
    }

    /// How a body moves in a case, at its reference point, the mean of its bolts.
    ///
    /// # Units
    /// `ux_mm`, `uy_mm`, `uz_mm` in mm; `rx_deg`, `ry_deg`, `rz_deg` in degrees; global axes.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// for body in frame.bodies() { print(r.body_movement("bending", body).uz_mm); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn body_movement(results: Solved, load_case: &str, body: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let [ux, uy, uz, rx, ry, rz] = run.case(load_case)?.bodies[body_named(run.model(), body)?];
        Ok(map([
            ("ux_mm", to_mm(ux)),
            ("uy_mm", to_mm(uy)),
            ("uz_mm", to_mm(uz)),
            ("rx_deg", to_deg(rx)),
            ("ry_deg", to_deg(ry)),
            ("rz_deg", to_deg(rz)),
        ]))
    }

    /// The force of a suspension link in a case.
    ///
    /// * `force_n` is `()` for a pivot or a guide, which has no force along its ends.
    ///
    /// # Units
    /// `force_n` along the link, tension positive; `fx_n`, `fy_n`, `fz_n` what it exerts on the frame, N, global axes.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// // print(r.link("bending", "front-left", "spring").force_n);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn link(results: Solved, load_case: &str, wheel: &str, link: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let (wheel, place) = link_named(run.model(), wheel, link)?;
        run.case(load_case)?;
        let case = run.cases().0.iter().find(|case| case.name == load_case);
        let force = case
            .and_then(|case| {
                case.derivation.link_forces.iter().find(|force| force.wheel == wheel && force.link == place)
            })
            .ok_or_else(|| Fault::NoResult { case: load_case.to_owned(), what: "force in that link" })?;
        let [fx, fy, fz] = force.on_frame;
        let mut data = map([("fx_n", fx), ("fy_n", fy), ("fz_n", fz)]);
        data.insert("force_n".into(), optional(force.axial));
        Ok(data)
    }

    /// The shear of a panel in a case.
    ///
    /// * `buckling_ratio` above 1: the panel buckles, and the linear answer of the case no longer holds.
    /// * `fastener_n` and `bond_mpa` are `()` where the panel is not fixed so.
    ///
    /// # Units
    /// `flow_n_per_mm` in N/mm; `stress_mpa`, `buckling_mpa`, `bond_mpa` in MPa; `fastener_n` in N; the ratio is stress over
    /// buckling stress.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("twist"));
    /// for panel in frame.panels() { print(r.panel("twist", panel).buckling_ratio); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn panel(results: Solved, load_case: &str, panel: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let shear = &run.case(load_case)?.panels[panel_named(run.model(), panel)?];
        let mut data = map([
            ("flow_n_per_mm", shear.flow / 1e3),
            ("stress_mpa", to_mpa(shear.stress)),
            ("buckling_mpa", to_mpa(shear.buckling_stress)),
            ("buckling_ratio", shear.buckling_ratio),
        ]);
        data.insert("fastener_n".into(), optional(shear.fastener));
        data.insert("bond_mpa".into(), optional(shear.bond_stress.map(to_mpa)));
        Ok(data)
    }

    /// The least and the greatest value of a quantity along a tube over all solved cases: `least`, `least_case`, `greatest`,
    /// `greatest_case`.
    ///
    /// * Quantities: `n_n`, `vy_n`, `vz_n`, `t_nm`, `my_nm`, `mz_nm`, `sigma_max_mpa`, `von_mises_mpa`.
    ///
    /// # Units
    /// As the quantity's name says: N, N·m, MPa.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.standard_cases());
    /// let n = r.envelope("rail-left", "n_n");
    /// print(`${fixed(n.least, 0)} N in ${n.least_case} to ${fixed(n.greatest, 0)} N in ${n.greatest_case}`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn envelope(results: Solved, tube: &str, quantity: &str) -> Result<Map, Raised> {
        Ok(envelope_of(&results.0, tube, quantity)?)
    }
}

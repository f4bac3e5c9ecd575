//! Forces, moments and temperatures at joints and along tubes.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_loads::build::freedoms;
use strutwork_model::model::Axes;
use strutwork_model::units::{DEG, MM};

use super::Raised;
use crate::fault::Fault;
use crate::handle::{Builder, Case};
use crate::number::{Named, number, text};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const FORCE: [&str; 3] = ["fx_n", "fy_n", "fz_n"];
const MOMENT: [&str; 3] = ["mx_nm", "my_nm", "mz_nm"];
const LOAD: &[&str] = &["fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm"];
const LINE: [&str; 3] = ["wx_n_per_m", "wy_n_per_m", "wz_n_per_m"];
const LINE_TO: [&str; 3] = ["wx_to_n_per_m", "wy_to_n_per_m", "wz_to_n_per_m"];
const LINES: &[&str] = &["wx_n_per_m", "wy_n_per_m", "wz_n_per_m", "wx_to_n_per_m", "wy_to_n_per_m", "wz_to_n_per_m"];
const SPREAD: &[&str] = &["fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm", "x_mm", "y_mm", "z_mm"];
const HEAT: &[&str] = &["rise_k", "gradient_y_k_per_m", "gradient_z_k_per_m"];

fn axes_named(name: &str) -> Result<Axes, Fault> {
    match name {
        "local" => Ok(Axes::Local),
        "global" => Ok(Axes::Global),
        _ => Err(Fault::unknown("axes", name, ["local", "global"].into_iter())),
    }
}

/// Joints by their names.
fn joints(case: &Builder, names: &Array) -> Result<Vec<strutwork_model::JointId>, Fault> {
    names.iter().map(|name| Ok(case.joint(&text("the name of a joint", name)?)?)).collect()
}

#[export_module]
mod functions {
    use super::*;

    /// A force and a moment at a joint, global axes.
    ///
    /// # Units
    /// `fx_n`, `fy_n`, `fz_n` in N; `mx_nm`, `my_nm`, `mz_nm` in N·m. What is not given is zero.
    ///
    /// ```rhai
    /// let c = model().new_case("push", "", "notional");
    /// c.joint_load("FL", #{ fz_n: -500, mx_nm: 12.5 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn joint_load(handle: Case, joint: &str, load: Map) -> Result<(), Raised> {
        let load = Named::new("joint_load", &load, LOAD)?;
        let (force, moment) = (load.vector(FORCE)?, load.vector(MOMENT)?);
        Ok(handle.add("joint_load", |case| {
            let joint = case.joint(joint)?;
            Ok(case.joint_load(joint, force, moment)?)
        })?)
    }

    /// A force and a moment on a body, global axes.
    ///
    /// * The force acts at the point given by all three of `x_mm`, `y_mm`, `z_mm`; without them at the body's reference point,
    ///   the mean of its bolts.
    ///
    /// # Units
    /// `fx_n`, `fy_n`, `fz_n` in N; `mx_nm`, `my_nm`, `mz_nm` in N·m; `x_mm`, `y_mm`, `z_mm` in mm.
    ///
    /// ```rhai
    /// let frame = model();
    /// let c = frame.new_case("torque", "", "notional");
    /// for body in frame.bodies() { c.body_load(body, #{ my_nm: 120 }); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn body_load(handle: Case, body: &str, load: Map) -> Result<(), Raised> {
        let load = Named::new("body_load", &load, SPREAD)?;
        let (force, moment) = (load.vector(FORCE)?, load.vector(MOMENT)?);
        let place = [load.number("x_mm")?, load.number("y_mm")?, load.number("z_mm")?];
        let at = match place {
            [None, None, None] => None,
            [Some(x), Some(y), Some(z)] => Some([x, y, z].map(|mm| mm * MM)),
            _ => {
                let missing = ["x_mm", "y_mm", "z_mm"].into_iter().zip(place).find(|(_, value)| value.is_none());
                let key = missing.map_or("x_mm", |(key, _)| key);
                return Err(Fault::MissingKey { function: "body_load", key }.into());
            }
        };
        Ok(handle.add("body_load", |case| {
            let body = case.body(body)?;
            Ok(case.body_load(body, force, moment, at)?)
        })?)
    }

    /// A force and a moment that act at a point and are carried by several joints, shared statically equivalent with equal
    /// weights.
    ///
    /// * What joints on one line cannot take as forces, the moment about that line, they take as equal moments.
    ///
    /// # Units
    /// `x_mm`, `y_mm`, `z_mm` of the point in mm; `fx_n`, `fy_n`, `fz_n` in N; `mx_nm`, `my_nm`, `mz_nm` in N·m.
    ///
    /// ```rhai
    /// let c = model().new_case("crate", "", "notional");
    /// c.spread_load(["FL", "FR", "RL", "RR"], #{ fz_n: -800, x_mm: 900, z_mm: 400 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn spread_load(handle: Case, joints: Array, load: Map) -> Result<(), Raised> {
        let load = Named::new("spread_load", &load, SPREAD)?;
        let (force, moment) = (load.vector(FORCE)?, load.vector(MOMENT)?);
        let at = load.vector(["x_mm", "y_mm", "z_mm"])?.map(|mm| mm * MM);
        Ok(handle.add("spread_load", |case| {
            let joints = super::joints(case, &joints)?;
            Ok(case.spread_load(force, moment, at, &joints)?)
        })?)
    }

    /// A load along a tube: uniform, or linear to the values named `…_to_…` at its far end.
    ///
    /// * `axes` is `global`, or `local` for the tube's own.
    /// * A value without its `_to` companion is uniform.
    ///
    /// # Units
    /// `wx_n_per_m`, `wy_n_per_m`, `wz_n_per_m`, `wx_to_n_per_m`, `wy_to_n_per_m`, `wz_to_n_per_m` in N per metre of tube.
    ///
    /// ```rhai
    /// let c = model().new_case("shelf", "", "notional");
    /// c.tube_load("rail-left", "global", #{ wz_n_per_m: -200 });
    /// c.tube_load("rail-right", "global", #{ wz_n_per_m: -200, wz_to_n_per_m: 0 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tube_load(handle: Case, tube: &str, axes: &str, load: Map) -> Result<(), Raised> {
        let load = Named::new("tube_load", &load, LINES)?;
        let from = load.vector(LINE)?;
        let mut to = from;
        for (end, key) in to.iter_mut().zip(LINE_TO) {
            *end = load.number(key)?.unwrap_or(*end);
        }
        let axes = axes_named(axes)?;
        Ok(handle.add("tube_load", |case| {
            let tube = case.tube(tube)?;
            Ok(case.tube_load(tube, axes, from, to)?)
        })?)
    }

    /// A force and a moment at a place along a tube.
    ///
    /// * `at` is 0 at the tube's `from` end and 1 at its `to` end.
    /// * `axes` is `global`, or `local` for the tube's own.
    ///
    /// # Units
    /// `at` is a share of the length; `fx_n`, `fy_n`, `fz_n` in N; `mx_nm`, `my_nm`, `mz_nm` in N·m.
    ///
    /// ```rhai
    /// let c = model().new_case("foot", "", "notional");
    /// c.tube_point_load("rail-left", "global", 0.5, #{ fz_n: -900 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tube_point_load(handle: Case, tube: &str, axes: &str, at: Dynamic, load: Map) -> Result<(), Raised> {
        let at = number("the place along the tube", &at)?;
        let load = Named::new("tube_point_load", &load, LOAD)?;
        let (force, moment) = (load.vector(FORCE)?, load.vector(MOMENT)?);
        let axes = axes_named(axes)?;
        Ok(handle.add("tube_point_load", |case| {
            let tube = case.tube(tube)?;
            Ok(case.tube_point_load(tube, axes, at, force, moment)?)
        })?)
    }

    /// A change of a tube's temperature.
    ///
    /// # Units
    /// `rise_k` in K; `gradient_y_k_per_m`, `gradient_z_k_per_m` along the tube's own y and z in K/m, positive where the
    /// + side is hotter.
    ///
    /// ```rhai
    /// let c = model().new_case("exhaust", "", "notional");
    /// c.temperature("rail-right", #{ rise_k: 40, gradient_z_k_per_m: 300 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn temperature(handle: Case, tube: &str, change: Map) -> Result<(), Raised> {
        let change = Named::new("temperature", &change, HEAT)?;
        let rise = change.or_zero("rise_k")?;
        let gradients = [change.or_zero("gradient_y_k_per_m")?, change.or_zero("gradient_z_k_per_m")?];
        Ok(handle.add("temperature", |case| {
            let tube = case.tube(tube)?;
            Ok(case.temperature(tube, rise, gradients)?)
        })?)
    }

    /// Moves a freedom of a joint that the case holds fixed.
    ///
    /// # Units
    /// `value` in mm for `ux`, `uy`, `uz`; in degrees for `rx`, `ry`, `rz`.
    ///
    /// ```rhai
    /// let c = model().new_case("sinking foot", "", "notional");
    /// c.hold("RL", "ux uy uz rx ry rz");
    /// c.settle("RL", "uz", -2);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn settle(handle: Case, joint: &str, freedom: &str, value: Dynamic) -> Result<(), Raised> {
        let value = number("the movement", &value)?;
        Ok(handle.add("settle", |case| {
            let joint = case.joint(joint)?;
            for dof in freedoms(freedom)? {
                case.settle(joint, dof, value * if dof.is_rotation() { DEG } else { MM })?;
            }
            Ok(())
        })?)
    }
}

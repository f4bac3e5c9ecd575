//! Gravity, inertia, and the balance of a free vehicle.

use rhai::Map;
use rhai::plugin::*;
use strutwork_model::units::{STANDARD_GRAVITY, to_deg};

use super::Raised;
use crate::handle::Case;
use crate::number::{Named, map, number};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const G: [&str; 3] = ["ax_g", "ay_g", "az_g"];
const BODY: [&str; 3] = ["x_g", "y_g", "z_g"];

#[export_module]
mod functions {
    use super::*;

    /// A body force on every tube and every mass, along global axes.
    ///
    /// # Units
    /// `x_g`, `y_g`, `z_g` in g, 9.80665 m/s². What is not given is zero.
    ///
    /// ```rhai
    /// let c = model().new_case("on its side", "", "notional");
    /// c.act(#{ y_g: -1 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn act(handle: Case, field: Map) -> Result<(), Raised> {
        let field = Named::new("act", &field, &BODY)?.vector(BODY)?.map(|g| g * STANDARD_GRAVITY);
        Ok(handle.add("act", |case| Ok(case.act(field)?))?)
    }

    /// The weight of every tube and every mass, downwards, times a factor.
    ///
    /// # Units
    /// `times` is a multiplier.
    ///
    /// ```rhai
    /// let c = model().new_case("standing", "", "physical");
    /// c.gravity(1);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn gravity(handle: Case, times: Dynamic) -> Result<(), Raised> {
        let times = number("the multiple of gravity", &times)?;
        Ok(handle.add("gravity", |case| Ok(case.gravity(times)?))?)
    }

    /// The inertia of a steady acceleration of the whole vehicle: every tube and every mass resists with −m·a.
    ///
    /// # Units
    /// `ax_g` forward, `ay_g` to the left, `az_g` up, in g. What is not given is zero.
    ///
    /// ```rhai
    /// let c = model().new_case("bend to the left", "", "physical");
    /// c.accelerate(#{ ay_g: 0.8 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn accelerate(handle: Case, acceleration: Map) -> Result<(), Raised> {
        let acceleration = Named::new("accelerate", &acceleration, &G)?.vector(G)?.map(|g| g * STANDARD_GRAVITY);
        Ok(handle.add("accelerate", |case| Ok(case.accelerate(acceleration)?))?)
    }

    /// Balances the case by the vehicle's own inertia: six accelerations that bring everything applied to zero. Call it
    /// when everything else acts.
    ///
    /// * Gives the accelerations that were missing, which are zero where the case was balanced.
    /// * An acceleration that surprises is a sign of a wrong load, a wrong mass or a wrong place.
    ///
    /// # Units
    /// `ax_g`, `ay_g`, `az_g` in g; `rx_deg_per_s2`, `ry_deg_per_s2`, `rz_deg_per_s2` in degrees/s².
    ///
    /// ```rhai
    /// let c = model().new_case("kick", "", "physical");
    /// c.wheel_force("front-left", #{ fz_n: 4000 });
    /// c.hold_vehicle();
    /// print(c.balance().az_g);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn balance(handle: Case) -> Result<Map, Raised> {
        let [ax, ay, az, rx, ry, rz] = handle.add("balance", |case| Ok(case.balance()?))?;
        Ok(map([
            ("ax_g", ax / STANDARD_GRAVITY),
            ("ay_g", ay / STANDARD_GRAVITY),
            ("az_g", az / STANDARD_GRAVITY),
            ("rx_deg_per_s2", to_deg(rx)),
            ("ry_deg_per_s2", to_deg(ry)),
            ("rz_deg_per_s2", to_deg(rz)),
        ]))
    }
}

//! The wheels: what they carry, and the road's forces on them.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_model::model::Wheel;
use strutwork_model::units::STANDARD_GRAVITY;

use super::Raised;
use crate::handle::Case;
use crate::number::{Named, map, names};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const FORCE: [&str; 3] = ["fx_n", "fy_n", "fz_n"];
const STATE: &[&str] = &["ax_g", "ay_g", "vertical_g"];

#[export_module]
mod functions {
    use super::*;

    /// The names of the four wheels.
    ///
    /// ```rhai
    /// for wheel in wheels() { print(wheel); }
    /// ```
    pub fn wheels() -> Array {
        names(Wheel::ALL.into_iter().map(Wheel::name))
    }

    /// What each wheel carries under a steady acceleration, by statics and the front axle's share of the roll couple. The
    /// equations go into the case's story; nothing is applied.
    ///
    /// * A map by the names of the wheels: `loads["front-left"]`.
    /// * A negative load means that the wheel lifts and the case cannot occur so.
    ///
    /// # Units
    /// `ax_g` forward and `ay_g` to the left in g, zero where not given; `vertical_g` the weight felt over weight, 1 where
    /// not given. Loads in N, upwards on the vehicle.
    ///
    /// ```rhai
    /// let c = model().new_case("braking gently", "", "physical");
    /// let loads = c.wheel_loads(#{ ax_g: -0.5 });
    /// print(fixed(loads["front-left"], 0));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn wheel_loads(handle: Case, state: Map) -> Result<Map, Raised> {
        let state = Named::new("wheel_loads", &state, STATE)?;
        let acceleration = [state.or_zero("ax_g")? * STANDARD_GRAVITY, state.or_zero("ay_g")? * STANDARD_GRAVITY];
        let vertical = state.number("vertical_g")?.unwrap_or(1.0);
        let loads = handle.add("wheel_loads", |case| Ok(case.wheel_loads(acceleration, vertical)?))?;
        Ok(map(Wheel::ALL.map(|wheel| (wheel.name(), loads[wheel as usize]))))
    }

    /// A force of the road on a wheel at its contact point, shared among the joints of its corner.
    ///
    /// * Forces on one wheel add up.
    /// * A negative `fz_n` in sum is remarked on in a physical case: a wheel cannot pull on the road.
    ///
    /// # Units
    /// `fx_n`, `fy_n`, `fz_n` in N, global axes. What is not given is zero.
    ///
    /// ```rhai
    /// let c = model().new_case("kerb", "", "physical");
    /// c.wheel_force("front-right", #{ fy_n: 2500, fz_n: 1800 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn wheel_force(handle: Case, wheel: &str, force: Map) -> Result<(), Raised> {
        let force = Named::new("wheel_force", &force, &FORCE)?.vector(FORCE)?;
        Ok(handle.add("wheel_force", |case| {
            let wheel = case.wheel(wheel)?;
            Ok(case.wheel_force(wheel, force)?)
        })?)
    }
}

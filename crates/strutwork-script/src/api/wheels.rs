//! The wheels: what they carry, and the road's forces on them.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_loads::wheels::{self, Ride};
use strutwork_model::model::Wheel;
use strutwork_model::units::{MM, NM_PER_DEG, STANDARD_GRAVITY};

use super::Raised;
use crate::fault::Fault;
use crate::handle::Case;
use crate::number::{Named, map, names, number};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const FORCE: [&str; 3] = ["fx_n", "fy_n", "fz_n"];
const STATE: &[&str] = &["ax_g", "ay_g", "vertical_g", "frame_nm_per_deg"];

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
    /// not given; `frame_nm_per_deg` the frame's torsional stiffness in N·m/deg, where the load transfer is to be shared by
    /// roll stiffness and frame stiffness together (both axles' roll stiffness must be in the model). Loads in N, upwards
    /// on the vehicle.
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
        let frame_stiffness = state.number("frame_nm_per_deg")?.map(|stiffness| stiffness * NM_PER_DEG);
        let ride = Ride { vertical_g: vertical, frame_stiffness, ..Ride::steady(acceleration) };
        let loads = handle.add("wheel_loads", |case| Ok(case.wheel_loads(&ride)?))?;
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
    /// A force of the road on a wheel that acts through the wheel's centre: an obstacle that the wheel rolls over.
    ///
    /// * The axle's `wheel_radius_mm` must be in the model.
    ///
    /// # Units
    /// `fx_n`, `fy_n`, `fz_n` in N, global axes. What is not given is zero.
    ///
    /// ```rhai
    /// let c = model().new_case("stone", "", "physical");
    /// // c.wheel_centre_force("front-left", #{ fx_n: -900, fz_n: 2500 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn wheel_centre_force(handle: Case, wheel: &str, force: Map) -> Result<(), Raised> {
        let force = Named::new("wheel_centre_force", &force, &FORCE)?.vector(FORCE)?;
        Ok(handle.add("wheel_centre_force", |case| {
            let wheel = case.wheel(wheel)?;
            Ok(case.wheel_centre_force(wheel, force)?)
        })?)
    }

    /// A braking force of the road on a wheel, along x: negative slows a car that goes forward.
    ///
    /// * Outboard brakes: it acts on the upright as it stands. Inboard brakes: it acts through the wheel's centre, and the
    ///   torque goes through the shafts to what the axle's `shaft_joints` or `shaft_body` names.
    ///
    /// # Units
    /// `fx_n` in N.
    ///
    /// ```rhai
    /// let c = model().new_case("slow down", "", "physical");
    /// c.brake_force("front-left", -800);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn brake_force(handle: Case, wheel: &str, fx_n: Dynamic) -> Result<(), Raised> {
        let along = number("the braking force", &fx_n)?;
        Ok(handle.add("brake_force", |case| {
            let wheel = case.wheel(wheel)?;
            Ok(case.brake_force(wheel, along)?)
        })?)
    }

    /// A driving force of the road on a wheel, along x: positive drives forward.
    ///
    /// * It acts through the wheel's centre, and the torque goes through the shafts to what the axle's `shaft_joints` or
    ///   `shaft_body` names; where it names nothing, the force acts at the contact point.
    ///
    /// # Units
    /// `fx_n` in N.
    ///
    /// ```rhai
    /// let c = model().new_case("pull away", "", "physical");
    /// c.drive_force("rear-left", 1200);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn drive_force(handle: Case, wheel: &str, fx_n: Dynamic) -> Result<(), Raised> {
        let along = number("the driving force", &fx_n)?;
        Ok(handle.add("drive_force", |case| {
            let wheel = case.wheel(wheel)?;
            Ok(case.drive_force(wheel, along)?)
        })?)
    }

    /// The wheel on the other side of the same axle.
    ///
    /// ```rhai
    /// print(mirrored_wheel("front-left"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn mirrored_wheel(wheel: &str) -> Result<String, Raised> {
        let known = || Wheel::ALL.into_iter().map(Wheel::name);
        let wheel = Wheel::from_name(wheel).ok_or_else(|| Fault::unknown("wheel", wheel, known()))?;
        Ok(wheels::mirrored(wheel).name().to_owned())
    }

    /// The rearward force on a wheel that meets a step, beside its vertical load: V / tan θ with sin θ = (r − s)/r.
    ///
    /// # Units
    /// `vertical_n` and what is returned in N; `radius_mm` of the wheel and `step_mm`, its height, in mm.
    ///
    /// ```rhai
    /// print(fixed(step_force(2000, 280, 60), 0));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn step_force(vertical_n: Dynamic, radius_mm: Dynamic, step_mm: Dynamic) -> Result<f64, Raised> {
        let vertical = number("the vertical force", &vertical_n)?;
        let radius = number("the radius of the wheel", &radius_mm)? * MM;
        let step = number("the height of the step", &step_mm)? * MM;
        Ok(wheels::step_force(vertical, radius, step).map_err(Fault::from)?)
    }
}

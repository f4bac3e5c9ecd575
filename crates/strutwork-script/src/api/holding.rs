//! How the frame is held in a case, and what is to be read off the solution.

use rhai::Array;
use rhai::plugin::*;
use strutwork_loads::build::freedoms;
use strutwork_model::JointId;
use strutwork_model::model::Point;
use strutwork_model::units::{N_PER_MM, NM_PER_DEG};

use super::Raised;
use crate::fault::Fault;
use crate::handle::{Builder, Case};
use crate::number::{number, text};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// A station: a left and a right joint by their names.
fn station(case: &Builder, names: &Array) -> Result<[JointId; 2], Fault> {
    let [left, right] = names.as_slice() else {
        return Err(Fault::OutOfRange {
            what: "the number of joints of a station".to_owned(),
            value: names.len() as f64,
            range: "2: left and right",
        });
    };
    let joint = |name| Ok::<_, Fault>(case.joint(&text("the name of a joint", name)?)?);
    Ok([joint(left)?, joint(right)?])
}

#[export_module]
mod functions {
    use super::*;

    /// Holds freedoms of a joint fixed, on top of those that are held already.
    ///
    /// * `names` are freedoms separated by spaces: `ux uy uz` hold it in place, `rx ry rz` hold it from turning.
    ///
    /// ```rhai
    /// let c = model().new_case("bench", "", "notional");
    /// c.hold("RL", "ux uy uz");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn hold(handle: Case, joint: &str, names: &str) -> Result<(), Raised> {
        Ok(handle.add("hold", |case| {
            let joint = case.joint(joint)?;
            case.hold(joint, &freedoms(names)?);
            Ok(())
        })?)
    }

    /// Holds freedoms of a joint by springs to the ground.
    ///
    /// # Units
    /// `stiffness` in N/mm for `ux`, `uy`, `uz`; in N·m/degree for `rx`, `ry`, `rz`.
    ///
    /// ```rhai
    /// let c = model().new_case("rubber feet", "", "notional");
    /// c.hold_by_spring("RL", "uz", 120);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn hold_by_spring(handle: Case, joint: &str, names: &str, stiffness: Dynamic) -> Result<(), Raised> {
        let stiffness = number("the stiffness of a support", &stiffness)?;
        Ok(handle.add("hold_by_spring", |case| {
            let joint = case.joint(joint)?;
            for dof in freedoms(names)? {
                let unit = if dof.is_rotation() { NM_PER_DEG } else { N_PER_MM };
                case.hold_by_spring(joint, dof, stiffness * unit)?;
            }
            Ok(())
        })?)
    }

    /// Holds the frame as the model's supports.csv says.
    ///
    /// ```rhai
    /// let c = model().new_case("as on the bench", "", "notional");
    /// c.hold_as_model();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn hold_as_model(handle: Case) -> Result<(), Raised> {
        Ok(handle.add("hold_as_model", |case| {
            case.hold_as_model();
            Ok(())
        })?)
    }

    /// Holds a vehicle at three spring joints, statically determinate: rear left in x, y, z, rear right in x, z, front left
    /// in z. Nothing is forced to deform by it.
    ///
    /// * In a physical case call `balance()` too: the vehicle's own inertia then balances what acts, and these supports
    ///   take nothing.
    ///
    /// ```rhai
    /// let c = model().new_case("standing", "", "physical");
    /// c.gravity(1);
    /// let loads = c.wheel_loads(#{});
    /// for wheel in wheels() { c.wheel_force(wheel, #{ fz_n: loads[wheel] }); }
    /// c.hold_vehicle();
    /// c.balance();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn hold_vehicle(handle: Case) -> Result<(), Raised> {
        Ok(handle.add("hold_vehicle", |case| Ok(case.hold_vehicle()?))?)
    }

    /// Asks for the torsional stiffness between two stations, each an array of a left and a right joint.
    ///
    /// # Units
    /// `couple_nm` in N·m about x.
    ///
    /// ```rhai
    /// let c = model().new_case("twist of the front half", "", "notional");
    /// c.measure_twist(["FL", "FR"], ["RL", "RR"], 1000);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn measure_twist(handle: Case, front: Array, rear: Array, couple_nm: Dynamic) -> Result<(), Raised> {
        let couple = number("the couple", &couple_nm)?;
        Ok(handle.add("measure_twist", |case| {
            let (front, rear) = (station(case, &front)?, station(case, &rear)?);
            Ok(case.measure_twist(front.map(Point::Joint), rear.map(Point::Joint), couple)?)
        })?)
    }

    /// Equal and opposite couples about x at the two axles, as vertical forces at the spring places of the corners, and the
    /// wish to read the torsional stiffness between them.
    ///
    /// * A positive couple pushes the front left place up. The four forces cancel: a free vehicle needs no supports.
    ///
    /// # Units
    /// `couple_nm` in N·m.
    ///
    /// ```rhai
    /// let c = model().new_case("pure torsion", "", "notional");
    /// c.twist_axles(1000);
    /// c.balance();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn twist_axles(handle: Case, couple_nm: Dynamic) -> Result<(), Raised> {
        let couple = number("the couple", &couple_nm)?;
        Ok(handle.add("twist_axles", |case| Ok(case.twist_axles(couple)?))?)
    }

    /// Asks for the torsional stiffness between the front and the rear spring joints of the vehicle.
    ///
    /// # Units
    /// `couple_nm` in N·m about x.
    ///
    /// ```rhai
    /// let c = model().new_case("own twist", "", "notional");
    /// c.measure_vehicle_twist(1000);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn measure_vehicle_twist(handle: Case, couple_nm: Dynamic) -> Result<(), Raised> {
        let couple = number("the couple", &couple_nm)?;
        Ok(handle.add("measure_vehicle_twist", |case| Ok(case.measure_vehicle_twist(couple)?))?)
    }

    /// Asks for the movement of a joint, to stand with the case's own results.
    ///
    /// ```rhai
    /// let c = model().new_case("push", "", "notional");
    /// c.measure_movement("FL");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn measure_movement(handle: Case, joint: &str) -> Result<(), Raised> {
        Ok(handle.add("measure_movement", |case| {
            let joint = case.joint(joint)?;
            case.measure_movement(joint);
            Ok(())
        })?)
    }
}

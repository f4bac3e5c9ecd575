//! What came out of a solution.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_model::units::{to_deg, to_mm, to_mpa, to_nm_per_deg};
use strutwork_solve::results::{CaseResult, MeasureResult, Station, TwistStation};

use super::Raised;
use super::models::{joint_named, tube_named};
use crate::fault::Fault;
use crate::handle::{Solved, SolvedRun};
use crate::number::{map, names};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

impl SolvedRun {
    /// The place of the case with this name.
    fn place(&self, name: &str) -> Result<usize, Fault> {
        if let Some(refused) = self.refused().iter().find(|one| one.case == name) {
            let explained = strutwork_solve::explain::explain(self.model(), &refused.error);
            return Err(Fault::Solve { error: refused.error.clone(), explained });
        }
        let known = || (0..self.count()).map(|place| self.case_name(place));
        known().position(|known| known == name).ok_or_else(|| Fault::unknown("solved load case", name, known()))
    }

    /// The result of the case with this name.
    pub(super) fn case(&self, name: &str) -> Result<&CaseResult, Fault> {
        Ok(self.0.case(self.place(name)?))
    }

    /// Stiffness, twist and profile of the first twist measured in a case.
    fn twist(&self, name: &str) -> Result<(f64, f64, Vec<TwistStation>), Fault> {
        self.measures(self.place(name)?)
            .into_iter()
            .find_map(|measure| match measure {
                MeasureResult::Twist { stiffness, twist, profile, .. } => Some((stiffness, twist, profile)),
                MeasureResult::Movement { .. } => None,
            })
            .ok_or_else(|| Fault::NoResult { case: name.to_owned(), what: "twist that was measured" })
    }
}

fn movement(six: &[f64; 6]) -> Map {
    let [ux, uy, uz, rx, ry, rz] = *six;
    map([
        ("ux_mm", to_mm(ux)),
        ("uy_mm", to_mm(uy)),
        ("uz_mm", to_mm(uz)),
        ("rx_deg", to_deg(rx)),
        ("ry_deg", to_deg(ry)),
        ("rz_deg", to_deg(rz)),
    ])
}

fn station(at: &Station) -> Map {
    let forces = at.forces;
    let mut data = map([
        ("station", at.at),
        ("n_n", forces.n),
        ("vy_n", forces.vy),
        ("vz_n", forces.vz),
        ("t_nm", forces.t),
        ("my_nm", forces.my),
        ("mz_nm", forces.mz),
    ]);
    if let Some(stress) = at.stress {
        data.insert("sigma_max_mpa".into(), to_mpa(stress.sigma_max).into());
        data.insert("tau_max_mpa".into(), to_mpa(stress.tau_max).into());
        data.insert("von_mises_mpa".into(), to_mpa(stress.von_mises).into());
    }
    data
}

/// The greatest von Mises stress along a tube, Pa; `None` for a section without stresses.
fn greatest_stress(stations: &[Station]) -> Option<f64> {
    stations.iter().filter_map(|station| station.stress).map(|stress| stress.von_mises).reduce(f64::max)
}

#[export_module]
mod functions {
    use super::*;

    /// The names of the solved load cases, in order.
    ///
    /// ```rhai
    /// let frame = model();
    /// print(frame.solve(frame.cases_of("bending")).case_names());
    /// ```
    pub fn case_names(results: Solved) -> Array {
        let run = &results.0;
        names((0..run.count()).map(|place| run.case_name(place)))
    }

    /// How a joint moves in a case.
    ///
    /// # Units
    /// `ux_mm`, `uy_mm`, `uz_mm` in mm; `rx_deg`, `ry_deg`, `rz_deg` in degrees; global axes.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// print(r.displacement("bending", "FL").uz_mm);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn displacement(results: Solved, load_case: &str, joint: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let place = run.place(load_case)?;
        Ok(movement(&run.movement(place, joint_named(run.frame(), joint)?)))
    }

    /// What the supports exert on the frame at a joint.
    ///
    /// * A joint that is not held in the case has none, which stops the script.
    ///
    /// # Units
    /// `fx_n`, `fy_n`, `fz_n` in N; `mx_nm`, `my_nm`, `mz_nm` in N·m; global axes.
    ///
    /// ```rhai
    /// let frame = model();
    /// let c = frame.new_case("on a stand", "", "notional");
    /// c.hold_vehicle();
    /// c.gravity(1);
    /// print(frame.solve([c]).reaction("on a stand", frame.wheel("rear-left").spring_joint).fz_n);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn reaction(results: Solved, load_case: &str, joint: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let id = joint_named(run.frame(), joint)?;
        let reactions = &run.case(load_case)?.reactions;
        let Some((_, [fx, fy, fz, mx, my, mz])) = reactions.iter().find(|(held, _)| *held == id) else {
            return Err(Fault::NoResult { case: load_case.to_owned(), what: "support at that joint" }.into());
        };
        Ok(map([("fx_n", *fx), ("fy_n", *fy), ("fz_n", *fz), ("mx_nm", *mx), ("my_nm", *my), ("mz_nm", *mz)]))
    }

    /// Forces and stresses along a tube in a case: an array of stations from its `from` end to its `to` end.
    ///
    /// * The forces are those that the part on the `to` side exerts on the part on the `from` side; tension is positive.
    /// * A section given by its properties alone has no stresses.
    ///
    /// # Units
    /// `station` from 0 to 1; `n_n`, `vy_n`, `vz_n` in N; `t_nm`, `my_nm`, `mz_nm` in N·m, the tube's own axes;
    /// `sigma_max_mpa`, `tau_max_mpa`, `von_mises_mpa` in MPa.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// for at in r.tube_forces("bending", "rail-left") { print(`${at.station}: ${fixed(at.n_n, 1)} N`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tube_forces(results: Solved, load_case: &str, tube: &str) -> Result<Array, Raised> {
        let run = &results.0;
        let stations = &run.case(load_case)?.tubes[tube_named(run.model(), tube)?].stations;
        Ok(stations.iter().map(|at| Dynamic::from(station(at))).collect())
    }

    /// The greatest von Mises stress along a tube in a case.
    ///
    /// * A section given by its properties alone has none, which stops the script.
    ///
    /// # Units
    /// MPa.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// print(r.tube_stress("bending", "rail-left"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tube_stress(results: Solved, load_case: &str, tube: &str) -> Result<f64, Raised> {
        let run = &results.0;
        let id = tube_named(run.model(), tube)?;
        let stress = greatest_stress(&run.case(load_case)?.tubes[id].stations);
        let missing = || Fault::NoResult { case: load_case.to_owned(), what: "stress in that tube" };
        Ok(to_mpa(stress.ok_or_else(missing)?))
    }

    /// The tube with the greatest von Mises stress in a case: `tube` and `von_mises_mpa`.
    ///
    /// * Of equal ones the first. A frame whose sections have no stresses stops the script.
    ///
    /// # Units
    /// `von_mises_mpa` in MPa.
    ///
    /// ```rhai
    /// let frame = model();
    /// let worst = frame.solve(frame.cases_of("bending")).worst_tube("bending");
    /// print(`${worst.tube}: ${fixed(worst.von_mises_mpa, 0)} MPa`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn worst_tube(results: Solved, load_case: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let mut worst: Option<(&str, f64)> = None;
        for (id, tube) in run.case(load_case)?.tubes.iter_with_id() {
            if let Some(stress) = greatest_stress(&tube.stations)
                && worst.is_none_or(|(_, greatest)| stress > greatest)
            {
                worst = Some((&run.model().tubes()[id].name, stress));
            }
        }
        let missing = || Fault::NoResult { case: load_case.to_owned(), what: "tube with stresses" };
        let (name, stress) = worst.ok_or_else(missing)?;
        let mut data = map([("von_mises_mpa", to_mpa(stress))]);
        data.insert("tube".into(), name.into());
        Ok(data)
    }

    /// The torsional stiffness that a case measured: couple over twist.
    ///
    /// # Units
    /// N·m/degree.
    ///
    /// ```rhai
    /// let frame = model();
    /// print(frame.solve(frame.cases_of("twist")).torsional_stiffness("twist"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn torsional_stiffness(results: Solved, load_case: &str) -> Result<f64, Raised> {
        Ok(to_nm_per_deg(results.0.twist(load_case)?.0))
    }

    /// The twist along the length that a case measured: an array of stations from rear to front.
    ///
    /// # Units
    /// `x_mm` in mm; `twist_deg` in degrees.
    ///
    /// ```rhai
    /// let frame = model();
    /// for at in frame.solve(frame.cases_of("twist")).twist_profile("twist") { print(`${at.x_mm}: ${at.twist_deg}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn twist_profile(results: Solved, load_case: &str) -> Result<Array, Raised> {
        let (_, _, profile) = results.0.twist(load_case)?;
        Ok(profile
            .iter()
            .map(|at| Dynamic::from(map([("x_mm", to_mm(at.x)), ("twist_deg", to_deg(at.twist))])))
            .collect())
    }

    /// How far a case can be trusted: everything that must be small is in it.
    ///
    /// # Units
    /// `residual` and `imbalance` are shares of the loads, near 1e-12 or below for a sound solution.
    ///
    /// ```rhai
    /// let frame = model();
    /// print(frame.solve(frame.cases_of("bending")).trust("bending").residual);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn trust(results: Solved, load_case: &str) -> Result<Map, Raised> {
        let trust = results.0.case(load_case)?.trust;
        Ok(map([("residual", trust.residual), ("imbalance", trust.imbalance)]))
    }
}

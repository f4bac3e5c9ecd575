//! `cases.csv`: what is known of each case as a whole, a value a row.

use strutwork_checks::Figures;
use strutwork_loads::suspension::spring_ratio;
use strutwork_loads::wheels::{StaticLoads, static_loads};
use strutwork_loads::{LoadCase, MassModel};
use strutwork_model::model::Wheel;
use strutwork_model::units::{STANDARD_GRAVITY, to_deg, to_mm, to_mpa, to_nm_per_deg};
use strutwork_solve::CaseResult;
use strutwork_solve::results::MeasureResult;

use super::links::spring_force;
use crate::extremes;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Names of three forces and three moments, and their units.
const SUMS: [(&str, &str); 6] = [("fx", "N"), ("fy", "N"), ("fz", "N"), ("mx", "N·m"), ("my", "N·m"), ("mz", "N·m")];
/// Names of three movements and three turns, and their units.
const MOVEMENTS: [(&str, &str); 6] =
    [("ux", "mm"), ("uy", "mm"), ("uz", "mm"), ("rx", "deg"), ("ry", "deg"), ("rz", "deg")];

/// Mass, sums, trust figures and measures of every case.
///
/// | quantity | unit | what |
/// |---|---|---|
/// | `mass`, `cg_x` … `cg_z` | kg, mm | of the model: tubes, panels and masses |
/// | `static_front_left` …, `static_front_left_share` … | N, % | what each wheel carries at rest, and its share of the weight |
/// | `applied_fx` … `applied_mz` | N, N·m | everything applied, reduced to the origin |
/// | `reaction_fx` … `reaction_mz` | N, N·m | all reactions, reduced to the origin |
/// | `imbalance`, `residual`, `refinements` | – | how well the solution balances and solves its equations |
/// | `condition`, `smallest_pivot`, `equations` | – | of the system that the case was solved with |
/// | `energy` | J | strain energy |
/// | `acceleration_x` … `acceleration_rz` | g, rad/s² | at the centre of gravity, where inertia acts |
/// | `relief_left_over` | – | of a free case: greatest reaction where it was held inside, over the loads' size |
/// | `wheel_front_left_fx` … | N | force of the road on a wheel |
/// | `spring_front_left`, `spring_front_left_over_wheel` … | N, – | of a linked corner: force of its spring, tension positive; spring over wheel load, compression positive |
/// | `couple`, `twist`, `torsional_stiffness` | N·m, deg, N·m/deg | where the case measures twist; `_2` … for further ones |
/// | `torsional_stiffness_soft`, `torsional_stiffness_rigid`, `soft_ends` | N·m/deg, – | of the case that sums the vehicle up: the band of joint softness |
/// | `frame_mass_per_stiffness` | g per N·m/deg | tubes over stiffness |
/// | `chassis_share`, `roll_stiffness_in_series` | %, N·m/deg | share of a shift of roll couple that reaches the tyres |
/// | `movement_JOINT_ux` … | mm, deg | where the case measures a joint's movement |
/// | `largest_ux` … `largest_rz` | mm, deg | the joint movement of greatest magnitude, with its sign |
/// | `largest_von_mises` | MPa | over all tubes with a section shape |
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mass = MassModel::of(run.model);
    let at_rest = static_loads(run.model).ok();
    let mut rows = Vec::new();
    for (case, result) in run.pairs() {
        let mut list = Quantities { case: &case.name, rows: &mut rows };
        list.add("mass", mass.total, "kg");
        for (axis, metres) in ["cg_x", "cg_y", "cg_z"].into_iter().zip(mass.centre) {
            list.add(axis, to_mm(metres), "mm");
        }
        if let Some(at_rest) = &at_rest {
            list.at_rest(at_rest);
        }
        list.trust(run, result);
        list.actions(case);
        list.springs(run, case);
        list.measures(run, result);
        if let Some(figures) = run.figures.filter(|figures| figures.case == case.name) {
            list.figures(figures);
        }
        for ((name, unit), largest) in MOVEMENTS.into_iter().zip(extremes::movements(result)) {
            if let Some((_, value)) = largest {
                list.add(format!("largest_{name}"), door(value, unit), unit);
            }
        }
        if let Some(worst) = extremes::worst_stress(result) {
            list.add("largest_von_mises", to_mpa(worst.stress.von_mises), "MPa");
        }
    }
    Table {
        name: "cases",
        caption: "Quantities of each case".into(),
        columns: vec![
            super::CASE,
            Column::text("quantity", "quantity"),
            Column::number("value", "value", "", Digits::Each(4)),
            Column::text("unit", "unit"),
        ],
        rows,
    }
}

/// A movement in m or rad, in mm or degrees.
fn door(value: f64, unit: &str) -> f64 {
    if unit == "mm" { to_mm(value) } else { to_deg(value) }
}

/// A wheel's name as part of a quantity's: `front_left`.
fn key(wheel: Wheel) -> String {
    wheel.name().replace('-', "_")
}

/// The rows of one case.
struct Quantities<'r, 'a> {
    case: &'a str,
    rows: &'r mut Vec<Vec<Cell<'a>>>,
}

impl<'a> Quantities<'_, 'a> {
    fn add(&mut self, quantity: impl Into<String>, value: f64, unit: &'static str) {
        self.rows.push(vec![Cell::text(self.case), Cell::from(quantity.into()), Cell::Number(value), Cell::text(unit)]);
    }

    fn trust(&mut self, run: &Run<'a>, result: &CaseResult) {
        let trust = &result.trust;
        for (place, (name, unit)) in SUMS.into_iter().enumerate() {
            self.add(format!("applied_{name}"), trust.applied[place], unit);
        }
        for (place, (name, unit)) in SUMS.into_iter().enumerate() {
            self.add(format!("reaction_{name}"), trust.reacted[place], unit);
        }
        self.add("imbalance", trust.imbalance, "");
        self.add("residual", trust.residual, "");
        self.add("refinements", f64::from(trust.refinements), "");
        if let Some(system) = run.results.systems.get(result.system) {
            self.add("condition", system.condition, "");
            self.add("smallest_pivot", system.smallest_pivot, "");
            self.add("equations", system.equations as f64, "");
        }
        self.add("energy", trust.energy, "J");
        if let Some(relief) = &result.relief {
            self.add("relief_left_over", relief.left_over, "");
        }
    }

    fn at_rest(&mut self, at_rest: &StaticLoads) {
        for wheel in Wheel::ALL {
            let name = key(wheel);
            self.add(format!("static_{name}"), at_rest.loads[wheel as usize], "N");
            self.add(format!("static_{name}_share"), at_rest.shares[wheel as usize] * 100.0, "%");
        }
    }

    fn springs(&mut self, run: &Run<'_>, case: &LoadCase) {
        for wheel in Wheel::ALL {
            if let Some(force) = spring_force(case, run.model, wheel) {
                self.add(format!("spring_{}", key(wheel)), force, "N");
            }
            if let Some(ratio) = spring_ratio(case, run.model, wheel) {
                self.add(format!("spring_{}_over_wheel", key(wheel)), ratio, "");
            }
        }
    }

    fn actions(&mut self, case: &LoadCase) {
        if let Some(acceleration) = case.derivation.acceleration {
            for (place, axis) in ["x", "y", "z"].into_iter().enumerate() {
                self.add(format!("acceleration_{axis}"), acceleration[place] / STANDARD_GRAVITY, "g");
            }
            for (place, axis) in ["rx", "ry", "rz"].into_iter().enumerate() {
                self.add(format!("acceleration_{axis}"), acceleration[place + 3], "rad/s²");
            }
        }
        for wheel in Wheel::ALL {
            if let Some(force) = case.wheel_force(wheel) {
                for (axis, newtons) in ["fx", "fy", "fz"].into_iter().zip(force) {
                    self.add(format!("wheel_{}_{axis}", key(wheel)), newtons, "N");
                }
            }
        }
    }

    fn figures(&mut self, figures: &Figures) {
        if let Some(band) = figures.band {
            self.add("torsional_stiffness_soft", to_nm_per_deg(band.soft), "N·m/deg");
            self.add("torsional_stiffness_rigid", to_nm_per_deg(band.rigid), "N·m/deg");
            self.add("soft_ends", band.ends as f64, "");
        }
        self.add("frame_mass_per_stiffness", figures.grams_per_nm_per_deg(), "g per N·m/deg");
        if let Some(share) = figures.chassis_share {
            self.add("chassis_share", share.share * 100.0, "%");
            self.add("roll_stiffness_in_series", to_nm_per_deg(share.in_series), "N·m/deg");
        }
    }

    fn measures(&mut self, run: &Run<'a>, result: &CaseResult) {
        let mut twists = 0;
        for measure in &result.measures {
            match measure {
                MeasureResult::Twist { couple, twist, stiffness, .. } => {
                    twists += 1;
                    let suffix = if twists == 1 { String::new() } else { format!("_{twists}") };
                    self.add(format!("couple{suffix}"), *couple, "N·m");
                    self.add(format!("twist{suffix}"), to_deg(*twist), "deg");
                    self.add(format!("torsional_stiffness{suffix}"), to_nm_per_deg(*stiffness), "N·m/deg");
                }
                MeasureResult::Movement { joint, movement } => {
                    for ((name, unit), value) in MOVEMENTS.into_iter().zip(movement) {
                        self.add(format!("movement_{}_{name}", run.joint(*joint)), door(*value, unit), unit);
                    }
                }
            }
        }
    }
}

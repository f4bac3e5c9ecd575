//! Joints, welds and bolts by themselves; the fatigue curves.

use rhai::Map;
use rhai::plugin::*;
use strutwork_checks::alone::{self, Met, Plate, Way};
use strutwork_checks::code::Partial;
use strutwork_checks::code::bolt::Acting as OnBolt;
use strutwork_checks::code::fatigue::Curve;
use strutwork_checks::code::joint::Acting as OnJoint;
use strutwork_checks::code::weld::{self, AtEnd, Method};
use strutwork_model::bolts;
use strutwork_model::units::{DEG, MM, MPA, to_mm};

use super::{above_zero, cannot, gamma, part, positive};
use crate::api::Raised;
use crate::api::checks::calculation_map;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, PerhapsNumber, number};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const JOINT: &[&str] = &[
    "kind",
    "angle_deg",
    "other_angle_deg",
    "gap_mm",
    "overlap_percent",
    "n_n",
    "m_in_nm",
    "m_out_nm",
    "chord_n_n",
    "chord_my_nm",
    "chord_mz_nm",
    "gamma_m5",
];
const FILLET: &[&str] =
    &["angle_deg", "throat_mm", "method", "n_n", "v_in_n", "v_out_n", "t_nm", "m_in_nm", "m_out_nm", "gamma_m2"];
const BOLT: &[&str] = &["tension_n", "shear_n", "plate_mm", "plate_ultimate_mpa", "edge_mm", "gamma_m2"];
/// An angle above 0 and up to 90°, rad; 90° where not given.
fn angle(acting: &Named<'_>, key: &'static str) -> Result<f64, Fault> {
    let degrees = acting.number(key)?.unwrap_or(90.0);
    if degrees > 0.0 && degrees <= 90.0 {
        Ok(degrees * DEG)
    } else {
        Err(Fault::OutOfRange { what: format!("`{key}`"), value: degrees, range: "above 0 and at most 90 degrees" })
    }
}

/// What balances a brace's force.
fn way(acting: &Named<'_>) -> Result<Way, Fault> {
    let kind = acting.text("kind")?;
    let other = || {
        Ok::<f64, Fault>(if acting.number("other_angle_deg")?.is_some() {
            angle(acting, "other_angle_deg")?
        } else {
            angle(acting, "angle_deg")?
        })
    };
    match kind.as_deref().unwrap_or("T") {
        "T" | "Y" => Ok(Way::Chord),
        "X" => Ok(Way::Across),
        "gap" => Ok(Way::Gap { angle: other()?, gap: acting.needed("gap_mm")? * MM }),
        "overlap" => {
            let share = above_zero("`overlap_percent`", acting.needed("overlap_percent")?)? / 100.0;
            Ok(Way::Overlap { angle: other()?, share })
        }
        word => Err(Fault::unknown("kind of joint", word, ["T", "Y", "X", "gap", "overlap"].into_iter())),
    }
}

fn method(acting: &Named<'_>) -> Result<Method, Fault> {
    match acting.text("method")?.as_deref().unwrap_or("directional") {
        "directional" => Ok(Method::Directional),
        "simplified" => Ok(Method::Simplified),
        word => Err(Fault::unknown("method for fillets", word, ["directional", "simplified"].into_iter())),
    }
}

#[export_module]
mod functions {
    use super::*;

    /// What the wall of a chord bears of a brace that is welded onto it (EN 1993-1-8 section 7), written out as `calculation`
    /// has it, with `resistance_n` and `efficiency`.
    ///
    /// * `kind` is `T` or `Y` (the chord's shear balances the force; the default), `X` (a brace on the other side does), `gap`
    ///   or `overlap` (a brace of the same section beside it does, at `other_angle_deg`; then `gap_mm` or `overlap_percent` is
    ///   needed). Heights lie in the plane of both.
    /// * `gamma_m5` is 1 where not given.
    ///
    /// # Units
    /// `angle_deg` in degrees, 90 where not given; `n_n` of the brace in N, tension positive; `m_in_nm`, `m_out_nm` in N·m;
    /// `chord_n_n` in N and `chord_my_nm`, `chord_mz_nm` in N·m at the joint; `gap_mm` in mm: design values, no margin is added.
    /// `resistance_n` in N; `efficiency` is that over what the brace itself carries.
    ///
    /// ```rhai
    /// let j = model().joint_check("rail", "brace", "mild", #{ n_n: -4000, angle_deg: 45, kind: "gap", gap_mm: 15 });
    /// print(`${fixed(100 * j.efficiency, 0)} % of the brace; ${j.outside}`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn joint_check(frame: Frame, chord: &str, brace: &str, material: &str, acting: Map) -> Result<Map, Raised> {
        let acting = Named::new("joint_check", &acting, JOINT)?;
        let met = Met { angle: angle(&acting, "angle_deg")?, way: way(&acting)? };
        let gamma = gamma(&acting, "gamma_m5", Partial::RECOMMENDED.m5)?;
        let model = frame.model()?;
        let [chord, brace] = [part(&model, chord, material)?, part(&model, brace, material)?];
        let chord_axial = acting.or_zero("chord_n_n")?;
        let moments = [acting.or_zero("chord_my_nm")?, acting.or_zero("chord_mz_nm")?];
        let cannot = cannot("joint_check");
        let brought = OnJoint {
            axial: acting.or_zero("n_n")?,
            moments: [acting.or_zero("m_in_nm")?, acting.or_zero("m_out_nm")?],
            chord: alone::chord_forces(chord.section, chord_axial, moments).map_err(&cannot)?,
            chord_axial: chord_axial.abs(),
            margin: 1.0,
        };
        let (page, outcome) = alone::joint(&chord, &brace, &met, &brought, gamma).map_err(&cannot)?;
        let mut data = calculation_map(&page);
        data.insert("resistance_n".into(), outcome.axial_resistance.into());
        data.insert("efficiency".into(), outcome.efficiency.into());
        Ok(data)
    }

    /// A fillet weld all round the end of a tube that stands on the wall of another (EN 1993-1-8 section 4), written out as
    /// `calculation` has it.
    ///
    /// * Forces and moments `_in` lie in the plane of the tube and the face's normal, where the tube's height lies; `_out` are
    ///   across it. `method` is `directional` (the default) or `simplified`. `gamma_m2` is 1.25 where not given.
    ///
    /// # Units
    /// `throat_mm` in mm, the tube's wall where not given; `angle_deg` between tube and face in degrees, 90 where not given;
    /// `n_n`, `v_in_n`, `v_out_n` in N; `t_nm`, `m_in_nm`, `m_out_nm` in N·m: design values, no margin is added.
    ///
    /// ```rhai
    /// let w = model().fillet_check("rail", "mild", #{ throat_mm: 3, n_n: 20_000, m_in_nm: 60 });
    /// print(w.text);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn fillet_check(frame: Frame, section: &str, material: &str, acting: Map) -> Result<Map, Raised> {
        let acting = Named::new("fillet_check", &acting, FILLET)?;
        let throat = positive(&acting, "throat_mm")?.map(|throat| throat * MM);
        let at_end = AtEnd {
            axial: acting.or_zero("n_n")?,
            shear: [acting.or_zero("v_in_n")?, acting.or_zero("v_out_n")?],
            torque: acting.or_zero("t_nm")?,
            moments: [acting.or_zero("m_in_nm")?, acting.or_zero("m_out_nm")?],
        };
        let partial = Partial { m2: gamma(&acting, "gamma_m2", Partial::RECOMMENDED.m2)?, ..Partial::RECOMMENDED };
        let (angle, method) = (angle(&acting, "angle_deg")?, method(&acting)?);
        let model = frame.model()?;
        let part = part(&model, section, material)?;
        let page = alone::fillet(&part, angle, throat, &at_end, method, &partial).map_err(cannot("fillet_check"))?;
        Ok(calculation_map(&page))
    }

    /// A bolt in a normal hole (EN 1993-1-8 Table 3.4), written out as `calculation` has it, with its `shear_resistance_n` and
    /// `tension_resistance_n`.
    ///
    /// * `size` as in `[bolts]`, such as `M8` or `7/16 UNF`; `grade` such as `8.8`. The thread is in the one shear plane.
    /// * With `plate_mm` and `plate_ultimate_mpa` the steel plate that it goes through is judged as well, at `edge_mm` from its
    ///   edge; without them `outside` says that it is not. `gamma_m2` is 1.25 where not given.
    ///
    /// # Units
    /// `tension_n`, `shear_n` in N; `plate_mm`, `edge_mm` in mm; `plate_ultimate_mpa` in MPa: design values, no margin is added.
    ///
    /// ```rhai
    /// let b = bolt_check("M8", "8.8", #{ tension_n: 6000, shear_n: 4000, plate_mm: 4, plate_ultimate_mpa: 360 });
    /// print(`${fixed(b.utilisation, 2)} by ${b.clause}`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn bolt_check(size: &str, grade: &str, acting: Map) -> Result<Map, Raised> {
        let acting = Named::new("bolt_check", &acting, BOLT)?;
        let sizes = || bolts::SIZES.iter().map(|size| size.name);
        let size = bolts::size(size).ok_or_else(|| Fault::unknown("size of bolt", size, sizes()))?;
        let grades = || bolts::CLASSES.iter().map(|class| class.name);
        let class = bolts::class_named(grade).ok_or_else(|| Fault::unknown("grade of bolt", grade, grades()))?;
        let plate = match positive(&acting, "plate_mm")? {
            None => None,
            Some(thickness) => Some(Plate {
                thickness: thickness * MM,
                ultimate: above_zero("`plate_ultimate_mpa`", acting.needed("plate_ultimate_mpa")?)? * MPA,
                edge: positive(&acting, "edge_mm")?.map(|edge| edge * MM),
            }),
        };
        let [tension, shear] = [acting.or_zero("tension_n")?.abs(), acting.or_zero("shear_n")?.abs()];
        let partial = Partial { m2: gamma(&acting, "gamma_m2", Partial::RECOMMENDED.m2)?, ..Partial::RECOMMENDED };
        let (page, verdict) = alone::bolt(size, class, plate, OnBolt::Split { tension, shear }, partial);
        let mut data = calculation_map(&page);
        let [in_shear, in_tension] = verdict.resistances;
        data.insert("shear_resistance_n".into(), in_shear.into());
        data.insert("tension_resistance_n".into(), in_tension.into());
        Ok(data)
    }

    /// The throat at which a fillet is as strong as the wall of the tube (EN 1993-1-8 4.5.3.2 and 7.3.1, γ_M2 = 1.25).
    ///
    /// # Units
    /// `wall_mm` and what is returned in mm; `yield_mpa`, `ultimate_mpa` in MPa.
    ///
    /// ```rhai
    /// print(full_strength_throat(2, 235, 360));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn full_strength_throat(wall_mm: Dynamic, yield_mpa: Dynamic, ultimate_mpa: Dynamic) -> Result<f64, Raised> {
        let of = |what: &str, value: &Dynamic| above_zero(what, number(what, value)?);
        let wall = of("the wall", &wall_mm)? * MM;
        let yield_stress = of("the yield strength", &yield_mpa)? * MPA;
        let ultimate = of("the ultimate strength", &ultimate_mpa)? * MPA;
        let correlation = weld::correlation(yield_stress);
        Ok(to_mm(weld::full_strength_throat(wall, yield_stress, ultimate, correlation, &Partial::RECOMMENDED)))
    }

    /// How often a weld detail bears a stress range (EN 1993-1-9): `()` for a range that does no damage, however often.
    ///
    /// * `curve` is `member`, or `node-joint` for categories of lattice joints. Divide `category` by γ_Mf first.
    /// * It ranks details; it is not a life: see D050.
    ///
    /// # Units
    /// `category` and `range` in MPa; what is returned is a number of cycles.
    ///
    /// ```rhai
    /// for range in [30, 60, 120] { print(`${range} MPa: ${cycles_to_failure(36 / 1.35, range, "member")}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn cycles_to_failure(category: Dynamic, range: Dynamic, curve: &str) -> Result<PerhapsNumber, Raised> {
        let category = above_zero("the detail category", number("the detail category", &category)?)?;
        let range = above_zero("the stress range", number("the stress range", &range)?)?;
        let curve = match curve {
            "member" => Curve::Member,
            "node-joint" => Curve::NodeJoint,
            _ => return Err(Fault::unknown("fatigue curve", curve, ["member", "node-joint"].into_iter()).into()),
        };
        let cycles = curve.cycles_to_failure(category, range);
        Ok(if cycles.is_finite() { cycles.into() } else { Dynamic::UNIT })
    }
}

//! Sections and members by themselves.

use rhai::Map;
use rhai::plugin::*;
use strutwork_checks::alone;
use strutwork_checks::code::Partial;
use strutwork_checks::code::member::{Along, Curve, Diagram, reduction};
use strutwork_checks::code::profile::Forces;
use strutwork_model::units::MM;

use super::{above_zero, cannot, gamma, part};
use crate::api::Raised;
use crate::api::checks::calculation_map;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, number};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const SECTION: &[&str] = &["n_n", "vy_n", "vz_n", "t_nm", "my_nm", "mz_nm", "gamma_m0"];
const MEMBER: &[&str] =
    &["n_n", "my_nm", "mz_nm", "my_to_nm", "mz_to_nm", "buckling_y_mm", "buckling_z_mm", "gamma_m1"];
const CURVES: [Curve; 5] = [Curve::A0, Curve::A, Curve::B, Curve::C, Curve::D];

/// The moment diagram between two ends, and its greatest magnitude.
fn diagram(acting: &Named<'_>, from: &str, to: &str) -> Result<(Diagram, f64), Fault> {
    let at_from = acting.or_zero(from)?;
    let at_to = acting.number(to)?.unwrap_or(at_from);
    Ok((Diagram { ends: [at_from, at_to], ..Diagram::default() }, at_from.abs().max(at_to.abs())))
}

#[export_module]
mod functions {
    use super::*;

    /// The strength of a cross-section under forces that act together (EN 1993-1-1 6.2), written out as `calculation` has
    /// it, with the `class` of the section under them.
    ///
    /// * `section` and `material` are names in the frame's model. `gamma_m0` is 1 where not given.
    ///
    /// # Units
    /// `n_n` in N, tension positive; `vy_n`, `vz_n` in N; `t_nm`, `my_nm`, `mz_nm` in N·m: design values, no margin is added.
    ///
    /// ```rhai
    /// let c = model().section_check("rail", "mild", #{ n_n: -5000, my_nm: 120 });
    /// print(`class ${c.class}: ${fixed(c.utilisation, 3)} by ${c.clause}`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn section_check(frame: Frame, section: &str, material: &str, acting: Map) -> Result<Map, Raised> {
        let acting = Named::new("section_check", &acting, SECTION)?;
        let forces = Forces {
            n: acting.or_zero("n_n")?,
            moment: [acting.or_zero("my_nm")?, acting.or_zero("mz_nm")?],
            shear: [acting.or_zero("vy_n")?, acting.or_zero("vz_n")?],
            torque: acting.or_zero("t_nm")?,
        };
        let gamma = gamma(&acting, "gamma_m0", Partial::RECOMMENDED.m0)?;
        let model = frame.model()?;
        let part = part(&model, section, material)?;
        let (page, class) = alone::section(&part, &forces, gamma).map_err(cannot("section_check"))?;
        let mut data = calculation_map(&page);
        data.insert("class".into(), i64::from(class.number()).into());
        Ok(data)
    }

    /// What a tube carries before it bows out, between ends that do not shift (EN 1993-1-1 6.3), written out as `calculation`
    /// has it.
    ///
    /// * `buckling_y_mm` and `buckling_z_mm` are needed. Moments are straight from one end to the other: those named `…_to_…`
    ///   are at the far end, the same as at the near one where not given.
    /// * `gamma_m1` is 1 where not given.
    ///
    /// # Units
    /// `n_n` in N, compression negative; a pull counts as nothing; `my_nm`, `mz_nm` in N·m; `buckling_y_mm`, `buckling_z_mm` in
    /// mm: design values, no margin is added.
    ///
    /// ```rhai
    /// for length in spaced(400, 1600, 4) {
    ///     let c = model().member_check("brace", "mild", #{ n_n: -8000, buckling_y_mm: length, buckling_z_mm: length });
    ///     print(`${length} mm: ${fixed(c.utilisation, 2)}`);
    /// }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn member_check(frame: Frame, section: &str, material: &str, acting: Map) -> Result<Map, Raised> {
        let acting = Named::new("member_check", &acting, MEMBER)?;
        let (about_y, my) = diagram(&acting, "my_nm", "my_to_nm")?;
        let (about_z, mz) = diagram(&acting, "mz_nm", "mz_to_nm")?;
        let compression = (-acting.or_zero("n_n")?).max(0.0);
        let along = Along { compression, moment: [my, mz], diagrams: [about_y, about_z] };
        let length = |key| Ok::<_, Fault>(above_zero(&format!("`{key}`"), acting.needed(key)?)? * MM);
        let lengths = [length("buckling_y_mm")?, length("buckling_z_mm")?];
        let gamma = gamma(&acting, "gamma_m1", Partial::RECOMMENDED.m1)?;
        let model = frame.model()?;
        let part = part(&model, section, material)?;
        Ok(calculation_map(&alone::member(&part, &along, lengths, gamma).map_err(cannot("member_check"))?))
    }

    /// The reduction factor χ of a slenderness λ̄ (EN 1993-1-1 6.3.1.2): the share of its squash load that a straight tube
    /// carries before it bows out.
    ///
    /// * `curve` is `a0`, `a`, `b`, `c` or `d`: `c` for cold-formed tube, `a` for hot-finished.
    ///
    /// # Units
    /// Plain numbers.
    ///
    /// ```rhai
    /// for slenderness in [0.2, 0.5, 1, 1.5, 2] { print(`${slenderness}: ${fixed(buckling_factor(slenderness, "c"), 3)}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn buckling_factor(slenderness: Dynamic, curve: &str) -> Result<f64, Raised> {
        let slenderness = above_zero("the slenderness", number("the slenderness", &slenderness)?)?;
        let found = CURVES.into_iter().find(|known| known.letter() == curve);
        let curve = found.ok_or_else(|| Fault::unknown("buckling curve", curve, CURVES.iter().map(|c| c.letter())))?;
        let [_, chi] = reduction(curve, slenderness);
        Ok(chi)
    }
}

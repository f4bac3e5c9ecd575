//! Basis, factors, rules for members, checks switched off.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_checks::explain::PAGES;
use strutwork_model::model::{Gamma, SWITCHABLE};
use strutwork_model::spec::{BasisEntry, CheckEntry, GammaEntry, ModelSpec, OptionsEntry, Written};
use strutwork_model::units::to_mm;

use crate::api::Raised;
use crate::api::models::tube_named;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, map, names, number};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const GAMMAS: [&str; 6] = ["gamma_f", "gamma_m0", "gamma_m1", "gamma_m2", "gamma_m5", "gamma_mf"];
const MEMBERS: &[&str] = &["braces", "chords", "slenderness_limit", "sway"];

/// The factor with this name, as written.
fn gamma_of<'b>(basis: &'b mut BasisEntry, name: &str) -> Result<&'b mut Option<GammaEntry>, Fault> {
    Ok(match name {
        "gamma_f" => &mut basis.gamma_f,
        "gamma_m0" => &mut basis.gamma_m0,
        "gamma_m1" => &mut basis.gamma_m1,
        "gamma_m2" => &mut basis.gamma_m2,
        "gamma_m5" => &mut basis.gamma_m5,
        "gamma_mf" => &mut basis.gamma_mf,
        _ => return Err(Fault::unknown("partial factor", name, GAMMAS.into_iter())),
    })
}

/// Chooses a basis, and takes out what belongs to the other one: both together would count the margin twice.
fn choose_basis(spec: &mut ModelSpec, kind: &str) -> Result<(), Fault> {
    match kind {
        "eurocode" => spec.options.yield_margin = OptionsEntry::default().yield_margin,
        "vehicle" => {
            let gamma_mf = spec.basis.gamma_mf.take();
            spec.basis = BasisEntry { gamma_mf, ..BasisEntry::default() };
        }
        _ => return Err(Fault::unknown("basis", kind, ["vehicle", "eurocode"].into_iter())),
    }
    spec.basis.kind = Some(kind.into());
    Ok(())
}

fn is_eurocode(spec: &ModelSpec) -> bool {
    spec.basis.kind.as_ref().is_some_and(|kind| kind.value == "eurocode")
}

fn gamma_map(gamma: &Gamma) -> Map {
    let mut data = map([("value", gamma.value)]);
    data.insert("source".into(), gamma.source.as_str().into());
    data
}

fn check_named(code: &str) -> Result<(), Fault> {
    if SWITCHABLE.contains(&code) {
        return Ok(());
    }
    Err(Fault::unknown("check that can be switched off", code, SWITCHABLE.iter().copied()))
}

#[export_module]
mod functions {
    use super::*;

    /// What the frame is judged by: `kind`, `yield_margin`, and the partial factors `gamma_f`, `gamma_m0`, `gamma_m1`,
    /// `gamma_m2`, `gamma_m5`, `gamma_mf`, each with `value` and `source`.
    ///
    /// * With the basis `vehicle` the margin counts and of the factors `gamma_mf` alone; with `eurocode` the factors count
    ///   and not the margin.
    ///
    /// # Units
    /// Plain multipliers.
    ///
    /// ```rhai
    /// let basis = model().basis();
    /// print(`${basis.kind}: ${basis.gamma_m2.value}, ${basis.gamma_m2.source}`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn basis(frame: Frame) -> Result<Map, Raised> {
        let model = frame.model()?;
        let basis = model.basis();
        let mut data = map([("yield_margin", model.options().yield_margin)]);
        data.insert("kind".into(), basis.kind.word().into());
        let gammas =
            [&basis.gamma_f, &basis.gamma_m0, &basis.gamma_m1, &basis.gamma_m2, &basis.gamma_m5, &basis.gamma_mf];
        for (key, gamma) in GAMMAS.into_iter().zip(gammas) {
            data.insert(key.into(), gamma_map(gamma).into());
        }
        Ok(data)
    }

    /// Chooses what the frame is judged by: `vehicle` or `eurocode`.
    ///
    /// * What the model gives for the other basis is taken out: the yield margin, or the partial factors. Both together
    ///   would count the margin twice.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.set_basis("eurocode");
    /// print(frame.solve(frame.standard_cases()).utilisation());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_basis(frame: Frame, kind: &str) -> Result<(), Raised> {
        Ok(frame.change("set_basis", |spec| choose_basis(spec, kind))?)
    }

    /// Sets a partial factor in place of the recommended one, such as that of a national annex.
    ///
    /// * `name` is `gamma_f`, `gamma_m0`, `gamma_m1`, `gamma_m2`, `gamma_m5` or `gamma_mf`; all but the last belong to the
    ///   basis `eurocode`.
    ///
    /// # Units
    /// `value` is a plain multiplier, at least 1.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.set_basis("eurocode");
    /// frame.set_gamma("gamma_m1", 1.1, "our own choice");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_gamma(frame: Frame, name: &str, value: Dynamic, source: &str) -> Result<(), Raised> {
        let value = number("the partial factor", &value)?;
        Ok(frame.change("set_gamma", |spec| {
            let entry = GammaEntry { key: name.into(), value: value.into(), source: source.into() };
            *gamma_of(&mut spec.basis, name)? = Some(entry);
            Ok(())
        })?)
    }

    /// Sets the margin on strength of the basis `vehicle`.
    ///
    /// * The basis `eurocode` has no such margin, which stops the script.
    ///
    /// # Units
    /// A plain multiplier, at least 1.
    ///
    /// ```rhai
    /// model().set_yield_margin(2);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_yield_margin(frame: Frame, margin: Dynamic) -> Result<(), Raised> {
        let margin = number("the yield margin", &margin)?;
        Ok(frame.change("set_yield_margin", |spec| {
            if is_eurocode(spec) {
                let why = "the basis is `eurocode`, whose margin is in its partial factors";
                return Err(Fault::NotHere { function: "set_yield_margin", why });
            }
            spec.options.yield_margin = margin.into();
            Ok(())
        })?)
    }

    /// Sets the rules for members: any of `braces` and `chords`, arrays of groups of tubes, `slenderness_limit`, and `sway`,
    /// true for a frame whose joints may shift sideways. What is not given stays.
    ///
    /// # Units
    /// `slenderness_limit` is buckling length over radius of gyration.
    ///
    /// ```rhai
    /// model().set_members(#{ braces: ["diagonals"], slenderness_limit: 150 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_members(frame: Frame, rules: Map) -> Result<(), Raised> {
        let rules = Named::new("set_members", &rules, MEMBERS)?;
        let (braces, chords) = (rules.texts("braces")?, rules.texts("chords")?);
        let (limit, sway) = (rules.number("slenderness_limit")?, rules.flag("sway")?);
        Ok(frame.change("set_members", |spec| {
            for (cell, groups) in [(&mut spec.members.braces, braces), (&mut spec.members.chords, chords)] {
                if let Some(groups) = groups {
                    *cell = groups.iter().map(|group| group.as_str().into()).collect();
                }
            }
            if let Some(limit) = limit {
                spec.members.slenderness_limit = Some(Written::from(limit));
            }
            if let Some(sway) = sway {
                spec.members.sway = sway;
            }
            Ok(())
        })?)
    }

    /// The buckling lengths of a tube, for bending about its own y and z, and how each is known.
    ///
    /// # Units
    /// `y_mm` and `z_mm` in mm; `y_rule` and `z_rule` are texts.
    ///
    /// ```rhai
    /// let of = model().buckling_lengths("rail-left");
    /// print(`${of.y_mm} mm: ${of.y_rule}`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn buckling_lengths(frame: Frame, tube: &str) -> Result<Map, Raised> {
        let model = frame.model()?;
        let [y, z] = model.buckling_lengths(tube_named(&model, tube)?);
        let mut data = map([("y_mm", to_mm(y.length)), ("z_mm", to_mm(z.length))]);
        data.insert("y_rule".into(), y.why.into());
        data.insert("z_rule".into(), z.why.into());
        Ok(data)
    }

    /// Switches a check off. The reason is printed with the results of a run.
    ///
    /// * `check` is its code. Without a reason the model is not valid.
    ///
    /// ```rhai
    /// model().switch_off("D023", "the long braces only see tension");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn switch_off(frame: Frame, check: &str, reason: &str) -> Result<(), Raised> {
        Ok(frame.change("switch_off", |spec| {
            check_named(check)?;
            spec.checks.retain(|entry| entry.check.value != check);
            spec.checks.push(CheckEntry { check: check.into(), off: true, reason: Some(reason.into()) });
            Ok(())
        })?)
    }

    /// Switches a check on again.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.switch_off("D023", "to see what else governs");
    /// frame.switch_on("D023");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn switch_on(frame: Frame, check: &str) -> Result<(), Raised> {
        Ok(frame.change("switch_on", |spec| {
            check_named(check)?;
            spec.checks.retain(|entry| entry.check.value != check);
            Ok(())
        })?)
    }

    /// The checks that the model switches off: an array of maps with `check` and `reason`.
    ///
    /// ```rhai
    /// for off in model().switched_off() { print(`${off.check}: ${off.reason}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn switched_off(frame: Frame) -> Result<Array, Raised> {
        let model = frame.model()?;
        let one = |off: &strutwork_model::model::SwitchedOff| {
            let entries = [("check", off.check.as_str()), ("reason", off.reason.as_str())];
            Dynamic::from(entries.into_iter().map(|(key, text)| (key.into(), text.into())).collect::<Map>())
        };
        Ok(model.switched_off().iter().map(one).collect())
    }

    /// The codes of all checks of strength and design, in order.
    ///
    /// ```rhai
    /// for code in checks() { print(code); }
    /// ```
    pub fn checks() -> Array {
        names(PAGES.iter().map(|page| page.code).filter(|code| code.starts_with('D')))
    }
}

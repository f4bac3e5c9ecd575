//! Load cases and the story that each tells.

use std::sync::Arc;

use rhai::Array;
use rhai::plugin::*;
use strutwork_loads::case::Nature;
use strutwork_loads::{CaseBuilder, LoadError};

use super::Raised;
use crate::fault::Fault;
use crate::handle::{Case, Frame};
use crate::number::number;
use crate::run::{CaseScript, build_nested};
use crate::session::Session;
use crate::standard::STANDARD_CASES;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn nature_named(name: &str) -> Result<Nature, Fault> {
    match name {
        "physical" => Ok(Nature::Physical),
        "ultimate" => Ok(Nature::Ultimate),
        "notional" => Ok(Nature::Notional),
        _ => Err(Fault::unknown("nature of a load case", name, ["physical", "ultimate", "notional"].into_iter())),
    }
}

/// The cases that scripts build on a frame, as an array.
fn built(session: &Session, frame: &Frame, scripts: &[CaseScript]) -> Result<Array, Raised> {
    Ok(build_nested(session, frame, scripts)?.into_iter().map(Dynamic::from).collect())
}

fn standard() -> impl Iterator<Item = CaseScript> {
    STANDARD_CASES.iter().map(|(name, text)| CaseScript::new(format!("cases/{name}.rhai"), *text))
}

#[export_module]
mod functions {
    use super::*;

    /// A new load case in which nothing acts yet. An empty title is the name.
    ///
    /// * `nature` is `physical` (something that can happen: a wheel cannot pull on the road), `ultimate` (something that
    ///   must be survived once, permanently bent if need be) or `notional` (shows one property by itself, such as pure
    ///   torsion).
    /// * In a case script every new case belongs to the run; elsewhere only those that are given to `solve`.
    /// * Two cases of a run cannot have one name.
    ///
    /// ```rhai
    /// let c = model().new_case("push", "Somebody leans on the front", "physical");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn new_case(
        context: NativeCallContext,
        frame: Frame,
        name: &str,
        title: &str,
        nature: &str,
    ) -> Result<Case, Raised> {
        let nature = nature_named(nature)?;
        let model = frame.model()?;
        let case = Case::building(CaseBuilder::new(model, name, title, nature).map_err(Fault::from)?);
        Session::of(&context).note_case(case.clone());
        Ok(case)
    }

    /// A named value that the case rests on: `value`, or what `[factors]` in model.toml sets in its place. Both go into
    /// the report with their source.
    ///
    /// # Units
    /// `value` and what is returned in `unit`, which is a text for the report: `g`, `N`, `×` for a plain multiplier.
    ///
    /// ```rhai
    /// let c = model().new_case("hoist", "", "notional");
    /// let times = c.factor("hoist_dynamic", 1.5, "×", "common practice, no source");
    /// c.gravity(times);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn factor(handle: Case, name: &str, value: Dynamic, unit: &str, source: &str) -> Result<f64, Raised> {
        let value = number("the value of a factor", &value)?;
        Ok(handle.add("factor", |case| Ok(case.factor(name, value, unit, source)?))?)
    }

    /// A step of the case's story: what was done, with its formula, and the number that it gave.
    ///
    /// # Units
    /// `value` in `unit`, which is a text for the report.
    ///
    /// ```rhai
    /// let c = model().new_case("pull", "", "notional");
    /// let force = 2 * 450;
    /// c.step("Two people at 450 N each.", force, "N");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn step(handle: Case, text: &str, value: Dynamic, unit: &str) -> Result<(), Raised> {
        let value = number("the value of a step", &value)?;
        Ok(handle.add("step", |case| Ok(case.step(text, value, unit)?))?)
    }

    /// A step of the case's story in words.
    ///
    /// ```rhai
    /// let c = model().new_case("pull", "", "notional");
    /// c.explain("The rope pulls level, at the height of the front rail.");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn explain(handle: Case, text: &str) -> Result<(), Raised> {
        Ok(handle.add("explain", |case| {
            case.explain(text);
            Ok(())
        })?)
    }

    /// Something that a reader of the case must know. It stands beside the case's results.
    ///
    /// ```rhai
    /// let c = model().new_case("pull", "", "notional");
    /// c.remark("The rope's own weight is left out.");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn remark(handle: Case, text: &str) -> Result<(), Raised> {
        Ok(handle.add("remark", |case| {
            case.remark(text);
            Ok(())
        })?)
    }

    /// Adds everything that acts in another case, times a factor: combinations without writing a case twice.
    ///
    /// * Forces, temperatures, the forces on wheels and of links, and accelerations are added; measures are not taken over.
    /// * Both must be held alike; a case that holds nothing yet takes over how the other is held.
    ///
    /// # Units
    /// `times` is a multiplier.
    ///
    /// ```rhai
    /// let frame = model();
    /// let lift = frame.new_case("lift", "", "notional");
    /// lift.hold_as_model();
    /// lift.joint_load("FL", #{ fz_n: 500 });
    /// let both = frame.new_case("lift and a half", "", "notional");
    /// both.add_case(lift, 1.5);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn add_case(handle: Case, other: Case, times: Dynamic) -> Result<(), Raised> {
        let times = number("the factor on a case", &times)?;
        if !other.same_model(&handle) {
            return Err(Fault::from(LoadError::OtherModel { name: other.name() }).into());
        }
        let other = other.finish()?;
        Ok(handle.add("add_case", |case| Ok(case.add_case(&other, times)?))?)
    }

    /// The name of a load case.
    ///
    /// ```rhai
    /// for c in model().standard_cases() { print(c.case_name()); }
    /// ```
    pub fn case_name(handle: Case) -> String {
        handle.name()
    }

    /// The load cases of the model's load files, finished.
    ///
    /// ```rhai
    /// print(model().plain_cases().len());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn plain_cases(frame: Frame) -> Result<Array, Raised> {
        let model = frame.model()?;
        let cases = strutwork_loads::derive_plain(&model).map_err(Fault::from)?.0;
        Ok(cases.into_iter().map(|case| Dynamic::from(Case::done(Arc::clone(&model), case))).collect())
    }

    /// The standard load cases of a vehicle, built on this frame as it is now.
    ///
    /// * For free-standing scripts only; a case script imports those that it wants: `import "cases/twist" as twist;`.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.standard_cases());
    /// print(r.case_names());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn standard_cases(context: NativeCallContext, frame: Frame) -> Result<Array, Raised> {
        let session = Session::of(&context);
        session.only_free("standard_cases")?;
        built(&session, &frame, &standard().collect::<Vec<_>>())
    }

    /// The load cases of one standard script, built on this frame as it is now: `twist`, `bending`, `cornering`, `bump`,
    /// `braking` or `acceleration`.
    ///
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// let twist = model().cases_of("twist");
    /// print(twist.len());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn cases_of(context: NativeCallContext, frame: Frame, script: &str) -> Result<Array, Raised> {
        let session = Session::of(&context);
        session.only_free("cases_of")?;
        let file = format!("cases/{script}.rhai");
        let found: Vec<CaseScript> = standard().filter(|known| known.name == file).collect();
        if found.is_empty() {
            return Err(
                Fault::unknown("standard case script", script, STANDARD_CASES.iter().map(|(name, _)| *name)).into()
            );
        }
        built(&session, &frame, &found)
    }

    /// The load cases of the model folder's own `cases.rhai`, built on this frame as it is now; none where there is no
    /// such file.
    ///
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// print(model().own_cases().len());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn own_cases(context: NativeCallContext, frame: Frame) -> Result<Array, Raised> {
        let session = Session::of(&context);
        session.only_free("own_cases")?;
        let script = frame.own_cases().map(|text| CaseScript::new(strutwork_model::files::CASES, text));
        built(&session, &frame, script.as_slice())
    }
}

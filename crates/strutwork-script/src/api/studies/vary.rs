//! What is varied.

use rhai::plugin::*;
use rhai::{Array, FnPtr, Map};
use strutwork_model::gauges;
use strutwork_study::parameter::{OFF, ON};
use strutwork_study::{Change, Levels, StudyFault, Tubes, Value};

use super::StudyHandle;
use crate::api::Raised;
use crate::fault::Fault;
use crate::number::{AnyValue, Named, SomeTubes, Values, kind, number, text};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// A value as a script gives it.
pub(super) fn value(what: &str, value: &Dynamic) -> Result<Value, Fault> {
    if value.is_string() { Ok(Value::Word(text(what, value)?.to_string())) } else { Ok(number(what, value)?.into()) }
}

/// An array of values, or a range.
fn levels(what: &str, given: &Dynamic) -> Result<Levels, Fault> {
    if let Ok(items) = given.as_array_ref() {
        return items.iter().map(|item| value(what, item)).collect::<Result<_, _>>().map(Levels::List);
    }
    let Ok(map) = given.as_map_ref() else {
        return Err(Fault::WrongType { what: what.to_owned(), expected: "an array or a range", got: kind(given) });
    };
    let range = Named::new("a range", &map, &["from", "to"])?;
    Ok(Levels::Range { from: range.needed("from")?, to: range.needed("to")? })
}

/// Walls: numbers in mm, or gauges as texts.
pub(super) fn walls(given: &Dynamic) -> Result<Levels, Fault> {
    let Levels::List(values) = levels("a wall", given)? else { return levels("a wall", given) };
    let wall = |value: Value| match &value {
        Value::Number(_) => Ok(value),
        Value::Word(gauge) => gauges::wall_mm(gauge).map(Value::Number).ok_or_else(|| {
            let names: Vec<String> = gauges::SWG.iter().map(|(number, _)| format!("{number} swg")).collect();
            Fault::unknown("gauge", gauge, names.iter().map(String::as_str))
        }),
    };
    values.into_iter().map(wall).collect::<Result<_, _>>().map(Levels::List)
}

fn tubes(what: &str, given: &Dynamic) -> Result<Vec<String>, Fault> {
    if given.is_string() {
        return Ok(vec![text(what, given)?.to_string()]);
    }
    let Ok(items) = given.as_array_ref() else {
        return Err(Fault::WrongType {
            what: what.to_owned(),
            expected: "a tube or an array of tubes",
            got: kind(given),
        });
    };
    items.iter().map(|item| text(what, item).map(|name| name.to_string())).collect()
}

fn axis_named(name: &str) -> Result<usize, Fault> {
    let axes = ["x", "y", "z"];
    axes.iter().position(|axis| *axis == name).ok_or_else(|| Fault::unknown("axis", name, axes.into_iter()))
}

#[export_module]
mod functions {
    use super::*;

    /// Varies the wall of every tube of a group. Other tubes with the same section keep theirs. Column `GROUP.wall_mm`.
    ///
    /// # Units
    /// mm, or gauges such as `"16 swg"`.
    ///
    /// ```rhai
    /// model().new_study("walls").vary_wall("diagonals", [1.5, 2, "16 swg"]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_wall(study: StudyHandle, group: &str, values: Values) -> Result<(), Raised> {
        Ok(study.vary(None, Change::Wall(Tubes::Group(group.to_owned())), walls(&values)?)?)
    }

    /// Varies the section of every tube of a group: sizes of the stock list, or sections of the model. Column `GROUP.size`.
    ///
    /// ```rhai
    /// model().new_study("sizes").vary_size("diagonals", ["square 25x2", "square 30x2"]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_size(study: StudyHandle, group: &str, values: Values) -> Result<(), Raised> {
        Ok(study.vary(None, Change::Size(Tubes::Group(group.to_owned())), levels("a size", &values)?)?)
    }

    /// Varies whether a tube, or each of several at once, is there: `on` or `off`. The column has this name.
    ///
    /// * A joint that is left in the air, and that nothing else names, goes with its last tube.
    ///
    /// ```rhai
    /// let s = model().new_study("which");
    /// s.vary_presence("the left one", "diagonal-left");
    /// s.vary_presence("both others", ["diagonal-right", "diagonal-floor"]);
    /// s.subsets(2);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_presence(study: StudyHandle, name: &str, which: SomeTubes) -> Result<(), Raised> {
        let change = Change::Presence(tubes("what is switched", &which)?);
        Ok(study.vary(Some(name), change, Levels::List(vec![ON.into(), OFF.into()]))?)
    }

    /// Varies which of several patterns of tubes is there: a map from the pattern's name to its tubes. The column has this name.
    ///
    /// * The frame has the tubes of all patterns; those of the others are left out.
    ///
    /// ```rhai
    /// model().new_study("bay").vary_pattern("rear bay",
    ///     #{ none: [], left: ["diagonal-left"], cross: ["diagonal-left", "diagonal-right"] });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_pattern(study: StudyHandle, name: &str, patterns: Map) -> Result<(), Raised> {
        let named = |(name, which): (&rhai::Identifier, &Dynamic)| Ok((name.to_string(), tubes("a pattern", which)?));
        let patterns = patterns.iter().map(named).collect::<Result<Vec<(String, Vec<String>)>, Fault>>()?;
        let words = patterns.iter().map(|(name, _)| name.as_str().into()).collect();
        Ok(study.vary(Some(name), Change::Pattern(patterns), Levels::List(words))?)
    }

    /// Varies how far a joint is moved along an axis, `x`, `y` or `z`, from where it is. Column `JOINT.dz_mm` and the like.
    ///
    /// # Units
    /// mm.
    ///
    /// ```rhai
    /// model().new_study("higher").vary_joint("FLT", "z", [0, 20, 40]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_joint(study: StudyHandle, joint: &str, axis: &str, values: Values) -> Result<(), Raised> {
        let change = Change::Shift { joint: joint.to_owned(), axis: axis_named(axis)?, partner: None };
        Ok(study.vary(None, change, levels("a distance", &values)?)?)
    }

    /// Varies how far a joint and its partner on the other side are moved: alike along `x` and `z`, opposite along `y`.
    ///
    /// # Units
    /// mm.
    ///
    /// ```rhai
    /// model().new_study("wider").vary_joints("FLT", "FRT", "y", [0, 20, 40]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_joints(
        study: StudyHandle,
        joint: &str,
        partner: &str,
        axis: &str,
        values: Values,
    ) -> Result<(), Raised> {
        let partner = Some(partner.to_owned());
        let change = Change::Shift { joint: joint.to_owned(), axis: axis_named(axis)?, partner };
        Ok(study.vary(None, change, levels("a distance", &values)?)?)
    }

    /// Varies the thickness of a panel. Column `PANEL.thickness_mm`.
    ///
    /// # Units
    /// mm.
    ///
    /// ```rhai
    /// let frame = model();
    /// if frame.panels().len() > 0 { frame.new_study("skin").vary_thickness(frame.panels()[0], [0.8, 1.0, 1.2]); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_thickness(study: StudyHandle, panel: &str, values: Values) -> Result<(), Raised> {
        Ok(study.vary(None, Change::Thickness(panel.to_owned()), levels("a thickness", &values)?)?)
    }

    /// Varies the fixing of a panel: names of the model's fixings, `""` for edges that do not give. Column `PANEL.fixing`.
    ///
    /// ```rhai
    /// let frame = model();
    /// if frame.panels().len() > 0 { frame.new_study("skin").vary_fixing(frame.panels()[0], [""]); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_fixing(study: StudyHandle, panel: &str, values: Values) -> Result<(), Raised> {
        Ok(study.vary(None, Change::Fixing(panel.to_owned()), levels("a fixing", &values)?)?)
    }

    /// Varies a value of the script's own: `change` is called with a frame of its own and the value, for each variant.
    ///
    /// * Variants run side by side: what `change` writes into variables outside itself is lost.
    ///
    /// # Units
    /// Those of the values: the name should say them.
    ///
    /// ```rhai
    /// model().new_study("steel").vary_value("rail_wall_mm", [2, 3], |frame, wall| frame.set_wall("rail", wall));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_value(study: StudyHandle, name: &str, values: Values, change: FnPtr) -> Result<(), Raised> {
        let levels = levels("a value", &values)?;
        study.vary(Some(name), Change::Own, levels)?;
        Ok(study.add(|described| {
            described.changes.insert(described.study.parameters.len() - 1, change);
            // The frame as it is has no such value: what is not varied starts with the first.
            if let Some(parameter) = described.study.parameters.last_mut() {
                parameter.start = match &parameter.levels {
                    Levels::List(values) => values[0].clone(),
                    Levels::Range { from, .. } => Value::Number(*from),
                };
            }
            Ok(())
        })?)
    }

    /// The value that a parameter has while others are varied, in place of what the frame has: `off` for a diagonal that
    /// `subsets` then switches on.
    ///
    /// ```rhai
    /// let s = model().new_study("which");
    /// s.vary_presence("left", "diagonal-left");
    /// s.start_with("left", "off");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn start_with(study: StudyHandle, parameter: &str, start: AnyValue) -> Result<(), Raised> {
        let start = value("the start", &start)?;
        Ok(study.add(|described| {
            let names: Vec<String> =
                described.study.parameters.iter().map(|parameter| parameter.name.clone()).collect();
            let Some(place) = names.iter().position(|name| name == parameter) else {
                return Err(StudyFault::unknown("parameter", parameter, names.iter().map(String::as_str)).into());
            };
            described.study.parameters[place].takes(&described.study.base, &start)?;
            described.study.parameters[place].start = start;
            Ok(())
        })?)
    }

    /// A list of the parameters' names, in the order of their columns.
    ///
    /// ```rhai
    /// print(model().new_study("nothing").parameters());
    /// ```
    pub fn parameters(study: StudyHandle) -> Array {
        crate::number::names(study.described().study.parameters.iter().map(|parameter| parameter.name.as_str()))
    }
}

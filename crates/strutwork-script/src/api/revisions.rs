//! What differs between two models, and between the results of two runs.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_model::{InputFiles, Model, read_model};
use strutwork_revision::differences::{Difference, FindingChange};
use strutwork_revision::inputs::{Detail, Value};
use strutwork_revision::{Change, Comparison, ResultSet, Revision, compare, compare_models, read_results};

use super::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{count, optional};
use crate::session::Session;

/// Numbers that differ and are handed over; `numbers_that_differ` counts them all.
const LARGEST: usize = 200;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn value(of: Option<&Value>) -> Dynamic {
    match of {
        None => Dynamic::UNIT,
        Some(Value::Number(number, _)) => (*number).into(),
        Some(other) => other.text().into(),
    }
}

fn detail(of: &Detail) -> Dynamic {
    let unit = of.after.as_ref().or(of.before.as_ref()).map_or("", Value::unit);
    Dynamic::from(Map::from([
        ("what".into(), of.what.as_str().into()),
        ("before".into(), value(of.before.as_ref())),
        ("after".into(), value(of.after.as_ref())),
        ("unit".into(), unit.into()),
    ]))
}

fn change(of: &Change) -> Dynamic {
    Dynamic::from(Map::from([
        ("part".into(), of.part.word().into()),
        ("item".into(), of.name.as_str().into()),
        ("old_item".into(), of.old_name.as_deref().unwrap_or(&of.name).into()),
        ("change".into(), of.how.word().into()),
        ("details".into(), Dynamic::from(of.details.iter().map(detail).collect::<Array>())),
        ("sentence".into(), of.sentence().into()),
    ]))
}

fn difference(of: &Difference) -> Dynamic {
    Dynamic::from(Map::from([
        ("kind".into(), of.kind.word().into()),
        ("load_case".into(), of.case.as_str().into()),
        ("item".into(), of.subject.as_str().into()),
        ("quantity".into(), of.quantity.as_ref().into()),
        ("unit".into(), of.unit.as_ref().into()),
        ("before".into(), of.before.into()),
        ("after".into(), of.after.into()),
        ("percent".into(), optional(of.percent())),
    ]))
}

fn finding(of: &FindingChange) -> Dynamic {
    Dynamic::from(Map::from([
        ("code".into(), of.code.as_str().into()),
        ("item".into(), of.subject.as_str().into()),
        ("is".into(), of.fate.words().into()),
        ("before".into(), optional(of.before)),
        ("after".into(), optional(of.after)),
        ("load_case".into(), of.case.as_str().into()),
        ("message".into(), of.message.as_str().into()),
    ]))
}

fn compared(of: &Comparison) -> Map {
    let pair = |values: Option<[f64; 2]>| {
        values.map_or(Dynamic::UNIT, |values| Dynamic::from(values.map(Dynamic::from).into_iter().collect::<Array>()))
    };
    let verdict = &of.verdict;
    let worst = verdict.worst[0].as_ref().zip(verdict.worst[1].as_ref());
    let changes = of
        .inputs
        .as_ref()
        .map_or(Dynamic::UNIT, |inputs| Dynamic::from(inputs.changes.iter().map(change).collect::<Array>()));
    Map::from([
        ("same".into(), of.is_same().into()),
        ("torsional_stiffness_nm_per_deg".into(), pair(verdict.stiffness)),
        ("frame_mass_kg".into(), pair(verdict.frame_mass)),
        ("mass_kg".into(), pair(verdict.mass)),
        ("g_per_nm_per_deg".into(), pair(verdict.grams)),
        ("worst_utilisation".into(), pair(worst.map(|(was, is)| [was.utilisation, is.utilisation]))),
        ("changes".into(), changes),
        ("findings".into(), Dynamic::from(of.findings.iter().map(finding).collect::<Array>())),
        ("differences".into(), Dynamic::from(of.differences.iter().take(LARGEST).map(difference).collect::<Array>())),
        ("numbers_that_differ".into(), count(of.differences.len())),
        ("numbers_compared".into(), count(of.compared)),
    ])
}

/// A folder of results: what came out, and the model and its case script where the run kept them.
type Read = (ResultSet, Option<Model>, Option<String>);

fn revision((results, model, script): &Read) -> Revision<'_> {
    Revision { results, model: model.as_ref(), script: script.as_deref() }
}

fn read(context: &NativeCallContext<'_>, folder: &str) -> Result<Read, Fault> {
    let session = Session::of(context);
    session.may_read(folder)?;
    let (tables, inputs) = session.host().read_results(folder)?;
    let results = read_results(&tables).map_err(|faults| Fault::Results { folder: folder.to_owned(), faults })?.value;
    // Kept inputs that are no model to this version are as good as none.
    let model = inputs.as_ref().and_then(|files| read_model(files).ok()).map(|model| model.value);
    Ok((results, model, inputs.as_ref().and_then(InputFiles::own_cases)))
}

#[export_module]
mod functions {
    use super::*;

    /// What was changed from an older frame to this one: an array of maps, a change each.
    ///
    /// * `part`, `item`, `old_item` (its name in the older frame), `change` (`added`, `gone`, `renamed`, `reversed`, `moved` or
    ///   `changed`), `sentence`, and `details`: maps with `what`, `before`, `after` and `unit`.
    /// * Parts are found by their names; renamed joints by their place or the tubes at them, renamed tubes by their joints.
    /// * The order of rows and the way a number is written are no change.
    ///
    /// ```rhai
    /// let older = open_model("my-frame");
    /// let newer = older.duplicate();
    /// newer.set_wall("brace", gauge_mm("16 swg"));
    /// for change in newer.changes_from(older) {
    ///     print(change.sentence);
    /// }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn changes_from(frame: Frame, older: Frame) -> Result<Array, Raised> {
        let (before, after) = (older.model()?, frame.model()?);
        let scripts = [older.own_cases(), frame.own_cases()];
        let inputs = compare_models(&before, &after, [scripts[0].as_deref(), scripts[1].as_deref()]);
        Ok(inputs.changes.iter().map(change).collect())
    }

    /// What differs between the results of two runs, an older and a newer one.
    ///
    /// * The folders that `strutwork run` wrote into, below the script's own or among its arguments.
    /// * Pairs, older first, `()` where a run has no such value: `torsional_stiffness_nm_per_deg`, `frame_mass_kg`, `mass_kg`,
    ///   `g_per_nm_per_deg`, `worst_utilisation`.
    /// * `changes`: as `changes_from` has them; `()` where a run kept no inputs. `findings`: maps with `code`, `item`, `is`,
    ///   `before`, `after`, `load_case`, `message`. `differences`: the 200 that matter most, maps with `kind`, `load_case`,
    ///   `item`, `quantity`, `unit`, `before`, `after`, `percent`. `numbers_compared`, `numbers_that_differ`; `same`: whether
    ///   nothing differs.
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// let c = compare_results("old/results", "new/results");
    /// print(c.mass_kg);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn compare_results(context: NativeCallContext, older: &str, newer: &str) -> Result<Map, Raised> {
        Session::of(&context).only_free("compare_results")?;
        let (before, after) = (read(&context, older)?, read(&context, newer)?);
        Ok(compared(&compare(revision(&before), revision(&after))))
    }
}

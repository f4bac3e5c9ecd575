//! A comparison as JSON: what `compare --json` prints and `compare.json` holds.

use serde_json::{Value, json};
use strutwork_revision::differences::{Difference, Worst};
use strutwork_revision::inputs::Detail;
use strutwork_revision::results::About;

use crate::compare::Compared;

/// Differences that are listed; differences.csv has all.
const LISTED: usize = 200;

/// The comparison as JSON text, fields in a fixed order, two spaces of indent, a final line feed.
///
/// # Units and shapes
/// The unit is in every field's name, or beside the number. Pairs are before and after.
pub fn compare_json(compared: &Compared<'_>, exit: u8) -> String {
    let of = compared.comparison;
    let verdict = &of.verdict;
    let inputs = of.inputs.as_ref().map(|inputs| {
        let one = |change: &strutwork_revision::Change| {
            json!({
                "part": change.part.word(),
                "item": change.name,
                "old_item": change.old_name,
                "change": change.how.word(),
                "details": change.details.iter().map(detail).collect::<Vec<_>>(),
                "sentence": change.sentence(),
            })
        };
        inputs.changes.iter().map(one).collect::<Vec<Value>>()
    });
    let findings: Vec<Value> = of
        .findings
        .iter()
        .map(|one| {
            json!({
                "code": one.code,
                "subject": one.subject,
                "fate": one.fate.words(),
                "utilisation": [one.before, one.after],
                "case": one.case,
                "cases": one.cases,
                "message": one.message,
            })
        })
        .collect();
    let value = json!({
        "exit": exit,
        "same": of.is_same(),
        "revisions": [revision(&of.before, compared.labels[0]), revision(&of.after, compared.labels[1])],
        "verdict": {
            "torsional_stiffness_nm_per_deg": verdict.stiffness,
            "frame_mass_kg": verdict.frame_mass,
            "mass_kg": verdict.mass,
            "g_per_nm_per_deg": verdict.grams,
            "g_per_nm_per_deg_of_the_change": verdict.grams_of_change(),
            "worst": [verdict.worst[0].as_ref().map(worst), verdict.worst[1].as_ref().map(worst)],
        },
        "inputs": inputs,
        "scripts": of.scripts,
        "findings": findings,
        "numbers_compared": of.compared,
        "numbers_that_differ": of.differences.len(),
        "differences": of.differences.iter().take(LISTED).map(difference).collect::<Vec<_>>(),
        "cases_gone": of.cases_gone,
        "cases_new": of.cases_new,
        "numbers_of_one_alone": of.alone,
        "remarks": compared.remarks,
    });
    format!("{value:#}\n")
}

fn revision(about: &About, label: &str) -> Value {
    json!({
        "folder": label,
        "title": about.title,
        "revision": about.revision,
        "date": about.date,
        "version": about.version,
        "options": about.options,
    })
}

fn detail(of: &Detail) -> Value {
    json!({
        "what": of.what,
        "before": of.before.as_ref().map(strutwork_revision::inputs::Value::text),
        "after": of.after.as_ref().map(strutwork_revision::inputs::Value::text),
        "unit": of.after.as_ref().or(of.before.as_ref()).map(strutwork_revision::inputs::Value::unit),
        "size": of.size(),
    })
}

fn worst(of: &Worst) -> Value {
    json!({
        "utilisation": of.utilisation,
        "kind": of.kind,
        "item": of.item,
        "code": of.code,
        "case": of.case,
        "scope": of.scope,
    })
}

fn difference(of: &Difference) -> Value {
    json!({
        "kind": of.kind.word(),
        "case": of.case,
        "subject": of.subject,
        "old_subject": of.old_subject,
        "quantity": of.quantity,
        "unit": of.unit,
        "before": of.before,
        "after": of.after,
        "change": of.change(),
        "change_percent": of.percent(),
    })
}

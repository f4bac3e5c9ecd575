//! What a check leaves for machines: JUnit XML, remarks of CI services, JSON.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use strutwork_revision::baseline::junit::NAME;
use strutwork_revision::baseline::{
    self, Held, InputChange, Kept, Outcome, Row, Service, Standing, annotations, codes, junit,
};

use super::check::Ended;
use crate::baseline_args::CheckArgs;
use crate::exit::Failure;
use crate::files;
use crate::terminal::Terminal;

/// What was asked for.
pub(super) struct Outputs {
    junit: Option<PathBuf>,
    service: Option<Service>,
}

impl Outputs {
    /// What was asked for, if it may be written.
    ///
    /// # Errors
    /// [`Failure::Occupied`] where a file stands in the way that no check wrote.
    pub(super) fn of(args: &CheckArgs) -> Result<Self, Failure> {
        if let Some(path) = &args.junit {
            may_replace(path)?;
        }
        Ok(Self { junit: args.junit.clone(), service: args.annotations.map(|service| service.service()) })
    }

    /// Writes the JUnit XML.
    ///
    /// # Errors
    /// [`Failure::File`] when the system refuses.
    pub(super) fn write(&self, all: &[Ended<'_>]) -> Result<(), Failure> {
        let Some(path) = &self.junit else { return Ok(()) };
        files::replace(path, xml(all).as_bytes()).map_err(|cause| Failure::write(path, cause))
    }

    /// Prints what was told, and the remarks of a service where it belongs.
    ///
    /// # Errors
    /// As [`Terminal::result`].
    pub(super) fn print(&self, all: &[Ended<'_>], told: &str, terminal: &Terminal) -> Result<(), Failure> {
        let held: Vec<(&Held<'_>, &str)> =
            all.iter().filter_map(|one| Some((one.held.as_ref().ok()?, one.file))).collect();
        match self.service {
            None => terminal.result(told),
            // The report is the result; people read the rest.
            Some(Service::Gitlab) => {
                terminal.note(told);
                terminal.result(&annotations(&held, Service::Gitlab))
            }
            Some(service) => {
                terminal.result(told)?;
                terminal.result(&annotations(&held, service))
            }
        }
    }
}

/// Whether a file may be written over: nothing stands there, or what an earlier check wrote.
fn may_replace(path: &Path) -> Result<(), Failure> {
    if !path.exists() {
        return Ok(());
    }
    let ours = path.is_file()
        && String::from_utf8_lossy(&files::read(path)?).contains(&format!("<testsuites name=\"{NAME}\""));
    if ours {
        return Ok(());
    }
    Err(Failure::Occupied {
        path: path.to_owned(),
        why: "no baseline check wrote it, so it is not overwritten",
        help: "give another name to --junit, or move it away",
    })
}

fn xml(all: &[Ended<'_>]) -> String {
    let names: Vec<String> = all.iter().map(Ended::name).collect();
    let ended: Vec<Result<&Held<'_>, String>> =
        all.iter().map(|one| one.held.as_ref().map_err(|failure| words(failure))).collect();
    let checked = all.iter().zip(&names).zip(&ended).map(|((one, name), ended)| baseline::Checked {
        model: name,
        file: one.file,
        outcome: match ended {
            Ok(held) => Outcome::Held(held),
            Err(why) => Outcome::Failed(why),
        },
    });
    junit(&checked.collect::<Vec<_>>())
}

/// Why a model could not be checked, with its faults a line each.
fn words(failure: &Failure) -> String {
    let faults = match failure {
        Failure::Input { faults, .. } | Failure::Blocked { faults, .. } => faults,
        Failure::Structure { reasons, .. } => reasons,
        _ => return failure.to_string(),
    };
    std::iter::once(failure.to_string()).chain(faults.iter().map(ToString::to_string)).collect::<Vec<_>>().join("\n")
}

/// A check as JSON.
pub(super) fn json(one: &Ended<'_>) -> Value {
    let held = match &one.held {
        Ok(held) => held,
        Err(failure) => {
            return json!({ "folder": one.folder, "baseline": one.file, "exit": one.code(), "failed": words(failure) });
        }
    };
    let departs: Vec<Value> = held.by_importance().into_iter().map(departure).collect();
    json!({
        "folder": one.folder,
        "baseline": one.file,
        "title": one.title,
        "exit": one.code(),
        "holds": held.holds(),
        "quantities": held.rows.len(),
        "departures": departs,
        "new": held.new.iter().map(key).collect::<Vec<_>>(),
        "model_changed": held.inputs.iter().map(|change| {
            let (file, how) = match change {
                InputChange::Differs(file) => (file, "differs"),
                InputChange::Gone(file) => (file, "gone"),
                InputChange::Added(file) => (file, "new"),
            };
            json!({ "file": file, "how": how })
        }).collect::<Vec<_>>(),
        "recorded_by": held.recorded_by,
        "version": held.version,
    })
}

fn key(kept: &Kept) -> Value {
    let [kind, case, subject, quantity] = kept.key.parts();
    json!({
        "kind": kind, "case": case, "subject": subject, "quantity": quantity, "unit": kept.unit, "now": value(&kept.value),
    })
}

fn departure(row: &Row<'_>) -> Value {
    let entry = row.entry;
    let [kind, case, subject, quantity] = entry.kept.key.parts();
    let (code, now, tolerances, per_cent) = match &row.standing {
        Standing::Departs(departure) => (
            codes::DEPARTS,
            value(&departure.now),
            departure.tolerances.is_finite().then_some(departure.tolerances),
            departure.per_cent,
        ),
        _ => (codes::MISSING, Value::Null, None, None),
    };
    json!({
        "code": code.0, "kind": kind, "case": case, "subject": subject, "quantity": quantity, "unit": entry.kept.unit,
        "recorded": value(&entry.kept.value), "now": now, "tolerance": entry.tolerance, "tolerances": tolerances,
        "per_cent": per_cent, "why": entry.why, "line": entry.line,
    })
}

fn value(value: &baseline::Value) -> Value {
    match value {
        baseline::Value::Number(number) => json!(number),
        baseline::Value::Text(text) => json!(text),
    }
}

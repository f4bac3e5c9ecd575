//! A check as CI services show it beside a change: a remark at the line of the baseline.

use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};
use strutwork_model::Code;

use super::hold::Held;
use super::{codes, wording};

/// How a service wants to be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Service {
    /// Workflow commands in the log: `::error file=…,line=…::…`. Gitea and Forgejo read them too.
    Github,
    /// Logging commands in the log: `##vso[task.logissue …]…`.
    Azure,
    /// A code-quality report: a JSON list that a job keeps as an artefact.
    Gitlab,
}

/// Services cut off long lists; a line says how many were left out.
const MOST: usize = 50;

/// The remarks of checks as a service reads them, of each what matters most first; beside each the baseline's path from the
/// root of the repository. For [`Service::Gitlab`] JSON, for the others lines.
pub fn annotations(all: &[(&Held<'_>, &str)], service: Service) -> String {
    let remarks: Vec<Remark<'_>> = all.iter().flat_map(|(held, file)| remarks(held, file)).collect();
    match service {
        Service::Github => lines(&remarks, |Remark { file, line, code, told, .. }| {
            format!("::error file={},line={line},title={code}::{}", property(file), data(told))
        }),
        Service::Azure => lines(&remarks, |Remark { file, line, code, told, .. }| {
            let file = file.replace([';', ']', '\r', '\n'], "_");
            let told = told.replace(['\r', '\n'], " ");
            format!("##vso[task.logissue type=error;sourcepath={file};linenumber={line};code={code};]{told}")
        }),
        Service::Gitlab => {
            let list: Vec<Value> = remarks.iter().map(quality).collect();
            format!("{:#}\n", Value::from(list))
        }
    }
}

/// A remark at a line of a baseline.
struct Remark<'h> {
    file: &'h str,
    line: usize,
    code: Code,
    /// What it is of, by which it is known again: its numbers may change.
    of: String,
    told: String,
}

fn remarks<'h>(held: &Held<'_>, file: &'h str) -> Vec<Remark<'h>> {
    let failed = held.by_importance();
    let told = |row: &&super::Row<'_>| {
        let (code, told) = wording::of(row)?;
        Some(Remark { file, line: row.entry.line, code, of: row.entry.kept.key.to_string(), told })
    };
    let mut remarks: Vec<Remark<'_>> = failed.iter().filter_map(told).take(MOST).collect();
    if failed.len() > MOST {
        let told = format!("and {} more depart", failed.len() - MOST);
        remarks.push(Remark { file, line: 1, code: codes::DEPARTS, of: told.clone(), told });
    }
    remarks
}

fn lines(remarks: &[Remark<'_>], line: impl Fn(&Remark<'_>) -> String) -> String {
    remarks.iter().map(|remark| line(remark) + "\n").collect()
}

/// The message of a workflow command.
fn data(text: &str) -> String {
    text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

/// A property of a workflow command.
fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}

fn quality(Remark { file, line, code, of, told }: &Remark<'_>) -> Value {
    let print = Sha256::digest(format!("{code} {file} {of}"));
    json!({
        "description": told,
        "check_name": code.0,
        "fingerprint": print.iter().map(|byte| format!("{byte:02x}")).collect::<String>(),
        "severity": "major",
        "location": { "path": file, "lines": { "begin": line } },
    })
}

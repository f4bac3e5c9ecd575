//! The suite: every folder of `tests/suite/<area>/` is a case. `tests/README.md` says how to write one.

use std::fs;
use std::path::{Path, PathBuf};

use serde::Deserialize;

use crate::harness::{Ran, entries, overlay, strutwork, tests, text};

/// `expect.toml`: what the program is asked, and what it must answer.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Expect {
    /// A folder of `tests/suite/_base/` that lies under the case's own files.
    #[serde(default)]
    pub base: Option<String>,
    /// Files of the base that the case does without.
    #[serde(default)]
    pub without: Vec<String>,
    /// The arguments.
    #[serde(default = "run_here")]
    pub command: Vec<String>,
    /// The exit code.
    pub exit: i32,
    /// Codes that must be told: on standard error, in `findings.csv`, or at the head of a line of standard output.
    #[serde(default)]
    pub codes: Vec<String>,
    /// What standard error must hold.
    #[serde(default)]
    pub stderr: Vec<String>,
    /// What standard output must hold.
    #[serde(default)]
    pub stdout: Vec<String>,
    /// What neither may hold.
    #[serde(default)]
    pub absent: Vec<String>,
    /// Files that must be there afterwards.
    #[serde(default)]
    pub files: Vec<String>,
}

fn run_here() -> Vec<String> {
    vec!["run".into(), ".".into()]
}

/// Every case: its name and its folder.
pub(crate) fn cases() -> Vec<(String, PathBuf)> {
    let suite = tests().join("suite");
    let mut all = Vec::new();
    for area in entries(&suite).into_iter().filter(|path| path.is_dir()) {
        let area_name = area.file_name().expect("a name").to_string_lossy().into_owned();
        if area_name.starts_with('_') {
            continue;
        }
        for case in entries(&area) {
            all.push((format!("{area_name}/{}", case.file_name().expect("a name").to_string_lossy()), case));
        }
    }
    all
}

/// What a case expects.
pub(crate) fn expected(case: &Path) -> Expect {
    let path = case.join("expect.toml");
    toml::from_str(&text(&path)).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

/// Runs a case in a temporary copy and returns what is wrong with the answer; empty for nothing.
fn faults(case: &Path) -> Vec<String> {
    let expect = expected(case);
    let place = tempfile::tempdir().expect("a temporary folder");
    let folder = place.path().join("case");
    fs::create_dir(&folder).expect("a folder of ours");
    if let Some(base) = &expect.base {
        overlay(&tests().join("suite/_base").join(base), &folder);
    }
    for name in &expect.without {
        fs::remove_file(folder.join(name)).unwrap_or_else(|cause| panic!("without = {name}: {cause}"));
    }
    overlay(case, &folder);
    fs::remove_file(folder.join("expect.toml")).expect("it was just copied");
    let args: Vec<&str> = expect.command.iter().map(String::as_str).collect();
    let ran = strutwork(&folder, &args);
    judge(&expect, &ran, &folder)
}

fn judge(expect: &Expect, ran: &Ran, folder: &Path) -> Vec<String> {
    let mut faults = Vec::new();
    if ran.code != expect.exit {
        faults.push(format!("exit code {}, expected {}", ran.code, expect.exit));
    }
    let findings = fs::read_to_string(folder.join("results/findings.csv")).unwrap_or_default();
    let in_a_table = |code: &str| ran.stdout.lines().any(|line| line.starts_with(&format!("  {code}  ")));
    for code in &expect.codes {
        let told = ran.stderr.contains(&format!("[{code}]")) || findings.contains(&format!("{code},"));
        if !told && !in_a_table(code) {
            faults.push(format!("{code} is not told"));
        }
    }
    for part in &expect.stderr {
        if !ran.stderr.contains(part.as_str()) {
            faults.push(format!("standard error lacks `{part}`"));
        }
    }
    for part in &expect.stdout {
        if !ran.stdout.contains(part.as_str()) {
            faults.push(format!("standard output lacks `{part}`"));
        }
    }
    for part in &expect.absent {
        if ran.stderr.contains(part.as_str()) || ran.stdout.contains(part.as_str()) {
            faults.push(format!("`{part}` is told"));
        }
    }
    for name in &expect.files {
        if !folder.join(name).exists() {
            faults.push(format!("{name} is not there"));
        }
    }
    if matches!(ran.code, 2..=4) && folder.join("results").exists() {
        faults.push("something was written although the run failed".into());
    }
    if !faults.is_empty() {
        faults.push(format!("--- stdout\n{}--- stderr\n{}", ran.stdout, ran.stderr));
    }
    faults
}

/// Runs the cases of one area.
fn area(area: &str) {
    let prefix = format!("{area}/");
    let cases: Vec<_> = cases().into_iter().filter(|(name, _)| name.starts_with(&prefix)).collect();
    assert!(!cases.is_empty(), "no case in tests/suite/{area}");
    let wrong: Vec<String> = cases
        .iter()
        .filter_map(|(name, folder)| {
            let faults = faults(folder);
            (!faults.is_empty()).then(|| format!("==== {name}\n{}", faults.join("\n")))
        })
        .collect();
    assert!(wrong.is_empty(), "{} of {} cases\n{}", wrong.len(), cases.len(), wrong.join("\n"));
}

/// A test for each area, so that they run side by side.
macro_rules! areas {
    ($($name:ident),* $(,)?) => {
        $(#[test]
        fn $name() {
            area(stringify!($name));
        })*

        #[test]
        fn every_area_has_its_test() {
            let listed = [$(stringify!($name)),*];
            let areas: std::collections::BTreeSet<String> =
                cases().into_iter().map(|(name, _)| name.split('/').next().unwrap_or_default().to_owned()).collect();
            for area in &areas {
                assert!(listed.contains(&area.as_str()), "tests/suite/{area} is run by no test: add it to `areas!`");
            }
        }
    };
}

areas!(
    baseline,
    evidence,
    fatigue,
    files,
    geometry,
    holding,
    hostile,
    joints,
    judging,
    loads,
    materials,
    members,
    modules,
    movement,
    names,
    panels,
    revisions,
    scripts,
    second_order,
    sections,
    settings,
    sound,
    structure,
    suspension,
    tables,
    vehicle,
    welds
);

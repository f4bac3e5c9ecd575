//! Faults planted in a copy of the code, one at a time: the baselines must catch every one.
//!
//! Slow, for each fault is compiled; what is cheap stands in CI: that every fault of the list still finds its place.

mod list;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::ci::recorded;
use crate::command::{self, cargo, loudly};
use crate::failure::Failure;
use crate::workspace::Workspace;
use crate::{heading, say};
use list::{FAULTS, Fault};

/// What the program is compiled from.
const SOURCES: [&str; 10] = [
    "Cargo.toml",
    "Cargo.lock",
    ".cargo",
    "crates",
    "demo-models",
    "scripts",
    "tests",
    "validation",
    "xtask",
    "README.md",
];

/// What the baselines made of a fault.
enum Caught {
    /// That many models depart or cannot be run any more.
    By(usize),
    /// Nothing departs.
    Nothing,
    /// It does not compile.
    Compiler,
}

/// Plants every fault whose description contains `part`, and fails where one is not caught.
pub(crate) fn run(workspace: &Workspace, part: &str) -> Result<(), Failure> {
    let place = workspace.target.join("faults");
    let copy = place.join("source");
    if copy.exists() {
        fs::remove_dir_all(&copy).map_err(|cause| Failure::write(&copy, cause))?;
    }
    fs::create_dir_all(&copy).map_err(|cause| Failure::write(&copy, cause))?;
    for name in SOURCES {
        copied(&workspace.root.join(name), &copy.join(name))?;
    }
    let files = workspace.files()?;
    let models = recorded(&files);
    heading("as it is");
    build(&copy, &place)?;
    if let Caught::By(number) = check(&copy, &place, &models)? {
        return Err(Failure::Output {
            command: "strutwork baseline check".to_owned(),
            why: format!("{number} models depart without any fault: record them anew first"),
        });
    }
    let mut missed = Vec::new();
    for fault in FAULTS.iter().filter(|fault| fault.what.contains(part)) {
        match planted(fault, &copy, &place, &models)? {
            Caught::By(number) => say(&format!("caught by {number:>2} of {} models   {}", models.len(), fault.what)),
            Caught::Nothing => missed.push(format!("{}: {}: no baseline catches it", fault.file, fault.what)),
            Caught::Compiler => missed.push(format!("{}: {}: it does not compile", fault.file, fault.what)),
        }
    }
    Failure::unless_empty(missed)
}

/// Plants a fault, compiles, checks, and mends it.
fn planted(fault: &Fault, copy: &Path, place: &Path, models: &[&str]) -> Result<Caught, Failure> {
    let path = copy.join(fault.file);
    let right = fs::read_to_string(&path).map_err(|cause| Failure::read(&path, cause))?;
    let put = |text: &str| fs::write(&path, text).map_err(|cause| Failure::write(&path, cause));
    put(&right.replacen(fault.right, fault.wrong, 1))?;
    let caught = if build(copy, place).is_ok() { check(copy, place, models) } else { Ok(Caught::Compiler) };
    put(&right)?;
    caught
}

fn build(copy: &Path, place: &Path) -> Result<(), Failure> {
    let mut command = cargo(copy, &["build", "--quiet", "-p", "strutwork-cli", "--bin", "strutwork"]);
    command.env("CARGO_TARGET_DIR", place.join("target"));
    loudly(command)
}

/// How many models do not hold.
fn check(copy: &Path, place: &Path, models: &[&str]) -> Result<Caught, Failure> {
    let program: PathBuf = place.join("target/debug/strutwork");
    let mut command = Command::new(program);
    command.args(["baseline", "check", "--json"]).args(models).current_dir(copy);
    let output = command.output().map_err(|cause| Failure::Start { command: command::named(&command), cause })?;
    let told: serde_json::Value = serde_json::from_slice(&output.stdout)
        .map_err(|cause| Failure::Output { command: command::named(&command), why: cause.to_string() })?;
    let list = told["baselines"].as_array().map_or(&[][..], Vec::as_slice);
    let failed = list.iter().filter(|one| one["exit"] != 0).count();
    Ok(if failed > 0 { Caught::By(failed) } else { Caught::Nothing })
}

/// Copies a file, or a folder but for what runs left in it.
fn copied(from: &Path, to: &Path) -> Result<(), Failure> {
    if !from.is_dir() {
        fs::copy(from, to).map_err(|cause| Failure::write(to, cause))?;
        return Ok(());
    }
    fs::create_dir_all(to).map_err(|cause| Failure::write(to, cause))?;
    for entry in fs::read_dir(from).map_err(|cause| Failure::read(from, cause))? {
        let entry = entry.map_err(|cause| Failure::read(from, cause))?;
        copied(&entry.path(), &to.join(entry.file_name()))?;
    }
    Ok(())
}

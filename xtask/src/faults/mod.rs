//! Faults planted in a copy of the code, one at a time: the baselines must catch every one.
//!
//! Slow, for each fault is compiled; what is cheap stands in CI: that every fault of the list still finds its place.

mod list;

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::ci::recorded;
use crate::command::{self, cargo, loudly};
use crate::failure::Failure;
use crate::workspace::Workspace;
use crate::{heading, say};
use list::Fault;

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
    /// The check does not come to its end: a search goes round in circles.
    Endless,
    /// Nothing departs.
    Nothing,
    /// It does not compile.
    Compiler,
}

/// Plants every fault whose description contains `part`, and fails where one is not caught or there is none.
pub(crate) fn run(workspace: &Workspace, part: &str) -> Result<(), Failure> {
    let faults = list::named(part)?;
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
    for fault in faults {
        match planted(fault, &copy, &place, &models)? {
            Caught::By(number) => say(&format!("caught by {number:>2} of {} models   {}", models.len(), fault.what)),
            Caught::Endless => say(&format!("caught: a search does not end   {}", fault.what)),
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

/// A check takes a minute; one that takes so long goes round in circles.
const LIMIT: Duration = Duration::from_secs(1200);

/// How many models do not hold.
fn check(copy: &Path, place: &Path, models: &[&str]) -> Result<Caught, Failure> {
    let told = place.join("told.json");
    let file = File::create(&told).map_err(|cause| Failure::write(&told, cause))?;
    let mut command = Command::new(place.join("target/debug/strutwork"));
    command.args(["baseline", "check", "--json"]).args(models).current_dir(copy).stdin(Stdio::null());
    command.stdout(file).stderr(Stdio::null());
    let name = command::named(&command);
    let start = |cause| Failure::Start { command: name.clone(), cause };
    let mut child = command.spawn().map_err(start)?;
    let started = Instant::now();
    while child.try_wait().map_err(start)?.is_none() {
        if started.elapsed() > LIMIT {
            child.kill().and_then(|()| child.wait()).map_err(start)?;
            return Ok(Caught::Endless);
        }
        std::thread::sleep(Duration::from_millis(100));
    }
    let text = fs::read_to_string(&told).map_err(|cause| Failure::read(&told, cause))?;
    let told: serde_json::Value =
        serde_json::from_str(&text).map_err(|cause| Failure::Output { command: name, why: cause.to_string() })?;
    let list = told["baselines"].as_array().map_or(&[][..], Vec::as_slice);
    let failed = list.iter().filter(|one| one["exit"] != 0).count();
    Ok(if failed > 0 { Caught::By(failed) } else { Caught::Nothing })
}

/// Copies a file, or a folder with all that is in it.
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

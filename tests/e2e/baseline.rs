//! `strutwork baseline`: what a user who keeps results meets, and the CI jobs that they are told to paste.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;
use yaml_rust2::{Yaml, YamlLoader};

use crate::harness::{Ran, copy_of, finish, program, project, put, strutwork, tests, text};

fn record(folder: &Path, more: &[&str]) -> Ran {
    strutwork(folder, &[&["baseline", "record", "."], more].concat())
}

fn check(folder: &Path, more: &[&str]) -> Ran {
    strutwork(folder, &[&["baseline", "check", "."], more].concat())
}

fn as_json(folder: &Path) -> Value {
    let ran = check(folder, &["--json"]);
    serde_json::from_str(&ran.stdout).unwrap_or_else(|fault| panic!("{fault}: {}{}", ran.stdout, ran.stderr))
}

/// A copy of a small demo model with a fresh baseline.
fn recorded(more: &[&str]) -> tempfile::TempDir {
    let copy = copy_of(&project().join("demo-models/one-bay/braced"));
    let _ = fs::remove_file(copy.path().join("baseline.csv"));
    record(copy.path(), more).expect(0);
    copy
}

/// Replaces a text that is there once.
fn replace(file: &Path, from: &str, to: &str) {
    let old = text(file);
    assert_eq!(old.matches(from).count(), 1, "`{from}` in {}", file.display());
    put(file, old.replace(from, to));
}

/// Cells of the row of the baseline that begins so.
fn row(folder: &Path, start: &str) -> Vec<String> {
    let all = text(&folder.join("baseline.csv"));
    let line = all.lines().find(|line| line.starts_with(start)).unwrap_or_else(|| panic!("no row {start}"));
    line.split(',').map(str::to_owned).collect()
}

#[test]
fn a_changed_wall_is_told_with_its_cause_and_recorded_when_it_is_meant() {
    let copy = recorded(&[]);
    check(copy.path(), &[]).expect(0);
    let model = text(&copy.path().join("model.toml"));
    let wall = model.lines().find(|line| line.contains("wall_mm")).expect("a wall").to_owned();
    put(&copy.path().join("model.toml"), model.replace(&wall, &wall.replace("2.0", "2.5")));
    assert_ne!(model, text(&copy.path().join("model.toml")), "{wall}");
    let ran = check(copy.path(), &[]);
    ran.expect(1).says("[B013]").says("model.toml differs");
    let mass = ran.stdout.find("frame: mass").expect("the mass departs");
    assert!(mass < ran.stdout.find("reaction ").unwrap_or(usize::MAX), "what matters first:\n{}", ran.stdout);
    let before = text(&copy.path().join("baseline.csv"));
    let ran = record(copy.path(), &["--update"]);
    ran.expect(0);
    assert!(ran.stdout.contains("frame: mass") && ran.stdout.contains("is now recorded"), "{}", ran.stdout);
    assert_ne!(before, text(&copy.path().join("baseline.csv")));
    check(copy.path(), &[]).expect(0);
    let again = record(copy.path(), &["--update"]);
    assert!(again.expect(0).stdout.contains("Nothing to write"), "{}", again.stdout);
}

#[test]
fn a_baseline_is_never_written_over_unasked() {
    let copy = recorded(&[]);
    put(&copy.path().join("baseline.csv"), "mine");
    record(copy.path(), &[]).expect(4);
    assert_eq!(text(&copy.path().join("baseline.csv")), "mine");
    // Nor is one that cannot be read: what its author decided would be lost.
    record(copy.path(), &["--update"]).expect(2).says("[B001]");
    assert_eq!(text(&copy.path().join("baseline.csv")), "mine");
}

#[test]
fn a_value_departs_just_beyond_its_tolerance() {
    let copy = recorded(&[]);
    let cells = row(copy.path(), "frame,,,mass,");
    let (value, tolerance): (f64, f64) = (cells[4].parse().unwrap(), cells[6].parse().unwrap());
    for (off, code) in [(0.9, 0), (-0.9, 0), (1.1, 1), (-1.1, 1)] {
        let other = recorded(&[]);
        let moved = format!("frame,,,mass,{},", value + off * tolerance);
        replace(&other.path().join("baseline.csv"), &format!("frame,,,mass,{},", cells[4]), &moved);
        check(other.path(), &[]).expect(code);
    }
}

#[test]
fn what_was_asked_for_is_asked_for_again() {
    let copy = recorded(&["--modes", "3", "--buckling", "2", "--second-order"]);
    let all = text(&copy.path().join("baseline.csv"));
    for part in ["option,,,second-order,", "option,,,modes,3,", "mode,,3,frequency_hz,", "buckling,", "\nsecond-order,"]
    {
        assert!(all.contains(part), "{part} is not in\n{all}");
    }
    check(copy.path(), &[]).expect(0);
    // An update keeps to it, too.
    let first = all.lines().find(|line| line.starts_with("mode,,1,")).expect("a mode").to_owned();
    replace(&copy.path().join("baseline.csv"), &first, "mode,,1,frequency_hz,1,Hz,1e-9,own");
    record(copy.path(), &["--update"]).expect(0);
    assert_eq!(text(&copy.path().join("baseline.csv")), all);
    put(&copy.path().join("baseline.csv"), all.replace("option,,,modes,3,,,\n", ""));
    let json = as_json(copy.path());
    let missing = json["baselines"][0]["departures"].as_array().unwrap();
    assert_eq!(missing.iter().filter(|one| one["code"] == "B011" && one["kind"] == "mode").count(), 3, "{json:#}");
}

#[test]
fn the_author_chooses_what_is_kept_and_how_closely() {
    let copy = recorded(&["--keep", "joint:*:*:u?_mm", "--keep", "frame:::mass"]);
    let all = text(&copy.path().join("baseline.csv"));
    assert!(
        all.contains("keep,,,,joint:*:*:u?_mm,,,") && !all.contains("rx_deg") && !all.contains("reaction,"),
        "{all}"
    );
    let old = row(copy.path(), "frame,,,mass,").join(",");
    let mine = "frame,,,mass,3,kg,100,the scales in the workshop";
    replace(&copy.path().join("baseline.csv"), &old, mine);
    check(copy.path(), &[]).expect(0);
    record(copy.path(), &["--update"]).expect(0);
    let mass = row(copy.path(), "frame,,,mass,");
    assert_eq!(mass[6..], ["100".to_owned(), "the scales in the workshop".to_owned()]);
    assert_ne!(mass[4], "3");
    let list = record(copy.path(), &["--list"]);
    assert!(list.expect(0).stdout.lines().any(|line| line.starts_with("frame:::mass  ")), "{}", list.stdout);
}

#[test]
fn several_models_are_told_apart_and_the_worst_counts() {
    let place = tempfile::tempdir().unwrap();
    let [good, none] = ["good", "none"].map(|name| place.path().join(name));
    for (folder, from) in [(&good, "demo-models/one-tube"), (&none, "demo-models/one-bay/open")] {
        fs::create_dir(folder).unwrap();
        crate::harness::overlay(&project().join(from), folder);
    }
    fs::remove_file(none.join("baseline.csv")).unwrap();
    let ran = strutwork(place.path(), &["baseline", "check", "good", "none", "--junit", "out.xml"]);
    ran.expect(2).says("none has no baseline.csv");
    assert!(ran.stdout.contains("2 models: 1 hold, 0 depart, 1 could not be checked."), "{}", ran.stdout);
    let xml = text(&place.path().join("out.xml"));
    assert!(xml.contains("errors=\"1\"") && xml.contains("failures=\"0\""), "{xml}");
    let ran = strutwork(place.path(), &["baseline", "check", "good", "none", "--json"]);
    let json: Value = serde_json::from_str(&ran.expect(2).stdout).unwrap();
    assert_eq!((&json["exit"], &json["baselines"][0]["holds"]), (&Value::from(2), &Value::from(true)));
    assert_eq!(json["baselines"][1]["exit"], 2);
}

#[test]
fn a_file_of_somebody_elses_is_not_written_over() {
    let copy = recorded(&[]);
    let file = copy.path().join("out.xml");
    put(&file, "<testsuites name=\"mine\"/>");
    check(copy.path(), &["--junit", "out.xml"]).expect(4);
    assert_eq!(text(&file), "<testsuites name=\"mine\"/>");
    fs::remove_file(&file).unwrap();
    check(copy.path(), &["--junit", "out.xml"]).expect(0);
    check(copy.path(), &["--junit", "out.xml"]).expect(0);
}

#[test]
fn the_same_model_gives_the_same_bytes_on_any_number_of_threads() {
    let all: Vec<String> = ["1", "2", "3"]
        .map(|threads| {
            let copy = copy_of(&tests().join("second/frames/12-everything-held"));
            let _ = fs::remove_file(copy.path().join("baseline.csv"));
            let arguments = ["baseline", "record", ".", "--modes", "6", "--buckling", "2", "--keep", "*"];
            let mut command = program(copy.path(), &arguments);
            command.env("RAYON_NUM_THREADS", threads);
            finish(command, std::time::Duration::from_secs(60)).expect(0);
            text(&copy.path().join("baseline.csv"))
        })
        .into();
    assert!(all[0].len() > 10_000 && all.iter().all(|one| *one == all[0]));
}

/// Joints in another order: the solver eliminates in another order, and every rounding differs. So it does on another
/// processor, which no test can borrow.
#[test]
fn rounding_that_differs_everywhere_stays_within_the_tolerances() {
    for (name, options) in [
        ("second/frames/12-everything-held", &["--modes", "12", "--buckling", "3"][..]),
        ("second/frames/09-releases-and-springs", &["--second-order"]),
        ("fixtures/random-frames/13", &[]),
        ("fixtures/vehicles/wheel-forces", &[]),
    ] {
        let copy = copy_of(&tests().join(name));
        let _ = fs::remove_file(copy.path().join("baseline.csv"));
        record(copy.path(), &[&["--keep", "usual", "--keep", "*"], options].concat()).expect(0);
        let before = as_json(copy.path());
        let file = copy.path().join("joints.csv");
        let old = text(&file);
        let (head, rows) = old.split_once('\n').expect("a header");
        let mut rows: Vec<&str> = rows.lines().collect();
        rows.reverse();
        put(&file, format!("{head}\n{}\n", rows.join("\n")));
        let json = as_json(copy.path());
        // Bays are named by their joints in the order of the file.
        let departs: Vec<&Value> = json["baselines"][0]["departures"]
            .as_array()
            .unwrap_or_else(|| panic!("{json:#}"))
            .iter()
            .filter(|one| one["kind"] != "bay")
            .collect();
        assert!(departs.is_empty(), "{name}: {departs:#?}");
        assert_eq!(before["baselines"][0]["quantities"], json["baselines"][0]["quantities"]);
    }
}

/// Scripts and their folder: what a job would run.
struct Job {
    place: tempfile::TempDir,
    path: std::ffi::OsString,
}

impl Job {
    /// A repository with a frame in `frames/`, and the program where the job puts it.
    fn new() -> Self {
        let place = tempfile::tempdir().unwrap();
        let frame = place.path().join("frames/one-tube");
        fs::create_dir_all(&frame).unwrap();
        crate::harness::overlay(&project().join("demo-models/one-tube"), &frame);
        let bin: PathBuf = place.path().join("program/bin");
        fs::create_dir_all(&bin).unwrap();
        std::os::unix::fs::symlink(env!("CARGO_BIN_EXE_strutwork-under-test"), bin.join("strutwork")).unwrap();
        Self { place, path: std::env::var_os("PATH").unwrap_or_default() }
    }

    fn run(&self, script: &str) -> Ran {
        let mut command = Command::new("bash");
        command.args(["-euo", "pipefail", "-c", script]).current_dir(self.place.path());
        command.env_clear().env("PATH", &self.path).env("LC_ALL", "C");
        finish(command, std::time::Duration::from_secs(60))
    }

    /// Moves an expected value.
    fn spoil(&self) {
        let file = self.place.path().join("frames/one-tube/baseline.csv");
        let mass = row(file.parent().unwrap(), "frame,,,mass,")[4].clone();
        replace(&file, &format!("frame,,,mass,{mass},"), "frame,,,mass,9,");
    }
}

/// Every script of a job, wherever it stands.
fn scripts(yaml: &Yaml, found: &mut Vec<String>) {
    match yaml {
        Yaml::Hash(map) => {
            for (key, value) in map {
                match (key.as_str(), value) {
                    (Some("run" | "script"), Yaml::String(script)) => found.push(script.clone()),
                    (Some("script"), Yaml::Array(lines)) => {
                        let lines: Vec<&str> = lines.iter().filter_map(Yaml::as_str).collect();
                        found.push(lines.join("\n"));
                    }
                    _ => scripts(value, found),
                }
            }
        }
        Yaml::Array(list) => list.iter().for_each(|value| scripts(value, found)),
        _ => {}
    }
}

#[test]
fn the_jobs_to_paste_are_yaml_and_what_they_run_works() {
    for (file, told) in [
        ("github.yml", "::error file=frames/one-tube/baseline.csv,line="),
        ("gitlab.yml", ""),
        ("azure.yml", "##vso[task.logissue type=error;sourcepath=frames/one-tube/baseline.csv;linenumber="),
    ] {
        let source = text(&project().join("scripts/ci").join(file));
        let documents = YamlLoader::load_from_str(&source).unwrap_or_else(|fault| panic!("{file}: {fault}"));
        let mut found = Vec::new();
        documents.iter().for_each(|document| scripts(document, &mut found));
        let [script] = found.iter().filter(|script| script.contains("strutwork baseline")).collect::<Vec<_>>()[..]
        else {
            panic!("{file}: one script checks: {found:?}")
        };
        let job = Job::new();
        job.run(script).expect(0);
        assert!(text(&job.place.path().join("baselines.xml")).contains("failures=\"0\""), "{file}");
        job.spoil();
        let ran = job.run(script);
        assert!(ran.expect(1).stdout.contains(told), "{file}: {}", ran.stdout);
        assert!(text(&job.place.path().join("baselines.xml")).contains("failures=\"1\""), "{file}");
        if file == "gitlab.yml" {
            let report = text(&job.place.path().join("gl-code-quality-report.json"));
            let report: Value = serde_json::from_str(&report).expect("JSON");
            assert_eq!(report[0]["location"]["path"], "frames/one-tube/baseline.csv");
        }
    }
}

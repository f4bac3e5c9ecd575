//! `compare`, and `run --since`: what was changed, what that did, and what is kept for it.

use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::harness::{entries, put, starter, strutwork, text};

/// The starter in `a`, solved, and in `b`, with texts of its files replaced.
fn pair(changes: &[(&str, &str, &str)]) -> tempfile::TempDir {
    let place = starter();
    fs::rename(place.path().join("frame"), place.path().join("a")).unwrap();
    strutwork(place.path(), &["run", "a"]).expect(0);
    fs::create_dir(place.path().join("b")).unwrap();
    for path in entries(&place.path().join("a")).into_iter().filter(|path| path.is_file()) {
        fs::copy(&path, place.path().join("b").join(path.file_name().unwrap())).unwrap();
    }
    for (file, from, to) in changes {
        let path = place.path().join("b").join(file);
        let old = text(&path);
        assert!(old.contains(from), "{file} lacks {from}");
        put(&path, old.replace(from, to));
    }
    place
}

fn json(place: &Path, args: &[&str], code: i32) -> Value {
    serde_json::from_str(&strutwork(place, args).expect(code).stdout).expect("JSON")
}

fn sentences(told: &Value) -> Vec<String> {
    let changes = told["inputs"].as_array().expect("inputs");
    changes.iter().map(|one| one["sentence"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn a_run_keeps_its_inputs_byte_by_byte() {
    let place = pair(&[]);
    let kept = place.path().join("a/results/inputs");
    let own: Vec<_> = entries(&place.path().join("a")).into_iter().filter(|path| path.is_file()).collect();
    assert_eq!(entries(&kept).len(), own.len());
    for path in own {
        let copy = fs::read(kept.join(path.file_name().unwrap())).unwrap();
        assert_eq!(copy, fs::read(&path).unwrap(), "{}", path.display());
    }
    let run: Value = serde_json::from_str(&text(&place.path().join("a/results/run.json"))).unwrap();
    assert!(run["files_written"]["inputs/joints.csv"].is_string());
}

#[test]
fn a_folder_and_itself_differ_in_nothing() {
    let place = pair(&[]);
    for [a, b] in [["a/results", "a/results"], ["a/results", "a"], ["a", "b"]] {
        let told = json(place.path(), &["compare", a, b, "--no-files", "--json"], 0);
        assert_eq!((&told["same"], &told["numbers_that_differ"]), (&Value::from(true), &Value::from(0)), "{a} {b}");
        assert!(told["numbers_compared"].as_u64().unwrap() > 500, "{a} {b}");
    }
    let ran = strutwork(place.path(), &["compare", "a/results", "a", "--no-files"]);
    assert!(ran.expect(0).stdout.contains("Nothing changed"), "{}", ran.stdout);
    assert!(!place.path().join("comparison").exists(), "no files were wanted");
}

/// Turns the rows of a table over.
fn turn_over(path: &Path) {
    let old = text(path);
    let mut lines: Vec<&str> = old.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty()).collect();
    lines[1..].reverse();
    put(path, format!("# in another order\r\n{}\r\n", lines.join("\r\n")));
}

/// Rows turned over and another spelling of a gauge: the model is the same, and so are its results to rounding.
#[test]
fn the_same_model_in_other_words_is_the_same() {
    let place = pair(&[("model.toml", "wall = \"16 swg\"", "wall_mm = 1.6260")]);
    for file in ["joints.csv", "masses.csv", "supports.csv", "loads.csv"] {
        turn_over(&place.path().join("b").join(file));
    }
    let told = json(place.path(), &["compare", "a/results", "b", "--no-files", "--json"], 0);
    assert!(sentences(&told).is_empty(), "{:?}", sentences(&told));
    assert_eq!(
        (&told["numbers_that_differ"], &told["cases_new"]),
        (&Value::from(0), &Value::from(Vec::<Value>::new()))
    );
}

/// Of equal tubes that meet, the first row counts as the one that the others are welded to: the order of tubes is no change of
/// the model, but where it moves a result the comparison says why.
#[test]
fn another_order_of_tubes_is_no_change_but_is_said() {
    let place = pair(&[]);
    turn_over(&place.path().join("b/tubes.csv"));
    let told = json(place.path(), &["compare", "a/results", "b", "--no-files", "--json"], 0);
    assert!(sentences(&told).is_empty(), "{:?}", sentences(&told));
    let ran = strutwork(place.path(), &["compare", "a/results", "b", "--no-files"]);
    assert!(ran.expect(0).stdout.contains("The rows of tubes.csv stand in another order"), "{}", ran.stdout);
}

#[test]
fn page_and_tables_are_written_and_only_ours_are_replaced() {
    let place = pair(&[("model.toml", "wall = \"16 swg\"", "wall_mm = 2.0")]);
    let args = ["compare", "a/results", "b", "--out", "out"];
    let ran = strutwork(place.path(), &args);
    let told = &ran.expect(0).stdout;
    for part in ["Tubes weigh", "kg", "Worst utilisation", "wall 1.626 → 2 mm", "Page: out/compare.html"] {
        assert!(told.contains(part), "{part} is not in\n{told}");
    }
    let out = place.path().join("out");
    let names: Vec<String> =
        entries(&out).iter().map(|path| path.file_name().unwrap().to_string_lossy().into()).collect();
    assert_eq!(names, ["changes.csv", "compare.html", "compare.json", "differences.csv", "findings_changed.csv"]);
    let first: Vec<Vec<u8>> = entries(&out).iter().map(|path| fs::read(path).unwrap()).collect();
    strutwork(place.path(), &args).expect(0);
    let second: Vec<Vec<u8>> = entries(&out).iter().map(|path| fs::read(path).unwrap()).collect();
    assert_eq!(first, second, "the same input gives the same bytes");
    let page = text(&out.join("compare.html"));
    assert!(!page.contains("http://") || !page.contains("src=\"http"), "nothing is fetched");
    put(&out.join("changes.csv"), "mine");
    strutwork(place.path(), &args).expect(4).says("changes.csv");
    assert_eq!(text(&out.join("changes.csv")), "mine");
}

#[test]
fn a_finding_that_newly_exceeds_is_exit_code_one() {
    let place = pair(&[("model.toml", "wall = \"16 swg\"", "wall_mm = 0.6")]);
    let loads = place.path().join("b/loads.csv");
    let heavy: Vec<String> = text(&loads)
        .lines()
        .map(|line| match line.split(',').collect::<Vec<_>>()[..] {
            [case, joint, ..] if !line.starts_with('#') && case != "case" => format!("{case},{joint},90000,0,0,0,0,0"),
            _ => line.to_owned(),
        })
        .collect();
    put(&loads, heavy.join("\n"));
    let told = json(place.path(), &["compare", "a", "b", "--no-files", "--json"], 1);
    assert!(told["findings"].as_array().unwrap().iter().any(|one| one["fate"] == "over its limit now"));
    // The other way round nothing is newly over.
    let told = json(place.path(), &["compare", "b", "a", "--no-files", "--json"], 0);
    assert!(told["findings"].as_array().unwrap().iter().any(|one| one["fate"] == "no longer over its limit"));
}

/// Names that try to break out of the page are shown as what they are.
#[test]
fn hostile_names_do_not_leave_their_place() {
    let place = pair(&[]);
    let path = place.path().join("b/model.toml");
    let old = text(&path);
    put(&path, old.replace("Braced bay", "</style><script>alert(1)</script>").replace("\"A\"", "\"<b>&\""));
    let tubes = place.path().join("b/tubes.csv");
    put(&tubes, text(&tubes).replace("brace-left", "<img src=x onerror=alert(1)>"));
    strutwork(place.path(), &["compare", "a", "b", "--out", "out"]).expect(0);
    let page = text(&place.path().join("out/compare.html"));
    for part in ["<script>alert", "<img", "</style><script"] {
        assert!(!page.contains(part), "{part}");
    }
    assert!(page.contains("&#60;img") || page.contains("&lt;img"));
    let told = json(place.path(), &["compare", "a", "b", "--no-files", "--json"], 0);
    assert!(sentences(&told).iter().any(|one| one.contains("renamed, was brace-left")), "{:?}", sentences(&told));
}

#[test]
fn a_report_tells_what_changed_since_an_older_run() {
    let notes = "\n[revisions.A]\ndate = 2026-01-05\nby = \"R. Weld\"\nnote = \"first\"\n\
                 [revisions.B]\ndate = \"2026-02-01\"\nnote = [\"thicker walls\", \"after the first drive\"]\n";
    let place = pair(&[("model.toml", "wall = \"16 swg\"", "wall_mm = 2.0")]);
    let path = place.path().join("b/model.toml");
    let old = text(&path);
    put(&path, format!("{}{notes}", old.replace("revision = \"A\"", "revision = \"B\"")));
    strutwork(place.path(), &["run", "b", "--since", "a/results", "--pdf"]).expect(0);
    let report = text(&place.path().join("b/results/report.html"));
    for part in [
        "What changed since revision A",
        "wall 1.626 → 2 mm",
        "thicker walls; after the first drive",
        "R. Weld",
        "2026-01-05",
    ] {
        assert!(report.contains(part), "the report lacks {part}");
    }
    let run: Value = serde_json::from_str(&text(&place.path().join("b/results/run.json"))).unwrap();
    assert_eq!(run["since"]["folder"], "a/results");
    assert!(run["since"]["numbers_that_differ"].as_u64().unwrap() > 100);
    assert_eq!(run["model"]["revisions"][0]["by"], "R. Weld");
    // The last run itself may be what it is held against, and is then replaced.
    strutwork(place.path(), &["run", "b", "--since", "b/results"]).expect(0);
    let report = text(&place.path().join("b/results/report.html"));
    assert!(report.contains("What changed since revision B") && report.contains("Nothing changed"), "nothing did");
}

/// The older model is solved as the newer: a case that is given up sooner is so in both.
#[test]
fn a_model_is_solved_as_the_run_that_it_is_held_against() {
    let place = pair(&[]);
    let differ = |older: &str, loose: &[&str]| {
        let args = [&["run", "a", "--second-order", "--since", older, "--out", "loose"], loose].concat();
        strutwork(place.path(), &args).expect(0);
        let run: Value = serde_json::from_str(&text(&place.path().join("loose/run.json"))).unwrap();
        run["since"]["numbers_that_differ"].as_u64().unwrap()
    };
    let loose = ["--tolerance", "1e-2"];
    strutwork(place.path(), &["run", "a", "--second-order", "--out", "exact"]).expect(0);
    assert_eq!(differ("a", &loose), 0);
    assert!(differ("exact", &loose) > 0, "it must be seen in the numbers");
}

#[test]
fn a_model_is_asked_for_the_modes_that_the_results_have() {
    let place = pair(&[("model.toml", "wall = \"16 swg\"", "wall_mm = 2.0")]);
    strutwork(place.path(), &["run", "a", "--modes", "3"]).expect(0);
    let told = json(place.path(), &["compare", "a/results", "b", "--no-files", "--json"], 0);
    let modes = told["differences"].as_array().unwrap().iter().filter(|one| one["kind"] == "mode").count();
    assert!(modes > 0, "{told:#}");
}

#[test]
fn a_changed_table_is_told() {
    let place = pair(&[]);
    let path = place.path().join("a/results/reactions.csv");
    put(&path, format!("{}\n", text(&path).trim_end()).replace(",0,", ",0.0,"));
    let ran = strutwork(place.path(), &["compare", "a/results", "a", "--no-files"]);
    ran.expect(0).says("[C008]").says("reactions.csv");
}

/// A table of modes is one that not every run writes: without the manifest nobody would miss it.
#[test]
fn what_is_gone_after_its_run_is_told() {
    let place = pair(&[]);
    strutwork(place.path(), &["run", "a", "--modes", "2"]).expect(0);
    let results = place.path().join("a/results");
    for name in ["modes.csv", "cases.csv", "inputs/loads.csv", "report.html"] {
        fs::remove_file(results.join(name)).unwrap();
    }
    let ran = strutwork(place.path(), &["compare", "a/results", "b", "--no-files"]);
    let told = &ran.stderr;
    assert!(ran.code < 2, "{told}");
    for name in ["modes.csv", "inputs/loads.csv"] {
        assert!(told.contains(&format!("`{name}` is no longer there, though the run wrote it")), "{told}");
    }
    assert_eq!((told.matches("[C008]").count(), told.matches("[C007]").count()), (2, 1), "{told}");
    // Without its model there is no copy to be taken for whole.
    fs::remove_dir_all(results.join("inputs")).unwrap();
    let told = strutwork(place.path(), &["compare", "a/results", "b", "--no-files"]).stderr;
    assert_eq!((told.matches("[C008]").count(), told.matches("[C009]").count()), (1, 1), "{told}");
}

/// Every table that a run can write is read: what differs in it is told.
#[test]
fn every_kind_of_result_is_compared() {
    let place = pair(&[("model.toml", "wall = \"16 swg\"", "wall_mm = 2.0")]);
    let asked = ["--modes", "3", "--buckling", "2", "--second-order"];
    let args = |folder: &'static str| [&["run", folder], &asked[..]].concat();
    strutwork(place.path(), &args("a")).expect(0);
    strutwork(place.path(), &args("b")).expect(0);
    strutwork(place.path(), &["compare", "a/results", "b/results", "--out", "out"]).expect(0);
    let differences = text(&place.path().join("out/differences.csv"));
    let kinds: std::collections::BTreeSet<&str> =
        differences.lines().skip(1).filter_map(|line| line.split(',').next()).collect();
    for kind in [
        "frame",
        "utilisation",
        "case",
        "mode",
        "buckling",
        "reaction",
        "tube",
        "joint",
        "second-order",
        "mass",
        "weld",
        "load",
    ] {
        assert!(kinds.contains(kind), "{kind} is not among {kinds:?}");
    }
    assert!(!kinds.contains("trust"), "residuals are noise");
}

/// The demo car has bodies, links, panels and bays; with itself it differs in nothing, and all of them are compared.
#[test]
fn the_demo_car_is_compared_with_all_its_parts() {
    let place = crate::harness::copy_of(&crate::harness::project().join("demo-models/trials-car"));
    strutwork(place.path(), &["run", "."]).expect_done();
    let told = json(place.path(), &["compare", "results", "results", "--no-files", "--json"], 0);
    assert_eq!(told["same"], Value::from(true));
    assert!(told["numbers_compared"].as_u64().unwrap() > 100_000);
    let masses = place.path().join("masses.csv");
    put(&masses, text(&masses).replace("engine,78", "engine,90"));
    let ran = strutwork(place.path(), &["compare", "results", ".", "--out", "out"]);
    assert!(ran.code < 2, "{}", ran.stderr);
    let differences = text(&place.path().join("out/differences.csv"));
    let kinds: std::collections::BTreeSet<&str> =
        differences.lines().skip(1).filter_map(|line| line.split(',').next()).collect();
    for kind in ["mount", "link", "panel", "body", "utilisation", "tube", "joint"] {
        assert!(kinds.contains(kind), "{kind} is not among {kinds:?}");
    }
    assert!(!kinds.contains("bay"), "a heavier engine stiffens no bay");
    let told: Vec<String> = text(&place.path().join("out/changes.csv")).lines().skip(1).map(str::to_owned).collect();
    assert_eq!(told, ["mass,engine,,changed,mass,78,90,kg,12,"]);
}

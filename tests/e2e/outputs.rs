//! Where results go: whole or not at all, and never over a file that is not ours.

use std::fs;
use std::path::{Path, PathBuf};

use crate::harness::{copy_of, entries, program, put, starter, strutwork, tests, text};

fn names(folder: &Path) -> Vec<String> {
    entries(folder).iter().map(|path| path.file_name().unwrap().to_string_lossy().into_owned()).collect()
}

/// The files of a folder and of the folders in it.
fn files_below(folder: &Path) -> Vec<PathBuf> {
    let below = |path: PathBuf| if path.is_dir() { files_below(&path) } else { vec![path] };
    entries(folder).into_iter().flat_map(below).collect()
}

#[test]
fn all_files_of_the_contract_are_written_and_nothing_else_is_left() {
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let frame = names(&place.path().join("frame"));
    assert_eq!(
        frame,
        ["joints.csv", "loads.csv", "masses.csv", "model.toml", "results", "supports.csv", "tubes.csv"],
        "nothing beside the results"
    );
    let results = names(&place.path().join("frame/results"));
    for name in [
        "cases.csv",
        "displacements.csv",
        "envelope.csv",
        "findings.csv",
        "governing.csv",
        "mass_table.csv",
        "member_forces.csv",
        "reactions.csv",
        "report.html",
        "run.json",
    ] {
        assert!(results.contains(&name.to_owned()), "{name} is not among {results:?}");
    }
}

/// Bolts, links, panels, bodies: only of models that have them.
const OF_PARTS: [&str; 4] = ["body_movements.csv", "links.csv", "mounts.csv", "panels.csv"];

#[test]
fn files_of_parts_are_written_where_the_model_has_them() {
    let parts_of = |folder: &str| -> Vec<String> {
        let place = copy_of(&tests().join("fixtures").join(folder));
        strutwork(place.path(), &["run", "."]).expect_done();
        let written = names(&place.path().join("results"));
        written.into_iter().filter(|name| OF_PARTS.contains(&name.as_str())).collect()
    };
    assert_eq!(parts_of("vehicles/linked-corners"), ["body_movements.csv", "links.csv", "mounts.csv"]);
    assert_eq!(parts_of("panels/box-with-fixings"), ["panels.csv"]);
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let written = names(&place.path().join("frame/results"));
    assert!(!written.iter().any(|name| OF_PARTS.contains(&name.as_str())), "{written:?}");
}

#[test]
fn a_file_of_a_part_that_was_taken_out_goes_with_it() {
    let place = copy_of(&tests().join("fixtures/panels/box-with-fixings"));
    strutwork(place.path(), &["run", "."]).expect_done();
    assert!(place.path().join("results/panels.csv").is_file());
    fs::remove_file(place.path().join("panels.csv")).unwrap();
    strutwork(place.path(), &["run", "."]).expect_done();
    assert!(!place.path().join("results/panels.csv").exists());
}

#[test]
fn a_second_run_replaces_the_first_and_leaves_foreign_files_alone() {
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    put(&place.path().join("frame/results/measured.csv"), "mine");
    let loads = place.path().join("frame/loads.csv");
    put(&loads, text(&loads).replace("400", "410"));
    let before = text(&place.path().join("frame/results/reactions.csv"));
    strutwork(place.path(), &["run", "frame"]).expect(0);
    assert_ne!(before, text(&place.path().join("frame/results/reactions.csv")));
    assert_eq!(text(&place.path().join("frame/results/measured.csv")), "mine");
}

#[test]
fn a_changed_result_is_not_overwritten_and_is_named() {
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let kept = place.path().join("frame/results/reactions.csv");
    put(&kept, "corrected by hand");
    let ran = strutwork(place.path(), &["run", "frame"]);
    ran.expect(4).says("reactions.csv");
    assert_eq!(text(&kept), "corrected by hand");
}

#[test]
fn a_foreign_file_in_the_way_is_named_and_kept() {
    let place = starter();
    fs::create_dir(place.path().join("elsewhere")).unwrap();
    put(&place.path().join("elsewhere/report.html"), "somebody's");
    let ran = strutwork(place.path(), &["run", "frame", "--out", "elsewhere"]);
    ran.expect(4).says("report.html");
    assert_eq!(names(&place.path().join("elsewhere")), ["report.html"]);
    assert_eq!(text(&place.path().join("elsewhere/report.html")), "somebody's");
    assert!(!place.path().join("frame/results").exists());
}

#[test]
fn a_failed_run_leaves_earlier_results_as_they_were() {
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let results = place.path().join("frame/results");
    let before: Vec<Vec<u8>> = files_below(&results).iter().map(|path| fs::read(path).unwrap()).collect();
    put(
        &place.path().join("frame/supports.csv"),
        "joint,ux,uy,uz,rx,ry,rz\nrear-left-foot,fixed,free,free,free,free,free\n",
    );
    strutwork(place.path(), &["run", "frame"]).expect(3);
    put(&place.path().join("frame/tubes.csv"), "tube,from\n");
    strutwork(place.path(), &["run", "frame"]).expect(2);
    let after: Vec<Vec<u8>> = files_below(&results).iter().map(|path| fs::read(path).unwrap()).collect();
    assert!(before == after, "a failed run changed the results");
}

#[test]
fn results_do_not_go_among_the_inputs() {
    let place = starter();
    strutwork(place.path(), &["run", "frame", "--out", "frame"]).expect(2).says("--out");
    assert!(!place.path().join("frame/report.html").exists());
}

#[test]
fn a_folder_that_cannot_be_made_is_the_environments_fault() {
    let place = starter();
    put(&place.path().join("file"), "");
    strutwork(place.path(), &["run", "frame", "--out", "file"]).expect(4).says("file");
    strutwork(place.path(), &["run", "frame", "--out", "file/below"]).expect(4).says("file");
    strutwork(place.path(), &["new", "file/below"]).expect(4).says("file");
    // Not even root makes a folder here.
    if cfg!(target_os = "linux") {
        strutwork(place.path(), &["run", "frame", "--out", "/proc/strutwork/results"])
            .expect(4)
            .says("/proc/strutwork");
    }
}

#[cfg(unix)]
#[test]
fn what_is_no_regular_file_is_not_read() {
    let place = starter();
    let loads = place.path().join("frame/loads.csv");
    fs::remove_file(&loads).unwrap();
    std::os::unix::fs::symlink("/dev/zero", &loads).unwrap();
    strutwork(place.path(), &["run", "frame"]).expect(4).says("loads.csv");
}

#[cfg(unix)]
#[test]
fn an_input_may_be_a_link() {
    let place = starter();
    let joints = place.path().join("frame/joints.csv");
    fs::rename(&joints, place.path().join("elsewhere.csv")).unwrap();
    std::os::unix::fs::symlink("../elsewhere.csv", &joints).unwrap();
    strutwork(place.path(), &["run", "frame"]).expect(0);
}

#[test]
fn run_json_tells_inputs_with_their_hashes_and_files_written() {
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let run: serde_json::Value = serde_json::from_str(&text(&place.path().join("frame/results/run.json"))).unwrap();
    let told = run.to_string();
    for name in ["model.toml", "joints.csv", "tubes.csv", "supports.csv", "loads.csv", "masses.csv"] {
        assert!(told.contains(name), "{name} is not among the inputs");
    }
    let written = run["files_written"].as_object().expect("files_written");
    assert_eq!(
        written.len() + 1,
        files_below(&place.path().join("frame/results")).len(),
        "every file but run.json itself"
    );
    assert!(written.values().all(|hash| hash.as_str().is_some_and(|hash| hash.len() == 64)));
}

#[test]
fn no_cases_is_told_with_what_to_do() {
    let place = starter();
    fs::remove_file(place.path().join("frame/loads.csv")).unwrap();
    let ran = strutwork(place.path(), &["run", "frame"]);
    ran.expect(2).says("loads.csv");
    assert!(!place.path().join("frame/results").exists());
}

#[test]
fn two_runs_at_once_do_not_mix() {
    let place = starter();
    let children: Vec<_> = (0..4)
        .map(|_| {
            program(place.path(), &["run", "frame"])
                .stdout(std::process::Stdio::null())
                .stderr(std::process::Stdio::null())
                .spawn()
                .unwrap()
        })
        .collect();
    let codes: Vec<i32> = children.into_iter().map(|mut child| child.wait().unwrap().code().unwrap_or(-1)).collect();
    assert!(codes.iter().all(|code| matches!(code, 0 | 4)) && codes.contains(&0), "{codes:?}");
    strutwork(place.path(), &["run", "frame"]).expect(0);
    assert_eq!(entries(&place.path().join("frame")).len(), 7, "nothing temporary is left");
}

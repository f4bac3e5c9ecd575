//! Same input, same bytes: on any number of threads, and twice.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use serde_json::Value;

use crate::harness::{entries, finish, program, project, starter, text};

/// Every file of the results, name and bytes.
fn results(place: &Path, model: &Path, out: &str, threads: &str) -> Vec<(PathBuf, Vec<u8>)> {
    let mut command = program(place, &["run", model.to_str().unwrap(), "--out", out]);
    command.env("RAYON_NUM_THREADS", threads);
    let ran = finish(command, Duration::from_secs(120));
    assert!(matches!(ran.code, 0 | 1), "{}", ran.stderr);
    entries(&place.join(out))
        .into_iter()
        .filter(|path| path.is_file())
        .map(|path| (PathBuf::from(path.file_name().unwrap()), fs::read(&path).unwrap()))
        .collect()
}

fn same_bytes(model: &Path) {
    let place = tempfile::tempdir().unwrap();
    let first = results(place.path(), model, "results", "1");
    assert!(first.len() >= 7, "only {} files", first.len());
    for threads in ["1", "2", "8"] {
        // The same folder name: it is part of the command that the report prints.
        fs::remove_dir_all(place.path().join("results")).unwrap();
        let again = results(place.path(), model, "results", threads);
        for ((name, bytes), (other_name, other)) in first.iter().zip(&again) {
            assert_eq!(name, other_name);
            assert!(bytes == other, "{} differs on {threads} threads", name.display());
        }
    }
}

#[test]
fn the_starter_gives_the_same_bytes() {
    let place = starter();
    same_bytes(&place.path().join("frame"));
}

#[test]
fn the_demo_models_give_the_same_bytes() {
    for model in entries(&project().join("demo-models")).into_iter().filter(|path| path.join("model.toml").exists()) {
        same_bytes(&model);
    }
}

#[test]
fn without_a_fixed_date_only_date_and_timings_differ() {
    let place = starter();
    let run = |out: &str| {
        let mut command = program(place.path(), &["run", "frame", "--out", out]);
        command.env_remove("SOURCE_DATE_EPOCH");
        finish(command, Duration::from_secs(120)).expect(0);
        entries(&place.path().join(out))
    };
    let (one, two) = (run("one"), run("two"));
    assert_eq!(one.len(), two.len());
    for (a, b) in one.iter().zip(&two).filter(|(a, _)| a.extension().is_some_and(|extension| extension == "csv")) {
        assert_eq!(fs::read(a).unwrap(), fs::read(b).unwrap(), "{}", a.display());
    }
    let told = |out: &str| {
        let mut run: Value = serde_json::from_str(&text(&place.path().join(out).join("run.json"))).unwrap();
        let fields = run.as_object_mut().unwrap();
        // The command names the folder, and the report prints the command: its hash differs with it.
        for differs in ["timings_ms", "command", "files_written", "seal_sha256"] {
            assert!(fields.remove(differs).is_some(), "run.json has no {differs}");
        }
        run
    };
    assert_eq!(told("one"), told("two"));
}

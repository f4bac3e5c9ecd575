//! Scripts and the file system: what links and earlier runs have to do with it. Everything else is in `tests/suite/scripts`
//! and `tests/suite/hostile`.

use std::fs;

use crate::harness::{put, strutwork, text};

#[cfg(unix)]
#[test]
fn links_that_lead_outside_are_refused() {
    let place = tempfile::tempdir().unwrap();
    let outside = tempfile::tempdir().unwrap();
    put(&outside.path().join("secret.rhai"), "fn word() { \"secret\" }");
    for (link, target) in [("key.rhai", outside.path().join("secret.rhai")), ("door", outside.path().to_owned())] {
        std::os::unix::fs::symlink(target, place.path().join(link)).unwrap();
    }
    fs::create_dir(place.path().join("out")).unwrap();
    std::os::unix::fs::symlink(outside.path(), place.path().join("out/door")).unwrap();
    for script in [
        "import \"key\" as k; print(k::word());",
        "import \"door/secret\" as k; print(k::word());",
        "open_model(\"door\");",
        "write_text(\"door/new.csv\", \"x\");",
    ] {
        put(&place.path().join("s.rhai"), script);
        let ran = strutwork(place.path(), &["script", "s.rhai", "--out", "out"]);
        ran.expect(2).says("s.rhai:1");
        assert!(!ran.stdout.contains("secret"), "{script}");
    }
    assert!(!outside.path().join("new.csv").exists());
}

#[test]
fn a_script_writes_its_own_files_again_and_no_changed_ones() {
    let place = tempfile::tempdir().unwrap();
    let script = place.path().join("s.rhai");
    put(&script, "write_text(\"a/one.csv\", \"1\");\n");
    strutwork(place.path(), &["script", "s.rhai"]).expect(0);
    put(&script, "write_text(\"a/one.csv\", \"2\");\n");
    strutwork(place.path(), &["script", "s.rhai"]).expect(0);
    let file = place.path().join("results/a/one.csv");
    assert_eq!(text(&file).trim_end(), "2");
    put(&file, "by hand");
    strutwork(place.path(), &["script", "s.rhai"]).expect(4).says("one.csv");
    assert_eq!(text(&file), "by hand");
}

#[test]
fn a_script_imports_from_below_its_own_folder() {
    let place = tempfile::tempdir().unwrap();
    fs::create_dir_all(place.path().join("deep/parts")).unwrap();
    put(&place.path().join("deep/parts/words.rhai"), "fn word() { \"imported\" }");
    put(&place.path().join("deep/s.rhai"), "import \"parts/words\" as w;\nprint(w::word());\n");
    let ran = strutwork(place.path(), &["script", "deep/s.rhai"]);
    ran.expect(0);
    assert_eq!(ran.stdout, "imported\n");
}

#[test]
fn arguments_reach_the_script_as_text() {
    let place = tempfile::tempdir().unwrap();
    put(&place.path().join("s.rhai"), "for word in arguments() { print(word); }\n");
    let ran = strutwork(place.path(), &["script", "s.rhai", "a b", "2.0", "--not-ours"]);
    ran.expect(0);
    assert_eq!(ran.stdout, "a b\n2.0\n--not-ours\n");
}

//! The binary itself: that it starts, and that it is the library's program. What it does is tested in `tests/`.

use std::process::Command;

#[test]
fn the_binary_tells_its_version_and_runs_a_new_model() {
    let strutwork = || Command::new(env!("CARGO_BIN_EXE_strutwork"));
    let version = strutwork().arg("--version").output().expect("it starts");
    assert_eq!(String::from_utf8_lossy(&version.stdout), format!("strutwork {}\n", env!("CARGO_PKG_VERSION")));
    let place = tempfile::tempdir().expect("a temporary folder");
    for args in [["new", "frame"], ["run", "frame"]] {
        let ran = strutwork().args(args).current_dir(place.path()).output().expect("it starts");
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    }
    assert!(place.path().join("frame/results/report.html").is_file());
}

//! Who may name what: one file the sparse solver, one crate the script language, one crate the outside world.

use super::source::{has_word, product_lines, test_files};
use crate::workspace::{File, Workspace};

/// A library, the only package that may depend on it, and the only place that may name it.
const LIBRARIES: [(&str, &str, &str); 5] = [
    ("faer", "strutwork-solve", "crates/strutwork-solve/src/linear/library.rs"),
    ("krilla", "strutwork-paper", "crates/strutwork-paper/src/write/"),
    ("rhai", "strutwork-script", "crates/strutwork-script/"),
    ("rustybuzz", "strutwork-paper", "crates/strutwork-paper/src/words/"),
    ("tiny_skia", "strutwork-paper", "crates/strutwork-paper/src/raster.rs"),
];

/// Ways to touch files, the terminal, the clock or the environment.
const OUTSIDE: [&str; 9] =
    ["std::fs", "fs", "println!", "print!", "eprintln!", "eprint!", "SystemTime", "Instant::now", "std::env"];

/// Where the outside world may be touched: the program, and what never ships with it.
const DOORS: [&str; 4] = ["crates/strutwork-cli/", "crates/strutwork-bench/", "tests/", "xtask/"];

/// Every place where a boundary is crossed.
pub(super) fn broken(files: &[File], workspace: &Workspace) -> Vec<String> {
    let mut broken = dependants(workspace);
    let for_tests = test_files(files);
    for file in files.iter().filter(|file| file.path.ends_with(".rs") && !file.path.starts_with("xtask/")) {
        broken.extend(libraries(file));
        if !for_tests.contains(&file.path) && !is_door(&file.path) {
            broken.extend(outside(file));
        }
    }
    broken
}

/// Packages of ours that depend on a library that is not theirs, in whatever way.
fn dependants(workspace: &Workspace) -> Vec<String> {
    let mut broken = Vec::new();
    for package in workspace.ours() {
        for (library, owner, _) in LIBRARIES {
            if package.name != owner && package.dependencies.iter().any(|dependency| dependency.name == library) {
                broken.push(format!("{}: depends on {library}; only {owner} may", package.name));
            }
        }
    }
    broken
}

/// Lines that name a library outside its place.
fn libraries(file: &File) -> Vec<String> {
    let mut broken = Vec::new();
    for (library, _, place) in LIBRARIES.iter().filter(|(_, _, place)| !file.path.starts_with(place)) {
        for (number, line) in product_lines(&file.text).filter(|(_, line)| names_library(line, library)) {
            broken.push(format!("{}:{number}: names {library}; only {place} may: {}", file.path, line.trim()));
        }
    }
    broken
}

/// Whether a line of code uses a library. The name alone may be an ending, as in `cases.rhai`.
fn names_library(line: &str, library: &str) -> bool {
    line.match_indices(library).any(|(at, _)| {
        let (before, after) = (&line[..at], &line[at + library.len()..]);
        let is_whole = !before.ends_with(|letter: char| letter.is_alphanumeric() || "_.-/".contains(letter))
            && !after.starts_with(|letter: char| letter.is_alphanumeric() || "_-".contains(letter));
        is_whole && (after.starts_with("::") || before.ends_with("use ") || before.ends_with("extern crate "))
    })
}

fn is_door(path: &str) -> bool {
    DOORS.iter().any(|door| path.starts_with(door))
        || path.ends_with("/build.rs")
        || path.contains("/benches/")
        || path.contains("/tests/")
        || path.contains("/examples/")
}

/// Lines that touch the outside world.
fn outside(file: &File) -> Vec<String> {
    let crossed = |line: &str| {
        OUTSIDE.iter().find(|way| match way.strip_suffix('!') {
            Some(name) => line.contains(**way) && has_word(line, name),
            None if **way == "fs" => line.contains("fs::") && has_word(line, "fs"),
            None => has_word(line, way),
        })
    };
    product_lines(&file.text)
        .filter_map(|(number, line)| crossed(line).map(|way| (number, way)))
        .map(|(number, way)| format!("{}:{number}: uses {way}; only strutwork-cli touches the outside", file.path))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, text: &str) -> File {
        File { path: path.to_owned(), text: text.to_owned() }
    }

    #[test]
    fn a_library_is_told_from_a_file_ending() {
        assert!(names_library("use rhai::Engine;", "rhai"));
        assert!(names_library("let x = faer::Mat::new();", "faer"));
        assert!(names_library("use faer;", "faer"));
        assert!(!names_library("read(\"cases.rhai\")", "rhai"));
        assert!(!names_library("use my_faer::x;", "faer"));
    }

    #[test]
    fn a_library_is_allowed_at_home_and_told_elsewhere() {
        let text = "use faer::Mat;\n";
        assert!(libraries(&file("crates/strutwork-solve/src/linear/library.rs", text)).is_empty());
        let broken = libraries(&file("crates/strutwork-solve/src/analysis.rs", text));
        assert_eq!(broken.len(), 1);
        assert!(broken[0].starts_with("crates/strutwork-solve/src/analysis.rs:1: names faer"));
    }

    #[test]
    fn ways_outside_are_told_and_look_alikes_are_not() {
        let text = "use std::fs;\nlet a = fs::read(x);\nprintln!(\"x\");\nlet fsx = offs::of(a);\nsay_println(a);\nenv!(\"X\");\n";
        let broken = outside(&file("crates/a/src/lib.rs", text));
        let places: Vec<_> = broken.iter().map(|told| told.split(": ").next().unwrap_or_default()).collect();
        assert_eq!(places, ["crates/a/src/lib.rs:1", "crates/a/src/lib.rs:2", "crates/a/src/lib.rs:3"]);
    }

    #[test]
    fn doors_are_the_program_and_what_never_ships() {
        assert!(is_door("crates/strutwork-cli/src/files/mod.rs"));
        assert!(is_door("validation/build.rs"));
        assert!(is_door("validation/tests/suite/agreement.rs"));
        assert!(!is_door("crates/strutwork-script/src/lib.rs"));
    }
}

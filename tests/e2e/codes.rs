//! Every code that has a page is triggered by a case of the suite.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::harness::{entries, project, strutwork, tests, text};
use crate::suite::{cases, expected};

/// Codes that no file or script can bring about, each with the reason and the test that does bring it about.
const NOT_FROM_OUTSIDE: &[(&str, &str)] = &[
    ("L010", "validation stops such a vehicle first; crates/strutwork-loads/src/wheels.rs"),
    ("S004", "a guard against what no frame has shown; crates/strutwork-solve/src/explain.rs"),
];

#[test]
fn every_code_is_triggered_by_a_case() {
    let ran = strutwork(tests(), &["explain", "--json"]);
    let pages: Value = serde_json::from_str(&ran.expect(0).stdout).expect("JSON");
    let known: BTreeSet<String> = pages
        .as_array()
        .expect("a list")
        .iter()
        .map(|page| page["code"].as_str().expect("a code").to_owned())
        .collect();
    assert!(known.len() > 60, "only {} pages", known.len());
    let triggered: BTreeSet<String> = cases().iter().flat_map(|(_, folder)| expected(folder).codes).collect();
    let excused: BTreeSet<String> = NOT_FROM_OUTSIDE.iter().map(|&(code, _)| code.to_owned()).collect();
    let missing: Vec<&String> = known.difference(&triggered).filter(|code| !excused.contains(*code)).collect();
    assert!(missing.is_empty(), "no case of the suite triggers {missing:?}");
    let strangers: Vec<&String> = triggered.difference(&known).collect();
    assert!(strangers.is_empty(), "the suite expects codes that have no page: {strangers:?}");
    let needless: Vec<&String> = excused.intersection(&triggered).collect();
    assert!(needless.is_empty(), "excused, but triggered: {needless:?}");
}

/// Every code that a finding is given in the source, as `Code("D001")`.
#[test]
fn every_code_of_a_finding_has_a_page() {
    let pages = strutwork(tests(), &["explain"]).expect(0).stdout.clone();
    let known: BTreeSet<&str> = pages.lines().filter_map(|line| line.split_once("  ")).map(|(code, _)| code).collect();
    let mut used = BTreeSet::new();
    let mut folders = vec![project().join("crates")];
    while let Some(folder) = folders.pop() {
        for path in entries(&folder) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|kind| kind == "rs") && path.iter().any(|part| part == "src") {
                used.extend(codes_in(&text(&path)));
            }
        }
    }
    assert!(used.len() > 15, "only {} codes in the source", used.len());
    let missing: Vec<&String> = used.iter().filter(|code| !known.contains(code.as_str())).collect();
    assert!(missing.is_empty(), "`strutwork explain` knows nothing of {missing:?}");
}

/// What stands in `Code("…")` of a text, but for its tests.
fn codes_in(text: &str) -> Vec<String> {
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    let codes = text.split("Code(\"").skip(1).filter_map(|rest| rest.split_once("\")"));
    codes.map(|(code, _)| code.to_owned()).filter(|code| code.len() == 4).collect()
}

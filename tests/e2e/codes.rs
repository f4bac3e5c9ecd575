//! Every code that has a page is triggered by a case of the suite.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::harness::{strutwork, tests};
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

//! `run.json`: valid, complete, the same every time.

use serde_json::Value;

use crate::fixture::{Finished, cantilever};

#[test]
fn run_json_says_what_was_run_and_how_far_to_trust_it() {
    let finished = Finished::plain(&cantilever(-100.0));
    let text = strutwork_report::run_json(&finished.run());
    assert!(text.ends_with("}\n"));
    let json: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(json["version"], "0.1.0");
    assert_eq!(json["inputs"][0]["sha256"], "ab".repeat(32));
    assert_eq!(json["counters"]["factorisations"], finished.results.counters.factorisations);
    assert_eq!(json["cases"][0]["name"], "pull");
    assert_eq!(json["cases"][0]["applied_n_nm"][2], -100.0);
    assert_eq!(json["warnings"][0]["line"], 7);
    assert_eq!(json["timings_ms"][0]["ms"], 1.25);
    let notes = finished.findings.len();
    assert_eq!(json["findings"], serde_json::json!({ "errors": 0, "warnings": 0, "notes": notes }));
    assert!(!text.contains("-0.0"));
    assert_eq!(text, strutwork_report::run_json(&finished.run()));
}

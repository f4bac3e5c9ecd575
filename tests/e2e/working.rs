//! `working`: what governs each item, and the calculation behind it.

use serde_json::Value;

use crate::harness::{put, starter, strutwork, text};

#[test]
fn without_an_item_the_worst_stands_first_and_nothing_is_written() {
    let place = starter();
    let ran = strutwork(place.path(), &["working", "frame"]);
    ran.expect(0);
    assert!(ran.stdout.starts_with("kind"), "{}", ran.stdout);
    assert!(!place.path().join("frame/results").exists(), "working writes nothing");
    let json: Value =
        serde_json::from_str(&strutwork(place.path(), &["working", "frame", "--json"]).expect(0).stdout).unwrap();
    let governing = json["governing"].as_array().unwrap();
    let used: Vec<f64> = governing.iter().map(|one| one["utilisation"].as_f64().unwrap()).collect();
    assert!(used.len() >= 12 && used.windows(2).all(|pair| pair[0] >= pair[1]), "{used:?}");
    for tube in text(&place.path().join("frame/tubes.csv")).lines().filter(|line| line.contains("brace-")) {
        let name = tube.split(',').next().unwrap();
        assert!(governing.iter().any(|one| one["item"] == name && one["kind"] == "tube"), "{name}");
    }
}

#[test]
fn an_item_is_told_with_what_governs_it() {
    let place = starter();
    let told = strutwork(place.path(), &["working", "frame", "brace-left"]);
    told.expect(0);
    assert!(told.stdout.starts_with("tube brace-left: D0"), "{}", told.stdout);
    let one: Value =
        serde_json::from_str(&strutwork(place.path(), &["working", "frame", "brace-left", "--json"]).expect(0).stdout)
            .unwrap();
    let all: Value =
        serde_json::from_str(&strutwork(place.path(), &["working", "frame", "--json"]).expect(0).stdout).unwrap();
    let listed = all["governing"].as_array().unwrap().iter().find(|row| row["item"] == "brace-left").unwrap();
    for key in ["code", "load_case", "utilisation", "clause", "kind"] {
        assert_eq!(one[key], listed[key], "{key}");
    }
    let others = one["others"].as_array().unwrap();
    assert!(others.iter().all(|other| (&other["code"], &other["item"]) != (&one["code"], &one["item"])));
    if let Some(lines) = one["calculation"]["lines"].as_array() {
        assert!(lines.len() > 3, "a page has inputs and steps");
        let (page, found) = (one["calculation"]["utilisation"].as_f64(), one["utilisation"].as_f64());
        assert!((page.unwrap() - found.unwrap()).abs() < 1e-9, "{page:?} is printed and {found:?} was found");
    }
}

#[test]
fn check_and_load_case_choose_among_the_findings_of_an_item() {
    let place = starter();
    let args = ["working", "frame", "brace-left", "--check", "d001", "--load-case", "push-sideways", "--json"];
    let one: Value = serde_json::from_str(&strutwork(place.path(), &args).expect(0).stdout).unwrap();
    assert_eq!((&one["code"], &one["load_case"]), (&Value::from("D001"), &Value::from("push-sideways")));
    let args = ["working", "frame", "--check", "D001", "--load-case", "push-sideways", "--json"];
    let list: Value = serde_json::from_str(&strutwork(place.path(), &args).expect(0).stdout).unwrap();
    let rows = list["governing"].as_array().unwrap();
    assert!(!rows.is_empty());
    assert!(rows.iter().all(|row| row["code"] == "D001" && row["load_case"] == "push-sideways"));
}

#[test]
fn an_item_over_its_limit_ends_with_one() {
    let place = starter();
    let loads = place.path().join("frame/loads.csv");
    put(&loads, text(&loads).replace("00,", "00000,"));
    let told = strutwork(place.path(), &["working", "frame", "brace-left"]);
    told.expect(1);
    assert!(told.stdout.contains("OVER"), "{}", told.stdout);
    strutwork(place.path(), &["working", "frame"]).expect(1);
}

#[test]
fn what_is_not_there_is_told_with_what_is() {
    let place = starter();
    for (args, said) in [
        (&["brace-lfet"][..], "brace-left"),
        (&["BRACE"], "brace-front"),
        (&["\u{1b}[31m"], "lists what"),
        (&[""], "near it"),
        (&["brace-left", "--load-case", "push-sideway"], "push-sideways"),
        (&["brace-left", "--load-case", "winter"], "push-forward, push-sideways"),
        (&["brace-left", "--check", "D00"], "D001"),
        (&["brace-left", "--check", "D003"], "D001"),
        (&["brace-left", "--check", "🚗"], "explain"),
    ] {
        let ran = strutwork(place.path(), &[&["working", "frame"], args].concat());
        ran.expect(2).says(said);
        assert!(ran.stdout.is_empty() && !ran.stderr.contains('\u{1b}'), "{args:?}: {}", ran.stderr);
    }
    strutwork(place.path(), &["working", "nowhere"]).expect(2);
    put(&place.path().join("frame/tubes.csv"), "tube\n");
    strutwork(place.path(), &["working", "frame", "brace-left"]).expect(2).says("tubes.csv");
}

#[test]
fn a_frame_that_cannot_be_solved_has_no_working() {
    let place = starter();
    put(
        &place.path().join("frame/supports.csv"),
        "joint,ux,uy,uz,rx,ry,rz\nfront-left-foot,fixed,free,fixed,free,free,free\n",
    );
    strutwork(place.path(), &["working", "frame"]).expect(3);
    let json = strutwork(place.path(), &["working", "frame", "--json"]);
    json.expect(3);
    let told: Value = serde_json::from_str(&json.stdout).unwrap();
    assert_eq!(told["exit"], 3);
}

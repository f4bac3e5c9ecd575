//! The demo models give the numbers that their own read-me files print, to half a unit of the last printed digit. The
//! read-mes say where the numbers come from: by hand, or from an independent solution with dense matrices.

use std::path::Path;

use crate::harness::{copy_of, project, strutwork, text};

/// A run of a copy of a demo model; the exit code must be that of a finished run.
fn demo(name: &str) -> tempfile::TempDir {
    let copy = copy_of(&project().join("demo-models").join(name));
    let ran = strutwork(copy.path(), &["run", "."]);
    assert!(matches!(ran.code, 0 | 1), "{name}: exit {}\n{}", ran.code, ran.stderr);
    copy
}

/// The number that a read-me prints in a row of a table: in the first cell after the label that holds one.
fn printed(name: &str, label: &str, column: usize) -> String {
    let readme = text(&project().join("demo-models").join(name).join("README.md"));
    let row = readme
        .lines()
        .find(|line| line.starts_with('|') && line.contains(label))
        .unwrap_or_else(|| panic!("the read-me of {name} has no row `{label}`"));
    let cell = row.split('|').nth(column + 1).unwrap_or_else(|| panic!("`{row}` has no column {column}"));
    let number = cell
        .split_whitespace()
        .rfind(|word| word.trim_end_matches([',', '°']).parse::<f64>().is_ok())
        .unwrap_or_else(|| panic!("`{cell}` holds no number"));
    number.trim_end_matches([',', '°']).to_owned()
}

/// The cell of a table in the results, found by the first columns' values.
fn cell(folder: &Path, file: &str, row: &[&str], column: &str) -> f64 {
    let text = text(&folder.join("results").join(file));
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let place = reader.headers().unwrap().iter().position(|name| name == column).expect(column);
    let found: Vec<f64> = reader
        .records()
        .map(Result::unwrap)
        .filter(|record| row.iter().zip(record).all(|(wanted, cell)| *wanted == cell))
        .map(|record| record[place].parse().expect("a number"))
        .collect();
    assert!(!found.is_empty(), "{file} has no row {row:?}");
    found[0]
}

/// Stops the test unless a value rounds to the printed one.
#[track_caller]
fn prints(value: f64, printed: &str) {
    let decimals = printed.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let half = 0.5 * 10_f64.powi(-i32::try_from(decimals).unwrap());
    let wanted: f64 = printed.parse().unwrap();
    assert!((value - wanted).abs() <= half * (1.0 + 1e-9), "{value} is not {printed}");
}

/// The only case of a plain demo model.
fn first_case(folder: &Path) -> String {
    let text = text(&folder.join("results/displacements.csv"));
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let first = reader.records().next().expect("a row").unwrap();
    first[0].to_owned()
}

#[test]
fn one_tube_drops_as_by_hand() {
    let copy = demo("one-tube");
    let case = first_case(copy.path());
    let tip = |column| cell(copy.path(), "displacements.csv", &[&case, "tip"], column);
    prints(-tip("uz_mm"), &printed("one-tube", "drop of the tip", 2));
    prints(tip("ry_deg"), &printed("one-tube", "slope of the tip", 2));
    let rows = text(&copy.path().join("results/member_forces.csv"));
    let tube = rows.lines().nth(1).unwrap().split(',').nth(1).unwrap().to_owned();
    let end = |station: &str, column| cell(copy.path(), "member_forces.csv", &[&case, &tube, station], column);
    prints(end("0", "my_nm"), &printed("one-tube", "moment at the wall", 2));
    prints(end("1", "my_nm"), "0.0");
    prints(end("0", "sigma_max_mpa").abs(), &printed("one-tube", "stress at the wall", 2));
}

#[test]
fn one_bay_shows_what_a_diagonal_is_worth() {
    for (name, column) in [("open", 1), ("braced", 2)] {
        let copy = demo(&format!("one-bay/{name}"));
        let case = first_case(copy.path());
        let joints = text(&copy.path().join("joints.csv"));
        let top: Vec<String> = joints
            .lines()
            .filter(|line| line.contains("top") && !line.starts_with('#'))
            .map(|line| line.split(',').next().unwrap().to_owned())
            .collect();
        assert_eq!(top.len(), 2, "{name}: the two joints of the top");
        let sway = |joint: &String| cell(copy.path(), "displacements.csv", &[&case, joint], "ux_mm");
        prints(top.iter().map(sway).sum::<f64>() / 2.0, &printed("one-bay", "sway of the top", column));
    }
}

#[test]
fn the_trials_car_weighs_and_twists_as_its_read_me_says() {
    let copy = demo("trials-car");
    // With the frame to turn in it: small enough for a phone.
    assert!(text(&copy.path().join("results/report.html")).len() < 2_000_000);
    let cases = text(&copy.path().join("results/cases.csv"));
    let mut reader = csv::Reader::from_reader(cases.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let value = |quantity: &str| -> f64 {
        let row = rows.iter().find(|row| &row[1] == quantity).unwrap_or_else(|| panic!("no {quantity}"));
        row[2].parse().unwrap()
    };
    let says = |label: &str| printed("trials-car", label, 1);
    prints(value("mass"), &says("whole car"));
    prints(value("torsional_stiffness"), &says("torsional stiffness, with module and skins"));
    let tubes = strutwork(copy.path(), &["check", "."]);
    let count = text(&project().join("demo-models/trials-car/README.md"));
    let joints =
        tubes.expect(0).stdout.lines().find(|line| line.contains("joints")).expect("a line of counts").to_owned();
    for word in joints.split(", ").take(2) {
        let word = word.trim_start().trim_start_matches("frame").trim();
        assert!(count.contains(word), "the read-me says another number than {word}");
    }
}

/// What crates/strutwork-rig/examples/sheets.rs plants in the car's synthetic rig sheet is found: the model's own twist at the
/// front springs, 0.149591 deg/kN·m, over 0.93, and half as much again between scuttle and firewall, 0.034323/0.93 · 0.5, make
/// 5577 N·m/deg; a slip in the third cycle.
#[test]
fn the_synthetic_rig_sheet_gives_back_what_was_planted() {
    let copy = demo("trials-car");
    let of = |column| cell(copy.path(), "rig_stiffness.csv", &["measured"], column);
    let planted = 1e3 / (0.149_591 / 0.93 + 0.5 * 0.034_323 / 0.93);
    assert!(of("low") < planted && planted < of("high"), "{} to {}", of("low"), of("high"));
    assert!((of("value") / planted - 1.0).abs() < 0.01, "{}", of("value"));
    assert!(cell(copy.path(), "rig_bays.csv", &["scuttle", "firewall"], "ratio") > 1.25);
    let findings = text(&copy.path().join("results/findings.csv"));
    for (code, words) in [("G121", "before step 5 loading of cycle 3"), ("G133", "between scuttle and firewall")] {
        assert!(findings.lines().any(|line| line.starts_with(code) && line.contains(words)), "{code}: {words}");
    }
    let run: serde_json::Value = serde_json::from_str(&text(&copy.path().join("results/run.json"))).expect("JSON");
    assert_eq!(run["rig"]["standing"], "softer");
    assert_eq!(run["rig"]["left_out"], 0);
}

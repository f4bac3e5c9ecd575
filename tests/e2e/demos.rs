//! The demo models give the numbers of their own read-me files. The expected values are those, with half a unit of their
//! last digit; the sources are the read-mes' (by hand, or an independent solution with dense matrices).

use std::path::Path;

use crate::harness::{copy_of, project, strutwork, text};

/// A run of a copy of a demo model; the exit code must be that of a finished run.
fn demo(name: &str) -> tempfile::TempDir {
    let copy = copy_of(&project().join("demo-models").join(name));
    let ran = strutwork(copy.path(), &["run", "."]);
    assert!(matches!(ran.code, 0 | 1), "{name}: exit {}\n{}", ran.code, ran.stderr);
    copy
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
    prints(tip("uz_mm"), "-11.663");
    prints(tip("ry_deg"), "1.0024");
    let rows = text(&copy.path().join("results/member_forces.csv"));
    let tube = rows.lines().nth(1).unwrap().split(',').nth(1).unwrap().to_owned();
    let end = |station: &str, column| cell(copy.path(), "member_forces.csv", &[&case, &tube, station], column);
    prints(end("0", "my_nm"), "200.0");
    prints(end("1", "my_nm"), "0.0");
    prints(end("0", "sigma_max_mpa").abs(), "110.2");
}

#[test]
fn one_bay_shows_what_a_diagonal_is_worth() {
    for (name, sway) in [("one-bay/open", "1.929"), ("one-bay/braced", "0.0464")] {
        let copy = demo(name);
        let case = first_case(copy.path());
        let joints = text(&copy.path().join("joints.csv"));
        let top: Vec<String> = joints
            .lines()
            .filter(|line| line.contains("top") && !line.starts_with('#'))
            .map(|line| line.split(',').next().unwrap().to_owned())
            .collect();
        assert_eq!(top.len(), 2, "{name}: the two joints of the top");
        let mean =
            top.iter().map(|joint| cell(copy.path(), "displacements.csv", &[&case, joint], "ux_mm")).sum::<f64>() / 2.0;
        prints(mean, sway);
    }
}

#[test]
fn the_trials_car_weighs_and_twists_as_its_read_me_says() {
    let copy = demo("trials-car");
    let cases = text(&copy.path().join("results/cases.csv"));
    let mut reader = csv::Reader::from_reader(cases.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let values = |quantity: &str| -> Vec<f64> {
        rows.iter().filter(|row| &row[1] == quantity).map(|row| row[2].parse().unwrap()).collect()
    };
    prints(values("mass")[0], "572.3");
    prints(values("cg_x")[0], "1156");
    prints(values("cg_y")[0], "1");
    prints(values("cg_z")[0] + 260.0, "463");
    let stiffness = values("torsional_stiffness");
    assert!(!stiffness.is_empty(), "a standard case measures the twist");
    prints(stiffness[0], "5085");
    let worst = text(&copy.path().join("results/findings.csv"));
    assert!(worst.contains("firewall-6"), "the worst tube of all is judged");
}

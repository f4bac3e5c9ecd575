//! Natural modes and load factors against a second calculation by general-purpose solvers: `tests/second/`.

use std::path::Path;

use crate::harness::{copy_of, entries, strutwork, tests, text};

/// Agreement asked for, as a share of each value.
const CLOSE: f64 = 1e-10;

/// Rows of a table as maps from its header would be: the cells of the wanted columns.
fn columns(file: &Path, wanted: &[&str]) -> Vec<Vec<String>> {
    let mut reader = csv::Reader::from_path(file).unwrap_or_else(|cause| panic!("{}: {cause}", file.display()));
    let header = reader.headers().expect("a header").clone();
    let places: Vec<usize> =
        wanted.iter().map(|name| header.iter().position(|column| column == *name).expect("the column")).collect();
    let cells = |record: csv::StringRecord| places.iter().map(|place| record[*place].to_owned()).collect();
    reader.records().map(|record| cells(record.expect("a row"))).collect()
}

fn value(text: &str) -> f64 {
    text.parse().unwrap_or_else(|_| panic!("`{text}` is no number"))
}

/// What a run found, named as in `expected/eigen.csv`: kind, case, place, value.
fn found(results: &Path) -> Vec<(String, f64)> {
    let mut found = Vec::new();
    let elastic = columns(&results.join("modes.csv"), &["frequency_hz"]).into_iter().map(|row| value(&row[0]));
    for (place, hz) in elastic.filter(|hz| *hz > 0.0).enumerate() {
        found.push((format!("frequency_hz,,{}", place + 1), hz));
    }
    for (kind, file) in [("load_factor", "buckling.csv"), ("load_factor_reversed", "buckling_reversed.csv")] {
        let file = results.join(file);
        if file.exists() {
            for row in columns(&file, &["case", "mode", "load_factor"]) {
                found.push((format!("{kind},{},{}", row[0], row[1]), value(&row[2])));
            }
        }
    }
    found
}

/// Runs a frame; what departs from the second calculation.
fn departures(folder: &Path) -> Vec<String> {
    let how = columns(&folder.join("expected/how.csv"), &["pieces", "lumped"]).remove(0);
    let copy = copy_of(folder);
    let mut arguments = vec!["run", ".", "--modes", "24", "--buckling", "6", "--pieces", how[0].as_str()];
    if how[1] == "yes" {
        arguments.push("--lumped");
    }
    strutwork(copy.path(), &arguments).expect_done();
    let results = copy.path().join("results");
    let found = found(&results);
    let expected = columns(&folder.join("expected/eigen.csv"), &["kind", "case", "place", "value"]);
    assert!(expected.len() >= 24, "{}", folder.display());
    let mut wrong = Vec::new();
    for row in &expected {
        let (key, wanted) = (format!("{},{},{}", row[0], row[1], row[2]), value(&row[3]));
        let got = found.iter().find(|(known, _)| *known == key).map(|(_, got)| *got);
        if !got.is_some_and(|got| (got / wanted - 1.0).abs() <= CLOSE) {
            wrong.push(format!("{} {key}: expected {wanted}, got {got:?}", folder.display()));
        }
    }
    // No mode is missed: so many lie below the frequency up to which the program counted.
    let told: serde_json::Value = serde_json::from_str(&text(&results.join("run.json"))).expect("JSON");
    let modes = &told["modes"];
    let edge = modes["counted_below_hz"].as_f64().expect("a frequency");
    let below = expected.iter().filter(|row| row[0] == "frequency_hz" && value(&row[3]) < edge).count() as u64;
    let rigid = modes["rigid"].as_u64().expect("a number");
    if modes["counted"].as_u64() != Some(below + rigid) || modes["found"].as_u64() != Some(below + rigid) {
        wrong.push(format!("{}: {below} and {rigid} rigid modes lie below {edge} Hz: {modes}", folder.display()));
    }
    wrong
}

#[test]
fn modes_and_load_factors_of_random_frames_are_those_of_general_solvers() {
    let all = entries(&tests().join("second/frames"));
    assert!(all.len() >= 16, "only {} frames", all.len());
    let wrong: Vec<String> = all.iter().flat_map(|folder| departures(folder)).collect();
    assert!(wrong.is_empty(), "{} values depart:\n{}", wrong.len(), wrong.join("\n"));
}

//! Frames, trusses and vehicles with independently computed answers: `tests/fixtures/*/*/expected/*.csv`.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::harness::{copy_of, entries, strutwork, tests};

/// Agreement asked for, as a share of the largest value of its kind in the file.
const CLOSE: f64 = 1e-8;

/// Scale of a kind whose every expected value is smaller: mm, degrees, N or N·m.
const LEAST_SCALE: f64 = 1e-3;

/// Columns that name a row.
const KEYS: [&str; 9] = ["case", "joint", "tube", "station", "body", "panel", "corner", "link", "quantity"];

/// Columns that are compared, in kinds: values of one kind share one scale. The column `value` of `cases.csv` goes by its
/// unit.
const KINDS: [&[&str]; 12] = [
    &["ux_mm", "uy_mm", "uz_mm"],
    &["rx_deg", "ry_deg", "rz_deg"],
    &["fx_n", "fy_n", "fz_n", "axial_n", "shear_n", "force_n"],
    &["n_n", "vy_n", "vz_n"],
    &["mx_nm", "my_nm", "mz_nm", "t_nm", "moment_nm"],
    &["flow_n_per_mm", "flow_1_n_per_mm", "flow_2_n_per_mm", "flow_3_n_per_mm", "flow_4_n_per_mm"],
    &["stress_mpa", "buckling_mpa"],
    &["buckling_ratio"],
    &["fastener_n"],
    &["bond_mpa"],
    &["g"],
    &["rad/s²"],
];

/// Rows of a table by their names: column → value, `None` where the cell is empty.
type Table = BTreeMap<Vec<String>, BTreeMap<String, Option<f64>>>;

fn table(path: &Path) -> Table {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(path)
        .unwrap_or_else(|cause| panic!("{}: {cause}", path.display()));
    let header: Vec<String> = reader.headers().expect("a header").iter().map(str::to_owned).collect();
    reader
        .records()
        .map(|record| {
            let record = record.unwrap_or_else(|cause| panic!("{}: {cause}", path.display()));
            let mut key = Vec::new();
            let mut values = BTreeMap::new();
            let unit = header.iter().position(|column| column == "unit").map(|at| record[at].to_owned());
            for (column, cell) in header.iter().zip(&record) {
                if column == "station" {
                    // `0` and `0.0` are one place.
                    key.push(format!("{}", cell.parse::<f64>().expect("a station")));
                } else if KEYS.contains(&column.as_str()) {
                    key.push(cell.to_owned());
                    continue;
                }
                let column = if column == "value" { unit.as_ref().unwrap_or(column) } else { column };
                if KINDS.iter().any(|kind| kind.contains(&column.as_str())) {
                    values.insert(column.clone(), (!cell.is_empty()).then(|| cell.parse().unwrap_or(f64::NAN)));
                }
            }
            (key, values)
        })
        .collect()
}

/// What departs in one file; empty where all agrees.
fn compare(expected: &Table, got: &Table) -> Vec<String> {
    let mut wrong = Vec::new();
    for kind in KINDS {
        let scale = expected
            .values()
            .flat_map(|row| row.iter().filter(|(column, _)| kind.contains(&column.as_str())))
            .filter_map(|(_, value)| value.map(f64::abs))
            .fold(LEAST_SCALE, f64::max);
        for (key, row) in expected {
            for (column, &value) in row.iter().filter(|(column, _)| kind.contains(&column.as_str())) {
                let found = got.get(key).and_then(|row| row.get(column)).copied();
                // A NaN is on no side of the limit, so the comparison is for what agrees.
                let agrees = match (value, found) {
                    (Some(value), Some(Some(found))) => (found - value).abs() <= CLOSE * scale,
                    (None, Some(None)) => true,
                    _ => false,
                };
                if !agrees {
                    wrong.push(format!("{key:?} {column}: expected {value:?}, got {found:?}, scale {scale:e}"));
                }
            }
        }
    }
    wrong
}

fn fixtures() -> Vec<PathBuf> {
    entries(&tests().join("fixtures"))
        .into_iter()
        .filter(|path| path.is_dir())
        .flat_map(|family| entries(&family))
        .filter(|path| path.join("expected").is_dir())
        .collect()
}

/// The file of the results that answers an expected one, and whether every expected row must be in it. Between its ends a
/// tube's forces are written where its own extremes ask for it, so not every quarter point need be there.
fn answered_by(expected: &str) -> (&str, bool) {
    match expected {
        "member_ends.csv" => ("member_forces.csv", true),
        "member_interior.csv" => ("member_forces.csv", false),
        other => (other, true),
    }
}

#[test]
fn every_expected_value_is_found() {
    let all = fixtures();
    assert!(all.len() >= 38, "only {} fixtures", all.len());
    let mut wrong = Vec::new();
    let mut compared = BTreeMap::new();
    for folder in &all {
        let copy = copy_of(folder);
        let ran = strutwork(copy.path(), &["run", ".", "--out", "results"]);
        if !matches!(ran.code, 0 | 1) {
            wrong.push(format!("{}: exit {}\n{}", folder.display(), ran.code, ran.stderr));
            continue;
        }
        for path in entries(&folder.join("expected")) {
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            let (answer, every) = answered_by(&name);
            let got = table(&copy.path().join("results").join(answer));
            let mut expected = table(&path);
            if !every {
                expected.retain(|key, _| got.contains_key(key));
            }
            *compared.entry(name.clone()).or_insert(0) += expected.len();
            let faults = compare(&expected, &got);
            if !faults.is_empty() {
                let first = faults[..faults.len().min(5)].join("\n  ");
                wrong.push(format!("{} {name}: {} values\n  {first}", folder.display(), faults.len()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for (name, least) in [
        ("displacements.csv", 1000),
        ("reactions.csv", 100),
        ("member_ends.csv", 1000),
        ("member_interior.csv", 500),
        ("mounts.csv", 100),
        ("body_movements.csv", 30),
        ("panels.csv", 60),
        ("links.csv", 30),
        ("cases.csv", 100),
    ] {
        let rows = compared.get(name).copied().unwrap_or(0);
        assert!(rows >= least, "only {rows} rows of {name} compared");
    }
}

#[test]
fn a_departure_is_noticed() {
    let row = |value| BTreeMap::from([("fx_n".to_owned(), Some(value)), ("fy_n".to_owned(), Some(1000.0))]);
    let key = vec!["case".to_owned(), "A".to_owned()];
    let expected = Table::from([(key.clone(), row(1.0))]);
    assert!(compare(&expected, &expected).is_empty());
    assert_eq!(compare(&expected, &Table::from([(key.clone(), row(1.0 + 1.1e-5))])).len(), 1);
    assert_eq!(compare(&expected, &Table::from([(key, row(f64::NAN))])).len(), 1);
    assert_eq!(compare(&expected, &Table::new()).len(), 2, "a missing row");
    let empty =
        Table::from([(expected.keys().next().expect("a row").clone(), BTreeMap::from([("fx_n".to_owned(), None)]))]);
    assert_eq!(compare(&empty, &expected).len(), 1, "a value where none belongs");
    assert_eq!(compare(&expected, &empty).len(), 2, "none where a value belongs, and a column that is not there");
}

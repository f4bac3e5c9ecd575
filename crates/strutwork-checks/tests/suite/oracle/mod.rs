//! The program's formulas against a second calculation of them: `tests/oracle/README.md`.

use std::path::PathBuf;

/// Relative difference at which two calculations of one formula are the same.
const SAME: f64 = 1e-9;

/// Ends of column names, and the size of their units in SI.
const SUFFIXES: &[(&str, f64)] = &[
    ("_n_per_mm", 1e3),
    ("_mm3", 1e-9),
    ("_mm2", 1e-6),
    ("_mm", 1e-3),
    ("_nm", 1.0),
    ("_n", 1.0),
    ("_mpa", 1e6),
    ("_deg", std::f64::consts::PI / 180.0),
];

/// A row of a table.
pub struct Row {
    place: String,
    cells: Vec<(String, String)>,
}

/// The rows of `tests/oracle/NAME.csv`.
pub fn table(name: &str) -> Vec<Row> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/oracle").join(format!("{name}.csv"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
    let mut lines = text.lines();
    let columns: Vec<&str> = lines.next().expect("a header").split(',').collect();
    let rows: Vec<Row> = lines
        .enumerate()
        .map(|(number, line)| {
            let cells: Vec<String> = line.split(',').map(str::to_owned).collect();
            assert_eq!(cells.len(), columns.len(), "{name}.csv:{}", number + 2);
            let named = columns.iter().map(|&column| column.to_owned()).zip(cells).collect();
            Row { place: format!("{name}.csv:{}", number + 2), cells: named }
        })
        .collect();
    assert!(!rows.is_empty(), "{name}.csv has no rows");
    rows
}

impl Row {
    /// The cell as text.
    pub fn text(&self, column: &str) -> &str {
        let cell = self.cells.iter().find(|(name, _)| name == column);
        &cell.unwrap_or_else(|| panic!("{}: no column {column}", self.place)).1
    }

    /// The cell in SI, by the unit at the end of the column's name; `None` where it is empty.
    pub fn given(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        if text.is_empty() {
            return None;
        }
        let value: f64 = text.parse().unwrap_or_else(|_| panic!("{}: {column} is `{text}`", self.place));
        let size = SUFFIXES.iter().find(|(suffix, _)| column.ends_with(suffix)).map_or(1.0, |(_, size)| *size);
        Some(value * size)
    }

    /// The cell in SI; it must not be empty.
    pub fn si(&self, column: &str) -> f64 {
        self.given(column).unwrap_or_else(|| panic!("{}: {column} is empty", self.place))
    }

    /// Ours is what the table has.
    pub fn same(&self, column: &str, ours: f64) {
        self.same_by(column, ours, SAME);
    }

    /// Ours is what the table has, within a relative difference.
    pub fn same_by(&self, column: &str, ours: f64, by: f64) {
        let theirs = self.si(column);
        let scale = theirs.abs().max(ours.abs()).max(f64::MIN_POSITIVE);
        let same = ours == theirs || (ours - theirs).abs() <= by * scale || (theirs == 0.0 && ours.abs() < 1e-12);
        assert!(same, "{}: {column} is {theirs:e} there, {ours:e} here", self.place);
    }
}

//! The program's formulas against a second calculation of them: `tests/oracle/README.md`.

mod bolts;
mod joints;
mod members;
mod others;
mod sections;
mod welds;

use std::path::PathBuf;

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Unit;

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

/// Units of lines.
const UNITS: &[Unit] =
    &[Unit::ONE, Unit::MM, Unit::MM2, Unit::MM3, Unit::MM4, Unit::N, Unit::NM, Unit::MPA, Unit::N_PER_MM, Unit::DEG];

/// The value, SI, of the last line of a page with a symbol.
pub(crate) fn line(page: &Calculation, symbol: &str) -> Option<f64> {
    let line = page.lines.iter().rev().find(|line| line.symbol == symbol)?;
    let unit = UNITS.iter().find(|unit| unit.name == line.unit).unwrap_or_else(|| panic!("{symbol} in {}", line.unit));
    Some(line.value * unit.size)
}

/// A row of a table.
pub(crate) struct Row {
    place: String,
    cells: Vec<(String, String)>,
}

/// The rows of `tests/oracle/NAME.csv`.
pub(crate) fn table(name: &str) -> Vec<Row> {
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
    /// Where it stands.
    pub(crate) fn place(&self) -> &str {
        &self.place
    }

    /// The cell as text; `None` where there is no such column.
    pub(crate) fn get(&self, column: &str) -> Option<&str> {
        self.cells.iter().find(|(name, _)| name == column).map(|(_, cell)| cell.as_str())
    }

    /// The cell as text.
    pub(crate) fn text(&self, column: &str) -> &str {
        self.get(column).unwrap_or_else(|| panic!("{}: no column {column}", self.place))
    }

    /// The cell in SI, by the unit at the end of the column's name; `None` where it is empty or there is no such column.
    pub(crate) fn given(&self, column: &str) -> Option<f64> {
        let text = self.get(column).filter(|text| !text.is_empty())?;
        let value: f64 = text.parse().unwrap_or_else(|_| panic!("{}: {column} is `{text}`", self.place));
        let size = SUFFIXES.iter().find(|(suffix, _)| column.ends_with(suffix)).map_or(1.0, |(_, size)| *size);
        Some(value * size)
    }

    /// The cell in SI; it must not be empty.
    pub(crate) fn si(&self, column: &str) -> f64 {
        self.given(column).unwrap_or_else(|| panic!("{}: {column} is empty", self.place))
    }

    /// Ours is what the table has.
    pub(crate) fn same(&self, column: &str, ours: f64) {
        self.same_by(column, ours, SAME);
    }

    /// Ours is what the table has, within a relative difference.
    pub(crate) fn same_by(&self, column: &str, ours: f64, by: f64) {
        let theirs = self.si(column);
        let scale = theirs.abs().max(ours.abs()).max(f64::MIN_POSITIVE);
        let same = ours == theirs || (ours - theirs).abs() <= by * scale || (theirs == 0.0 && ours.abs() < 1e-12);
        assert!(same, "{}: {column} is {theirs:e} there, {ours:e} here", self.place);
    }
}

//! Second order, where it was asked for.

use crate::run::Run;
use crate::table::{Cell, Table};
use crate::tables;

use super::table::TableView;

/// Rows that are shown; the rest stands in the files.
const CASES: usize = 60;
const TUBES: usize = 20;
/// Columns that only the file has: what is the same for every quantity of a case.
const IN_FILE: [&str; 4] = ["left_forces", "left_movements", "pieces", "piece_error"];

/// Second order of the cases.
pub(super) struct SecondOrderView {
    pub(super) table: TableView,
    /// Tubes that grow most, in the cases where they do.
    pub(super) tubes: Option<TableView>,
    /// Cases without a result, in words.
    pub(super) refused: Vec<String>,
    /// The greatest piece error, in words.
    pub(super) error: String,
}

impl SecondOrderView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        if !run.results.is_second_order() {
            return None;
        }
        let mut table = tables::second_order::table(run);
        for key in IN_FILE {
            leave_out(&mut table, key);
        }
        let told = run
            .findings
            .iter()
            .filter(|finding| finding.code.0 == "D024" && finding.severity == strutwork_model::Severity::Error);
        let each = run.results.cases.iter().filter_map(|case| case.second_order.as_ref());
        let error = each.map(|second| second.piece_error).fold(0.0, f64::max);
        let mut tubes = tables::second_order::of_tubes(run);
        most_grown(&mut tubes);
        Some(Self {
            table: TableView::cut(&table, CASES, "second_order.csv"),
            tubes: (!tubes.rows.is_empty()).then(|| TableView::cut(&tubes, TUBES, "second_order_tubes.csv")),
            refused: told.map(|finding| format!("{}: {}.", finding.case, finding.message)).collect(),
            error: format!("{error:.0e}"),
        })
    }
}

/// Takes a column out.
fn leave_out(table: &mut Table<'_>, key: &str) {
    if let Some(place) = table.columns.iter().position(|column| column.key == key) {
        table.columns.remove(place);
        table.rows.iter_mut().for_each(|row| {
            row.remove(place);
        });
    }
}

/// Sorts tubes by what second order adds to their moment, most first.
fn most_grown(tubes: &mut Table<'_>) {
    let added = |row: &[Cell<'_>]| match (&row[2], &row[3]) {
        (Cell::Number(first), Cell::Number(second)) => second - first,
        _ => 0.0,
    };
    tubes.rows.sort_by(|a, b| added(b).total_cmp(&added(a)));
}

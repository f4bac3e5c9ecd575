//! How well this version of the program meets published problems.

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::table::TableView;

/// A row for each family of problems; `None` where nothing was told of them.
pub(super) fn table(run: &Run<'_>) -> Option<TableView> {
    let count = |number: usize| Cell::Number(number as f64);
    let rows = run
        .info
        .validated
        .iter()
        .map(|of| vec![Cell::text(&of.family), count(of.problems), count(of.values), count(of.agree)]);
    let column = |key, title| Column::number(key, title, "", Digits::Decimals(0));
    let table = Table {
        name: "validation",
        caption: "Published problems, re-solved with this version, by family".into(),
        columns: vec![
            Column::text("family", "family"),
            column("problems", "problems"),
            column("values", "printed values"),
            column("agree", "agree"),
        ],
        rows: rows.collect(),
    };
    TableView::where_any(&table, "validation/REPORT.md")
}

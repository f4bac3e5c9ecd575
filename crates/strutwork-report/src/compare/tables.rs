//! Changes, differences and findings as tables: `changes.csv`, `differences.csv`, `findings_changed.csv`.

use std::borrow::Cow;

use strutwork_revision::differences::FindingChange;
use strutwork_revision::inputs::{Change, Detail, Inputs, Value};
use strutwork_revision::{Comparison, differences::Difference};

use crate::table::{Cell, Column, Digits, Table};
use crate::write::csv::to_csv;

/// Every file of a comparison but its page: its name and its text.
pub fn csv_files(comparison: &Comparison) -> Vec<(String, String)> {
    let changes = comparison.inputs.as_ref().map(changes);
    let tables = changes.into_iter().chain([differences(&comparison.differences), findings(&comparison.findings)]);
    tables.map(|table| (format!("{}.csv", table.name), to_csv(&table))).collect()
}

/// What was changed in the model, one row a detail; what was added or is gone has one row.
pub fn changes(inputs: &Inputs) -> Table<'_> {
    let mut rows = Vec::new();
    for change in &inputs.changes {
        if change.details.is_empty() {
            rows.push(change_row(change, None));
        }
        rows.extend(change.details.iter().map(|detail| change_row(change, Some(detail))));
    }
    Table {
        name: "changes",
        caption: "What was changed in the model".into(),
        columns: vec![
            Column::text("part", "part"),
            Column::text("item", "item"),
            Column::text("old_item", "was called"),
            Column::text("change", "change"),
            Column::text("what", "what"),
            Column::text("before", "before"),
            Column::text("after", "after"),
            Column::text("unit", "unit"),
            Column::number("size", "by", "", Digits::Given),
            Column::text("about", "besides"),
        ],
        rows,
    }
}

fn change_row<'a>(change: &'a Change, detail: Option<&'a Detail>) -> Vec<Cell<'a>> {
    let value = |value: Option<&Value>| value.map_or(Cell::Empty, |value| Cell::from(value.text()));
    let (before, after) = detail.map_or((None, None), |detail| (detail.before.as_ref(), detail.after.as_ref()));
    vec![
        Cell::text(change.part.word()),
        Cell::text(&change.name),
        change.old_name.as_deref().map_or(Cell::Empty, Cell::text),
        Cell::text(change.how.word()),
        detail.map_or(Cell::Empty, |detail| Cell::text(&detail.what)),
        value(before),
        value(after),
        after.or(before).map_or(Cell::Empty, |value| Cell::text(value.unit())),
        Cell::from(detail.and_then(Detail::size)),
        Cell::text(&change.about),
    ]
}

/// Numbers that differ, in the order in which they are given.
pub fn differences<'a>(all: impl IntoIterator<Item = &'a Difference>) -> Table<'a> {
    let row = |one: &'a Difference| {
        vec![
            Cell::text(one.kind.word()),
            Cell::text(&one.case),
            Cell::text(&one.subject),
            one.old_subject.as_deref().map_or(Cell::Empty, Cell::text),
            Cell::Text(Cow::Borrowed(one.quantity.as_ref())),
            Cell::Text(Cow::Borrowed(one.unit.as_ref())),
            Cell::Number(one.before),
            Cell::Number(one.after),
            Cell::Number(one.change()),
            Cell::from(one.percent()),
            Cell::Number(one.share()),
        ]
    };
    let each = Digits::Each(4);
    Table {
        name: "differences",
        caption: "What differs in the results".into(),
        columns: vec![
            Column::text("kind", "of"),
            Column::text("case", "case"),
            Column::text("subject", "item"),
            Column::text("old_subject", "was called"),
            Column::text("quantity", "quantity"),
            Column::text("unit", "unit"),
            Column::number("before", "before", "", each),
            Column::number("after", "after", "", each),
            Column::number("change", "change", "", each),
            Column::number("change_percent", "change", "%", Digits::Decimals(1)),
            Column::number("share_of_greatest", "of the greatest", "", Digits::Decimals(3)),
        ],
        rows: all.into_iter().map(row).collect(),
    }
}

/// Findings that came, went or crossed their limits.
pub fn findings(all: &[FindingChange]) -> Table<'_> {
    Table {
        name: "findings_changed",
        caption: "Findings that came, went or crossed their limits".into(),
        columns: vec![
            Column::text("code", "check"),
            Column::text("subject", "about"),
            Column::text("fate", "is"),
            Column::number("before_utilisation", "before", "", Digits::Utilisation),
            Column::number("after_utilisation", "after", "", Digits::Utilisation),
            Column::text("case", "case"),
            Column::number("cases", "cases", "", Digits::Decimals(0)),
            Column::text("message", "message"),
        ],
        rows: all.iter().map(finding_row).collect(),
    }
}

fn finding_row(one: &FindingChange) -> Vec<Cell<'_>> {
    vec![
        Cell::text(&one.code),
        Cell::text(&one.subject),
        Cell::text(one.fate.words()),
        Cell::from(one.before),
        Cell::from(one.after),
        Cell::text(&one.case),
        Cell::Number(one.cases as f64),
        Cell::text(&one.message),
    ]
}

//! `weighed_parts.csv`: parts on the scales beside the model; nothing without `weighed.csv`.

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

const COLUMNS: [Column; 6] = [
    Column::text("part", "part"),
    Column::number("model_kg", "model", "kg", Digits::Decimals(2)),
    Column::number("weighed_kg", "weighed", "kg", Digits::Decimals(2)),
    Column::number("uncertainty_kg", "±", "kg", Digits::Decimals(2)),
    Column::number("difference_kg", "difference", "kg", Digits::Decimals(2)),
    Column::number("share_percent", "of the model", "%", Digits::Decimals(1)),
];

/// Weighed less model, part by part, with two standard uncertainties of the scales.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let parts = run.scales().map_or(&[][..], |scales| &scales.parts);
    let rows = parts.iter().map(|part| {
        vec![
            Cell::text(&part.name),
            Cell::Number(part.model),
            Cell::Number(part.weighed),
            Cell::Number(part.uncertainty),
            Cell::Number(part.difference()),
            Cell::from(part.share().map(|share| share * 100.0)),
        ]
    });
    Table {
        name: "weighed_parts",
        caption: "Parts on the scales beside the model. ±: two standard uncertainties of the scales".into(),
        columns: COLUMNS.into(),
        rows: rows.collect(),
    }
}

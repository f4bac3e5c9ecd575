//! `envelope.csv`: the least and the greatest of every tube over all cases.

use strutwork_model::units::to_mpa;
use strutwork_solve::quantity::Quantity;

use crate::envelope::Envelope;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Least and greatest section forces and stresses of every tube over all its stations and all cases, each with its case.
/// A tube without a section shape has no rows of stresses.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let envelope = Envelope::of(run);
    let mut rows = Vec::new();
    for (tube, quantities) in envelope.tubes.iter_with_id() {
        for (quantity, range) in Quantity::ALL.into_iter().zip(quantities) {
            let Some(range) = range else { continue };
            let door = |value: f64| Cell::Number(if quantity.is_stress() { to_mpa(value) } else { value });
            rows.push(vec![
                Cell::text(run.tube(tube)),
                Cell::text(quantity.word()),
                door(range.least.value),
                Cell::text(&range.least.case.name),
                door(range.greatest.value),
                Cell::text(&range.greatest.case.name),
                Cell::text(quantity.unit()),
            ]);
        }
    }
    Table {
        name: "envelope",
        caption: "Least and greatest of every tube over all cases".into(),
        columns: vec![
            Column::text("tube", "tube"),
            Column::text("quantity", "quantity"),
            Column::number("least", "least", "", Digits::Each(4)),
            Column::text("least_case", "in case"),
            Column::number("greatest", "greatest", "", Digits::Each(4)),
            Column::text("greatest_case", "in case"),
            Column::text("unit", "unit"),
        ],
        rows,
    }
}

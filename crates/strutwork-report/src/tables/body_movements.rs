//! `body_movements.csv`: where every body goes in every case.

use crate::run::Run;
use crate::table::{Cell, Column, Table};

/// Movements of all bodies in all cases, at their reference points; mm and degrees, global axes.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE, Column::text("body", "body")];
    columns.extend(super::displacements::COLUMNS);
    let rows = run
        .pairs()
        .flat_map(|(case, result)| {
            result.bodies.iter_with_id().map(move |(body, movement)| {
                let mut row = vec![Cell::text(&case.name), Cell::text(run.body(body))];
                row.extend(super::movement_cells(movement));
                row
            })
        })
        .collect();
    Table { name: "body_movements", caption: "Movements of the bodies".into(), columns, rows }
}

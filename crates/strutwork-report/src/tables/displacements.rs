//! `displacements.csv`: where every joint goes in every case.

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// A joint's six movements.
pub const COLUMNS: [Column; 6] = [
    Column::number("ux_mm", "ux", "mm", Digits::Column(4)),
    Column::number("uy_mm", "uy", "mm", Digits::Column(4)),
    Column::number("uz_mm", "uz", "mm", Digits::Column(4)),
    Column::number("rx_deg", "rx", "deg", Digits::Column(4)),
    Column::number("ry_deg", "ry", "deg", Digits::Column(4)),
    Column::number("rz_deg", "rz", "deg", Digits::Column(4)),
];

/// Displacements of all joints in all cases; mm and degrees, global axes.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE, Column::text("joint", "joint")];
    columns.extend(COLUMNS);
    let rows = run
        .pairs()
        .flat_map(|(case, result)| {
            result.displacements.iter_with_id().map(move |(joint, movement)| {
                let mut row = vec![Cell::text(&case.name), Cell::text(run.joint(joint))];
                row.extend(super::movement_cells(movement));
                row
            })
        })
        .collect();
    Table { name: "displacements", caption: "Displacements of the joints".into(), columns, rows }
}

//! `reactions.csv`: what the supports exert on the frame.

use strutwork_solve::CaseResult;

use crate::run::Run;
use crate::table::{Cell, Column, Table};

/// Reactions of all cases, global axes.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE, Column::text("joint", "joint")];
    columns.extend(super::FORCES);
    let rows = run
        .pairs()
        .flat_map(|(case, result)| {
            result.reactions.iter().map(move |(joint, forces)| {
                let mut row = vec![Cell::text(&case.name), Cell::text(run.joint(*joint))];
                row.extend(forces.map(Cell::Number));
                row
            })
        })
        .collect();
    Table { name: "reactions", caption: "Reactions".into(), columns, rows }
}

/// Reactions of one case, global axes.
pub fn of_case<'a>(run: &Run<'a>, result: &CaseResult) -> Table<'a> {
    let mut columns = vec![Column::text("joint", "joint")];
    columns.extend(super::FORCES);
    let rows = result
        .reactions
        .iter()
        .map(|(joint, forces)| {
            let mut row = vec![Cell::text(run.joint(*joint))];
            row.extend(forces.map(Cell::Number));
            row
        })
        .collect();
    Table {
        name: "reactions",
        caption: "Reactions: what the supports exert on the frame, global axes".into(),
        columns,
        rows,
    }
}

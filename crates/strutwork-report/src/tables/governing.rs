//! `governing.csv`: what governs each item, of all checks and cases.

use strutwork_checks::items;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// One row an item that a design check holds against a limit, the worst first.
///
/// `scope` is that of the governing check's clause: `outside` is never a pass. `outside_checks` names every check of the item
/// whose clause does not cover it in some case, whether it governs or not.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = items(run.findings)
        .into_iter()
        .map(|item| {
            let finding = item.governing;
            vec![
                Cell::text(finding.kind().word()),
                Cell::Text(run.subject(finding.subject)),
                Cell::text(finding.code.0),
                Cell::text(&finding.case),
                Cell::from(finding.utilisation),
                Cell::Number(finding.value),
                Cell::from(finding.limit),
                Cell::text(finding.unit),
                Cell::text(&finding.clause),
                Cell::text(finding.scope()),
                Cell::text(finding.severity.word()),
                Cell::text(&finding.message),
                Cell::from(item.outside.join(" ")),
            ]
        })
        .collect();
    Table {
        name: "governing",
        caption: "What governs each item".into(),
        columns: vec![
            Column::text("kind", "kind"),
            Column::text("item", "item"),
            Column::text("code", "check"),
            super::CASE,
            Column::number("utilisation", "utilisation", "", Digits::Utilisation),
            Column::number("value", "value", "", Digits::Each(4)),
            Column::number("limit", "limit", "", Digits::Each(4)),
            Column::text("unit", "unit"),
            Column::text("clause", "clause"),
            Column::text("scope", "scope"),
            Column::text("severity", "severity"),
            Column::text("message", "message"),
            Column::text("outside_checks", "checks outside their clause"),
        ],
        rows,
    }
}

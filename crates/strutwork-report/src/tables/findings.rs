//! `findings.csv`: every judgement.

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// All findings, in the order in which they were made.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run
        .findings
        .iter()
        .map(|finding| {
            vec![
                Cell::text(finding.code.0),
                Cell::text(finding.severity.word()),
                Cell::text(&finding.case),
                Cell::Text(run.subject(finding.subject)),
                Cell::Number(finding.value),
                Cell::from(finding.limit),
                Cell::from(finding.utilisation),
                Cell::text(&finding.clause),
                Cell::text(&finding.message),
                Cell::Entered(&finding.entered),
            ]
        })
        .collect();
    Table {
        name: "findings",
        caption: "Findings".into(),
        columns: vec![
            Column::text("code", "code"),
            Column::text("severity", "severity"),
            super::CASE,
            Column::text("subject", "about"),
            Column::number("value", "value", "", Digits::Each(4)),
            Column::number("limit", "limit", "", Digits::Each(4)),
            Column::number("utilisation", "utilisation", "", Digits::Utilisation),
            Column::text("clause", "clause"),
            Column::text("message", "message"),
            Column::text("entered", "entered"),
        ],
        rows,
    }
}

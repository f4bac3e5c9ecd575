//! How far the numbers can be trusted.

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::table::TableView;

/// A row for each case.
pub(super) fn cases(run: &Run<'_>) -> TableView {
    let rows = run.pairs().map(|(case, result)| {
        let trust = &result.trust;
        vec![
            Cell::text(&case.name),
            Cell::Number(result.system as f64 + 1.0),
            Cell::Number(trust.residual),
            Cell::Number(f64::from(trust.refinements)),
            Cell::Number(trust.imbalance),
            Cell::Number(trust.energy),
        ]
    });
    let table = Table {
        name: "trust",
        caption: "Figures of trust of each case".into(),
        columns: vec![
            Column::text("case", "case"),
            Column::number("system", "system", "", Digits::Decimals(0)),
            Column::number("residual", "residual", "", Digits::Power),
            Column::number("refinements", "refinements", "", Digits::Decimals(0)),
            Column::number("imbalance", "imbalance", "", Digits::Power),
            Column::number("energy", "energy", "J", Digits::Each(4)),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "cases.csv")
}

/// A row for each set of supports.
pub(super) fn systems(run: &Run<'_>) -> TableView {
    let rows = run.results.systems.iter().enumerate().map(|(place, system)| {
        let left_out: Vec<String> = system
            .left_out
            .iter()
            .take(12)
            .map(|left| format!("{} of {}", left.dof.name(), run.joint(left.joint)))
            .collect();
        let more = system.left_out.len().saturating_sub(12);
        let mut text = if left_out.is_empty() { "none".to_owned() } else { left_out.join(", ") };
        if more > 0 {
            text.push_str(&format!(" and {more} more"));
        }
        vec![
            Cell::Number(place as f64 + 1.0),
            Cell::Number(system.equations as f64),
            Cell::Number(system.condition),
            Cell::Number(system.smallest_pivot),
            Cell::from(text),
        ]
    });
    let table = Table {
        name: "systems",
        caption: "Systems solved: one for each set of supports".into(),
        columns: vec![
            Column::number("system", "system", "", Digits::Decimals(0)),
            Column::number("equations", "equations", "", Digits::Decimals(0)),
            Column::number("condition", "condition", "", Digits::Power),
            Column::number("smallest_pivot", "smallest pivot", "", Digits::Power),
            Column::text("left_out", "freedoms that nothing stiffens and nothing loads, left out"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "run.json")
}

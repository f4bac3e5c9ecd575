//! What the frame is judged by: which basis, every factor with its source, what was switched off.

use crate::basis;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};
use crate::tally;

use super::table::TableView;
use super::words;

/// The basis of all judgements.
pub(super) struct BasisView {
    pub(super) name: &'static str,
    pub(super) words: &'static str,
    pub(super) factors: TableView,
    /// By nature of case; `None` without cases.
    pub(super) natures: Option<TableView>,
    pub(super) members: Vec<String>,
    pub(super) switched_off: Vec<Off>,
}

/// A check that is switched off.
pub(super) struct Off {
    pub(super) code: String,
    pub(super) title: String,
    pub(super) reason: String,
}

impl BasisView {
    pub(super) fn of(run: &Run<'_>) -> Self {
        let basis = run.model.basis();
        Self {
            name: words::basis_name(basis.kind),
            words: words::basis(basis.kind),
            factors: factors(run),
            natures: natures(run),
            members: members(run),
            switched_off: switched_off(run),
        }
    }
}

/// Every check that is switched off.
fn switched_off(run: &Run<'_>) -> Vec<Off> {
    let all = run.model.switched_off().iter();
    all.map(|off| Off {
        code: off.check.clone(),
        title: tally::title(&off.check).to_owned(),
        reason: off.reason.clone(),
    })
    .collect()
}

/// Every factor between what acts and strength that the basis uses.
fn factors(run: &Run<'_>) -> TableView {
    let rows = basis::factors(run).into_iter().map(|factor| {
        vec![
            // Subscripts have no underscore in a table of text.
            Cell::from(factor.name.replace('_', "")),
            Cell::Number(factor.value),
            Cell::text(factor.on),
            Cell::text(factor.source),
        ]
    });
    let table = Table {
        name: "basis",
        caption: "Every factor between what acts and strength. Factors inside a case, such as a dynamic factor, stand with the \
                  case in section 5"
            .into(),
        columns: vec![
            Column::text("factor", "factor"),
            Column::number("value", "value", "", Digits::Given),
            Column::text("on", "on"),
            Column::text("source", "source"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "run.json")
}

/// What the factors come to, by nature of case; `None` without cases.
fn natures(run: &Run<'_>) -> Option<TableView> {
    let rows = basis::by_nature(run).into_iter().map(|of| {
        let mut row = vec![Cell::text(of.nature.word()), Cell::Number(of.cases as f64)];
        let partial = of.partial;
        row.extend([of.margin, partial.m0, partial.m1, partial.m2, partial.m5].map(Cell::Number));
        row
    });
    let given = |key, title| Column::number(key, title, "", Digits::Given);
    let table = Table {
        name: "natures",
        caption: "What acts, multiplied, against strength, divided: by nature of case".into(),
        columns: vec![
            Column::text("nature", "nature of case"),
            Column::number("cases", "cases", "", Digits::Decimals(0)),
            given("margin", "what acts ×"),
            given("gamma_m0", "sections ÷ γM0"),
            given("gamma_m1", "members ÷ γM1"),
            given("gamma_m2", "bolts, welds ÷ γM2"),
            given("gamma_m5", "joints ÷ γM5"),
        ],
        rows: rows.collect(),
    };
    TableView::where_any(&table, "run.json")
}

/// How tubes are taken as members.
fn members(run: &Run<'_>) -> Vec<String> {
    let members = run.model.members();
    let groups = |groups: &[String]| groups.iter().map(|name| format!("“{name}”")).collect::<Vec<_>>().join(", ");
    let mut said = Vec::new();
    if !members.braces.is_empty() {
        said.push(format!("Braces, with a buckling length of 0.75 of their own: groups {}.", groups(&members.braces)));
    }
    if !members.chords.is_empty() {
        said.push(format!("Chords, with a buckling length of 0.9 of their own: groups {}.", groups(&members.chords)));
    }
    let rest = if said.is_empty() { "Every tube" } else { "Every other tube" };
    if run.results.is_second_order() {
        said.push(
            "Forces and moments are those of second order. Tubes are then checked as members over the length between their joints \
             (EN 1993-1-1 5.2.2(7)b, from memory): the sway of the frame is in the moments, and no longer length is taken for it. \
             The member check adds growth within a tube once more, on the safe side. Imperfections of the frame and of tubes \
             (5.3) are not in the forces: that is outside; those of a single tube are in the buckling curves."
                .to_owned(),
        );
    }
    said.push(format!(
        "{rest} buckles over its own length between joints, unless tubes.csv gives its buckling length. A tube that the user \
         has divided by joints along its run is then judged piece by piece: give it its whole length there where nothing holds \
         those joints."
    ));
    if run.asked.lengths.is_some() {
        said.push(
            "Before that rule comes the load factor of the whole frame: where a tube bows in one of the modes that were computed \
             for the case, its buckling length is that of Euler's column with N_cr = α_cr N (EN 1993-1-1 6.3.1.2, from memory), \
             longer or shorter than the rule, at least half its own length. What tubes.csv gives stays as given. The written-out \
             calculations say which it was; effective_lengths.csv lists them."
                .to_owned(),
        );
    }
    said
}

/// One line for the summary; empty where nothing is switched off.
pub(super) fn switched_off_line(run: &Run<'_>) -> String {
    let off = switched_off(run);
    let named: Vec<String> = off.iter().map(|off| format!("{} ({})", off.code, off.title)).collect();
    match named.len() {
        0 => String::new(),
        1 => format!("Switched off by the model's author: check {}. The reason stands in section 3.", named[0]),
        _ => {
            format!("Switched off by the model's author: checks {}. The reasons stand in section 3.", named.join(", "))
        }
    }
}

//! What the frame is judged by: which basis, every factor with its source, what was switched off.

use strutwork_loads::case::Nature;
use strutwork_model::model::{BasisKind, Gamma};

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
fn factors<'a>(run: &Run<'a>) -> TableView {
    let (basis, options) = (run.model.basis(), run.model.options());
    let gamma = |symbol: &'static str, on: &'static str, gamma: &'a Gamma| {
        vec![Cell::text(symbol), Cell::Number(gamma.value), Cell::text(on), Cell::text(&gamma.source)]
    };
    let mut rows = match basis.kind {
        BasisKind::Vehicle => {
            let own = options.yield_margin == words::USUAL_MARGIN;
            let source =
                if own { words::MARGIN_SOURCE } else { "set by the model ([options] yield_margin), no source stated" };
            let m2 = strutwork_checks::code::Partial::RECOMMENDED.m2;
            vec![
                vec![
                    Cell::text("margin on yield"),
                    Cell::Number(options.yield_margin),
                    Cell::text("what acts in every case that is not ultimate; strengths are then divided by 1"),
                    Cell::text(source),
                ],
                vec![
                    Cell::text("γM2"),
                    Cell::Number(m2),
                    Cell::text("strength of bolts and welds in ultimate cases, whose margin is 1"),
                    Cell::text("EN 1993-1-8 Table 2.1, recommended (design guides were read)"),
                ],
            ]
        }
        BasisKind::Eurocode => vec![
            gamma("γF", "what acts in service cases that are derived from the vehicle", &basis.gamma_f),
            gamma("γM0", "strength of sections", &basis.gamma_m0),
            gamma("γM1", "strength of members that may buckle", &basis.gamma_m1),
            gamma("γM2", "strength of bolts and welds, and where sections break", &basis.gamma_m2),
            gamma("γM5", "strength of the walls of tubes at joints", &basis.gamma_m5),
        ],
    };
    rows.push(gamma("γMf", "fatigue strength, where fatigue is ranked", &basis.gamma_mf));
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
        rows,
    };
    TableView::of(&table, "model.toml")
}

/// What the factors come to, by nature of case.
fn natures(run: &Run<'_>) -> Option<TableView> {
    let judged = run.judged();
    let rows = [Nature::Plain, Nature::Physical, Nature::Ultimate, Nature::Notional].into_iter().filter_map(|nature| {
        let of_nature = || run.cases.0.iter().enumerate().filter(move |(_, case)| case.nature == nature);
        let (first, _) = of_nature().next()?;
        let partial = judged.partial(first);
        Some(vec![
            Cell::text(nature.word()),
            Cell::Number(of_nature().count() as f64),
            Cell::Number(judged.margin(first)),
            Cell::Number(partial.m0),
            Cell::Number(partial.m1),
            Cell::Number(partial.m2),
            Cell::Number(partial.m5),
        ])
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
    TableView::where_any(&table, "model.toml")
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
    said.push(format!(
        "{rest} buckles over its own length between joints, unless tubes.csv gives its buckling length. A tube that the user \
         has divided by joints along its run is then judged piece by piece: give it its whole length there where nothing holds \
         those joints."
    ));
    said
}

/// One line for the summary; empty where nothing is switched off.
pub(super) fn switched_off_line(run: &Run<'_>) -> String {
    let off = switched_off(run);
    let named: Vec<String> = off.iter().map(|off| format!("{} ({})", off.code, off.title)).collect();
    match named.len() {
        0 => String::new(),
        1 => format!("Switched off by the model's author: check {}. The reason stands in section 4.", named[0]),
        _ => {
            format!("Switched off by the model's author: checks {}. The reasons stand in section 4.", named.join(", "))
        }
    }
}

//! What governs: how the items of each kind stand, and the worst of them.

use strutwork_checks::Finding;
use strutwork_checks::governing::{Item, Kind, Standing};

use crate::number::fixed;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};
use crate::tally;
use crate::utilisation::Utilisations;

use super::Edition;
use super::calculations::Calculations;
use super::maths::prose;
use super::table::TableView;

/// Items shown of each kind, on a screen and on paper; the rest stands in the file.
const SHOWN: usize = 10;
const SHOWN_ON_PAPER: usize = 5;

/// What governs in a run.
pub(super) struct Governing {
    /// How many items stand how; `None` where nothing was judged.
    pub(super) standings: Option<TableView>,
    pub(super) kinds: Vec<KindView>,
}

/// The items of one kind.
pub(super) struct KindView {
    pub(super) title: &'static str,
    pub(super) rows: Vec<Row>,
    /// How many more there are.
    pub(super) more: usize,
}

/// One item.
pub(super) struct Row {
    pub(super) item: String,
    pub(super) utilisation: String,
    pub(super) over: bool,
    /// `over`, `outside scope: no pass`, `within`.
    pub(super) standing: &'static str,
    pub(super) tag: &'static str,
    pub(super) check: String,
    pub(super) case: String,
    /// Escaped.
    pub(super) clause_html: String,
    /// Other checks of it that are outside their clause; empty for none.
    pub(super) also: String,
    /// The calculation that writes it out.
    pub(super) calculation: Option<usize>,
}

impl Governing {
    pub(super) fn of<'a>(
        run: &Run<'a>,
        utilisations: &Utilisations<'a>,
        calculations: &Calculations<'a>,
        edition: Edition,
    ) -> Self {
        let most = if edition == Edition::Paper { SHOWN_ON_PAPER } else { SHOWN };
        let kinds = Kind::ALL.into_iter().filter_map(|kind| {
            let items: Vec<_> = utilisations.of_kind(kind).collect();
            (!items.is_empty()).then(|| KindView {
                title: kind_words(kind),
                rows: items.iter().take(most).map(|item| Row::of(run, item, calculations)).collect(),
                more: items.len().saturating_sub(most),
            })
        });
        Self { standings: (!utilisations.items.is_empty()).then(|| standings(utilisations)), kinds: kinds.collect() }
    }
}

impl Row {
    fn of(run: &Run<'_>, item: &Item<'_>, calculations: &Calculations<'_>) -> Self {
        let finding = item.governing;
        let used = finding.utilisation.unwrap_or(0.0);
        let others: Vec<&str> = item.outside.iter().copied().filter(|code| *code != finding.code.0).collect();
        Self {
            item: run.about(finding.subject),
            utilisation: fixed(used, 2),
            over: used > 1.0,
            standing: standing_words(item.standing()),
            tag: match item.standing() {
                Standing::Exceeded => "error",
                Standing::Outside => "warning",
                Standing::Passed => "note",
            },
            check: format!("{} ({})", tally::title(finding.code.0), finding.code.0),
            case: finding.case.clone(),
            clause_html: prose(&shortened(finding), run.model),
            also: if others.is_empty() { String::new() } else { format!("also outside scope: {}", others.join(", ")) },
            calculation: calculations.number(finding),
        }
    }
}

/// The clause; of what is outside its scope, which its row says, the first reason. The file and the calculation have them all.
fn shortened(finding: &Finding) -> String {
    let clause = &finding.clause;
    let Some(reasons) = clause.strip_prefix("outside scope: ") else { return clause.clone() };
    let (first, rest) = reasons.split_once("; ").unwrap_or((reasons, ""));
    match rest.split("; ").count() - usize::from(rest.is_empty()) {
        0 => first.to_owned(),
        // The clause itself stands last.
        1 => format!("{first} ({rest})"),
        more => format!("{first}; and {} more", more - 1),
    }
}

/// How an item stands, in words that never call what is outside a clause a pass.
pub(super) fn standing_words(standing: Standing) -> &'static str {
    match standing {
        Standing::Exceeded => "over",
        Standing::Outside => "outside scope",
        Standing::Passed => "within",
    }
}

/// What an item of a kind is, for readers.
pub(super) const fn kind_words(kind: Kind) -> &'static str {
    match kind {
        Kind::Tube => "Tubes between their joints",
        Kind::Joint => "Walls of tubes at joints",
        Kind::Weld => "Welds, and the steel beside them",
        Kind::Bolt => "Bolts, and what they clamp",
        Kind::Panel => "Panels, their fasteners and bonds",
        Kind::Movement => "Limits on movement",
        Kind::Frame => "The frame as a whole",
    }
}

fn standings(utilisations: &Utilisations<'_>) -> TableView {
    let rows = utilisations.standings().into_iter().map(|of| {
        let count = |number: usize| Cell::Number(number as f64);
        vec![
            Cell::text(kind_words(of.kind)),
            count(of.exceeded),
            count(of.outside),
            count(of.passed),
            count(of.unjudged),
        ]
    });
    let count = |key, title| Column::number(key, title, "", Digits::Decimals(0));
    let table = Table {
        name: "standings",
        caption:
            "How the items stand over all checks and cases. An item counts as within its limits only where every check \
                  of it lies within the scope of its clause"
                .into(),
        columns: vec![
            Column::text("kind", "what"),
            count("exceeded", "over a limit"),
            count("outside", "outside scope, no pass"),
            count("passed", "within every limit"),
            count("unjudged", "not judged"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "governing.csv")
}

/// The worst of each kind of some findings in a line: `tube A 0.52 (D001); …`; empty where there are none.
pub(super) fn line<'a>(run: &Run<'_>, findings: impl Iterator<Item = &'a Finding>) -> String {
    let each = findings.map(|finding| {
        let scope = if finding.is_outside() { ", outside scope: no pass" } else { "" };
        let used = finding.utilisation.map_or_else(String::new, |used| fixed(used, 2));
        let over = if finding.utilisation.is_some_and(|used| used > 1.0) { " ▲ over its limit" } else { "" };
        format!("{} {used}{over} ({}{scope})", run.about(finding.subject), finding.code.0)
    });
    each.collect::<Vec<_>>().join("; ")
}

/// The worst of each kind of some findings, as a table; `None` where there are none.
pub(super) fn worst<'a>(
    run: &Run<'a>,
    findings: impl Iterator<Item = &'a Finding>,
    with_case: bool,
    caption: String,
) -> Option<TableView> {
    let rows = findings.map(|finding| {
        let mut row = vec![
            Cell::text(kind_words(finding.kind())),
            Cell::from(run.about(finding.subject)),
            Cell::from(finding.utilisation),
            Cell::from(format!("{} ({})", tally::title(finding.code.0), finding.code.0)),
        ];
        if with_case {
            row.push(Cell::text(&finding.case));
        }
        row.push(Cell::text(if finding.is_outside() { "outside scope, no pass" } else { "in scope" }));
        row
    });
    let mut columns = vec![
        Column::text("kind", "of"),
        Column::text("item", "the worst is"),
        Column::number("utilisation", "utilisation", "", Digits::Utilisation),
        Column::text("check", "by check"),
    ];
    if with_case {
        columns.push(Column::text("case", "case"));
    }
    columns.push(Column::text("scope", "scope"));
    let table = Table { name: "worst", caption, columns, rows: rows.collect() };
    TableView::where_any(&table, "governing.csv")
}

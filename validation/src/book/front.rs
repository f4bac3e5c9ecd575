//! What stands in front of the cases.

use super::{Block, Cell, Section, Table, coverage, heading, id_of, link};
use crate::case::{Seen, Suite};
use crate::report::{difference, families, tally};
use crate::run::{CaseReport, Row};

/// How many of the worst differences are listed.
const WORST: usize = 12;

/// The sections in front.
pub(super) fn front(suite: &Suite, reports: &[CaseReport], version: &str) -> Vec<Section> {
    vec![
        Section { title: "What this book is".to_owned(), id: "about".to_owned(), blocks: about(reports, version) },
        Section { title: "Contents".to_owned(), id: "contents".to_owned(), blocks: contents(reports) },
        Section { title: "The worst differences".to_owned(), id: "worst".to_owned(), blocks: worst(reports) },
        Section {
            title: "What rests on what".to_owned(),
            id: "coverage".to_owned(),
            blocks: coverage::blocks(suite, reports),
        },
        Section { title: "Left out".to_owned(), id: "left-out".to_owned(), blocks: left_out() },
    ]
}

fn about(reports: &[CaseReport], version: &str) -> Vec<Block> {
    let [cases, values, agree] = tally(reports);
    let studies: usize = reports.iter().map(|report| report.studies.len()).sum();
    let holding = reports.iter().flat_map(|report| &report.studies).filter(|study| study.holds).count();
    let of =
        |seen: Seen| reports.iter().flat_map(|report| &report.rows).filter(|row| row.seen == seen).count().to_string();
    let mut blocks = vec![
        Block::Text(format!(
            "Problems whose answers are printed elsewhere, solved again by Strutwork {version}. A page a case: where it comes \
             from, a sketch, the data, each printed value with ours beside it. `strutwork validate` solves them on your own \
             machine and prints the same numbers."
        )),
        Block::Facts(vec![
            ("Cases".to_owned(), cases.to_string()),
            ("Values".to_owned(), values.to_string()),
            ("Agree".to_owned(), agree.to_string()),
            ("Values of texts that were read".to_owned(), of(Seen::TextRead)),
            ("Values from memory".to_owned(), of(Seen::FromMemory)),
            ("Values derived here".to_owned(), of(Seen::DerivedHere)),
            ("Studies of order, holding".to_owned(), format!("{studies}, {holding}")),
        ]),
    ];
    let failed: Vec<String> =
        reports.iter().filter(|report| !report.agrees()).map(|report| report.title.clone()).collect();
    if !failed.is_empty() {
        blocks.push(Block::Warning(format!("DISAGREES, and stays in: {}.", failed.join("; "))));
    }
    blocks.push(Block::Heading("How to read a page".to_owned()));
    blocks.push(Block::List(
        [
            "“Verified: the text was read” means that somebody had the printed page before them. “From memory” means that \
             nobody had: worked examples from memory were taken in only where the data as remembered give the digits as \
             remembered, and those that did not were left out. So they were chosen for agreement, and are weaker evidence. \
             “Derived” values come from a calculation apart from this program.",
            "The digits of a printed value say how exactly it is meant. Ours agrees where it differs by no more than half a unit \
             of the last printed digit. Where the source is less exact than its digits, the page says how much is allowed and why.",
            "Differences are in units of the last printed digit: 0.30 beside a printed 2.35 means that ours is 2.353.",
            "Where an answer is a limit (an arc as straight tubes, a tube in pieces), a study shows how the error falls as the \
             division grows finer. The order observed is ln(e₁/e₂)/ln(n₂/n₁); the last one must, to one decimal, be at least the \
             one that theory promises.",
            "A value that disagrees stays in, marked DISAGREES.",
            "The sketches are drawn by the program from the files that it solves. Forces are red, dimensions in mm.",
            "The book holds no date and names no machine: the same version gives the same book, up to the rounding of a last \
             digit on another processor.",
        ]
        .map(str::to_owned)
        .to_vec(),
    ));
    blocks
}

/// Families with their counts, then every case.
fn contents(reports: &[CaseReport]) -> Vec<Block> {
    let heads = ["Family", "#Cases", "#Values", "#Agree", "#Text read", "#From memory", "#Derived here"];
    let mut table = Table::new("Values by family", &heads);
    let row = |group: &[CaseReport]| {
        let of = |seen: Seen| group.iter().flat_map(|report| &report.rows).filter(|row| row.seen == seen).count();
        let counts = tally(group).into_iter().chain(Seen::ALL.map(of));
        counts.map(|count| Cell::from(count.to_string())).collect::<Vec<_>>()
    };
    for (family, group) in families(reports) {
        let mut cells = vec![link(&heading(family), family.to_owned())];
        cells.extend(row(group));
        table.push(cells, false);
    }
    let mut cells = vec!["All".into()];
    cells.extend(row(reports));
    table.push(cells, true);
    let mut blocks = vec![Block::Table(table)];
    for (family, group) in families(reports) {
        let mut table = Table::new(&heading(family), &["Case", "Source", "Seen", "#Values"]);
        for report in group {
            let author = &report.source.author;
            table.push(
                vec![
                    link(&report.title, id_of(report)),
                    author.clone().into(),
                    report.source.seen.word().into(),
                    report.rows.len().to_string().into(),
                ],
                !report.agrees(),
            );
        }
        blocks.push(Block::Table(table));
    }
    blocks
}

/// The values that use up most of what they may differ, and the widest allowances.
fn worst(reports: &[CaseReport]) -> Vec<Block> {
    let mut rows: Vec<(&CaseReport, &Row)> =
        reports.iter().flat_map(|report| report.rows.iter().map(move |row| (report, row))).collect();
    let share = |row: &Row| if row.difference.is_nan() { f64::INFINITY } else { (row.difference / row.allowed).abs() };
    rows.sort_by(|(_, a), (_, b)| share(b).total_cmp(&share(a)));
    let mut near = Table::new(
        "Nearest to their allowance",
        &["Case", "Quantity", "#Printed", "#Computed", "#Difference", "#Allowed"],
    );
    let cells = |(report, row): &(&CaseReport, &Row)| {
        vec![
            link(&report.title, id_of(report)),
            Cell::from(row.what.clone()),
            format!("{} {}", row.printed, row.unit).into(),
            row.computed.clone().into(),
            difference(row.difference).into(),
            format!("{:.2}", row.allowed).into(),
        ]
    };
    for entry in rows.iter().take(WORST) {
        near.push(cells(entry), !entry.1.agrees);
    }
    // A value of 0 has no share of itself.
    let relative = |row: &Row| {
        let printed: f64 = row.printed.parse().unwrap_or(f64::NAN);
        if printed == 0.0 { 0.0 } else { (row.allowance / printed).abs() }
    };
    let mut wide: Vec<(&CaseReport, &Row)> = rows.into_iter().filter(|(_, row)| !row.because.is_empty()).collect();
    wide.sort_by(|(_, a), (_, b)| relative(b).total_cmp(&relative(a)));
    let count = wide.len();
    let mut allowances = Table::new(
        &format!("The widest of the {count} allowances beyond half a unit of the last digit"),
        &["Case", "Quantity", "#Printed", "#Share allowed", "Reason"],
    );
    for (report, row) in wide.into_iter().take(WORST) {
        allowances.push(
            vec![
                link(&report.title, id_of(report)),
                row.what.clone().into(),
                format!("{} {}", row.printed, row.unit).into(),
                format!("{:.2} %", 100.0 * relative(row)).into(),
                row.because.clone().into(),
            ],
            false,
        );
    }
    vec![Block::Table(near), Block::Table(allowances)]
}

/// What was looked at and is not in, and why.
fn left_out() -> Vec<Block> {
    let entries = include_str!("../../left_out.txt").lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    vec![
        Block::Text("What was looked at and is not in the suite, and why.".to_owned()),
        Block::List(entries.map(str::to_owned).collect()),
    ]
}

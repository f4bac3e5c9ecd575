//! What `compare` tells: the verdict first, then what was changed, then what differs most.

use std::path::Path;

use strutwork_report::Compared;
use strutwork_report::compare::words;
use strutwork_report::number::{fixed, significant};
use strutwork_revision::differences::{Difference, Fate, FindingChange};
use strutwork_revision::{Comparison, Kind};

use crate::columns::{Align, Columns};
use crate::commands::summary::printable;
use crate::render::counted;

/// Changes of the model that are told; changes.csv has all.
const CHANGES: usize = 24;
/// Findings that are told.
const FINDINGS: usize = 10;
/// Numbers that are told of one kind.
const OF_KIND: usize = 3;

/// The comparison as text; `out` is where its files are.
pub(super) fn people(compared: &Compared<'_>, out: Option<&Path>) -> String {
    let of = compared.comparison;
    let [before, after] = compared.names();
    let mut text = format!("{}: {} to {}\n\n", printable(&of.after.title), printable(&before), printable(&after));
    if of.is_same() {
        text.push_str(&format!("Nothing changed: {} numbers and every finding are the same", of.compared));
        text.push_str(if of.inputs.is_some() { ", and so is the model.\n" } else { ".\n" });
    } else {
        text.push_str(&verdict(of));
        text.push_str(&changes(of));
        text.push_str(&findings(of));
        text.push_str(&differences(of));
    }
    for said in words::left_out(of) {
        text.push_str(&format!("{}\n", printable(&said)));
    }
    if let Some(out) = out {
        text.push_str(&format!("Page: {}\n", out.join("compare.html").display()));
    }
    text
}

fn verdict(of: &Comparison) -> String {
    let lines = words::verdict(&of.verdict);
    if lines.is_empty() {
        return String::new();
    }
    let headings = [
        ("", Align::Left),
        ("before", Align::Right),
        ("after", Align::Right),
        ("unit", Align::Left),
        ("change", Align::Left),
    ];
    let mut columns = Columns::new(&headings);
    for line in &lines {
        columns.push(vec![
            line.what.to_owned(),
            plain(&line.before),
            plain(&line.after),
            line.unit.to_owned(),
            plain(&line.change),
        ]);
    }
    let mut text = columns.render();
    for line in lines.iter().filter(|line| !line.note.is_empty()) {
        text.push_str(&format!("{}: {}\n", line.what, printable(&line.note)));
    }
    text.push('\n');
    text
}

/// A number as terminals and their users' other tools like it.
fn plain(text: &str) -> String {
    text.replace('\u{202f}', "").replace('\u{2212}', "-")
}

fn changes(of: &Comparison) -> String {
    let Some(inputs) = &of.inputs else { return "What was changed in the model is not known.\n\n".to_owned() };
    if inputs.changes.is_empty() {
        return "The model is the same.\n\n".to_owned();
    }
    let told = words::changes(inputs);
    let mut text = format!("{} of the model:\n", counted(inputs.changes.len(), "change"));
    for one in told.iter().take(CHANGES) {
        text.push_str(&format!("  {}: {}\n", printable(&one.subject), plain(&printable(&one.happened))));
    }
    if told.len() > CHANGES {
        let rest: usize = told[CHANGES..].iter().map(|one| one.number).sum();
        text.push_str(&format!("  and {rest} more in changes.csv\n"));
    }
    text.push('\n');
    text
}

fn findings(of: &Comparison) -> String {
    let (over, rest): (Vec<_>, Vec<_>) = of.findings.iter().partition(|one| one.fate == Fate::Over);
    let mut text = match over.len() {
        0 => "No check exceeds its limit that did not before.\n".to_owned(),
        1 => "1 check exceeds its limit now that did not before:\n".to_owned(),
        number => format!("{number} checks exceed their limits now that did not before:\n"),
    };
    text.push_str(&listed(&over));
    if !rest.is_empty() {
        text.push_str("Other findings that came, went or crossed their limits:\n");
        text.push_str(&listed(&rest));
    }
    text.push('\n');
    text
}

/// The first of some findings, a line each.
fn listed(findings: &[&FindingChange]) -> String {
    let line = |one: &&FindingChange| format!("  {}\n", plain(&printable(&words::finding(one))));
    let mut text: String = findings.iter().take(FINDINGS).map(line).collect();
    if findings.len() > FINDINGS {
        text.push_str(&format!("  and {} more in findings_changed.csv\n", findings.len() - FINDINGS));
    }
    text
}

/// Kinds of results that the terminal tells of; the page has all.
const TOLD: [Kind; 9] = [
    Kind::Utilisation,
    Kind::Mode,
    Kind::Buckling,
    Kind::Mount,
    Kind::Link,
    Kind::Reaction,
    Kind::Movement,
    Kind::Tube,
    Kind::Joint,
];

fn differences(of: &Comparison) -> String {
    if of.differences.is_empty() {
        return format!("None of {} numbers differs.\n", of.compared);
    }
    let headings = [
        ("largest changes", Align::Left),
        ("case", Align::Left),
        ("quantity", Align::Left),
        ("before", Align::Right),
        ("after", Align::Right),
        ("change", Align::Right),
    ];
    let mut columns = Columns::new(&headings);
    for kind in TOLD {
        for one in of.of_kind(kind).take(OF_KIND) {
            columns.push(row(one));
        }
    }
    format!("{}{} of {} numbers differ: differences.csv\n", columns.render(), of.differences.len(), of.compared)
}

/// `fx, N`.
fn with_unit(one: &Difference) -> String {
    let unit = if one.unit.is_empty() { String::new() } else { format!(", {}", one.unit) };
    format!("{}{unit}", words::quantity(&one.quantity))
}

fn row(one: &Difference) -> Vec<String> {
    let number = |value: f64| plain(&significant(value, 4));
    let change = match one.percent() {
        Some(percent) => format!("{} %", plain(&words::percent(percent))),
        None => plain(&words::signed(one.change(), 2)),
    };
    let (before, after) = match one.kind {
        Kind::Utilisation => (plain(&fixed(one.before, 3)), plain(&fixed(one.after, 3))),
        _ => (number(one.before), number(one.after)),
    };
    vec![
        printable(&format!("{} {}", one.kind.word(), one.subject)),
        printable(&one.case),
        printable(&with_unit(one)),
        before,
        after,
        change,
    ]
}

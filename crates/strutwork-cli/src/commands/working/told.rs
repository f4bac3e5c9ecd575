//! How the working is told: to people as a page, to machines as JSON.

use serde_json::{Value, json};
use strutwork_checks::calculation::digits;
use strutwork_checks::governing::{Item, Standing};
use strutwork_checks::{Calculation, Finding};
use strutwork_model::{Model, Severity};

use super::super::summary::printable;
use crate::columns::{Align, Columns};
use crate::pages;
use crate::render::counted;

/// Items that the list for people holds.
const LISTED: usize = 40;

/// An item with the finding that was asked for.
pub(super) struct Shown<'a> {
    pub model: &'a Model,
    pub finding: &'a Finding,
    /// `None` where the finding is not the result of one formula.
    pub calculation: Option<Calculation>,
    /// What else was judged of it.
    pub others: Vec<&'a Finding>,
}

impl Shown<'_> {
    /// For people.
    pub(super) fn text(&self) -> String {
        let finding = self.finding;
        let name = finding.subject.name(self.model);
        let case = if finding.case.is_empty() { String::new() } else { format!(", load case {}", finding.case) };
        let mut text = format!("{} {name}: {} {}{case}\n", finding.kind().word(), finding.code, title(finding));
        let unit = if finding.unit.is_empty() { String::new() } else { format!(" {}", finding.unit) };
        match (finding.limit, finding.utilisation) {
            (Some(limit), Some(used)) => text.push_str(&format!(
                "{}{unit} of {}{unit} allowed, utilisation {}: {}\n",
                digits(finding.value),
                digits(limit),
                digits(used),
                verdict(finding)
            )),
            (None, Some(used)) => text.push_str(&format!("utilisation {}: {}\n", digits(used), verdict(finding))),
            (_, None) => text.push_str("held against no limit\n"),
        }
        for said in [&finding.clause, &finding.message] {
            if !said.is_empty() {
                text.push_str(&format!("{said}\n"));
            }
        }
        let mut text = printable_lines(&text);
        text.push('\n');
        match &self.calculation {
            Some(calculation) => text.push_str(&printable_lines(&calculation.text())),
            None => text.push_str(&self.entered()),
        }
        if !self.others.is_empty() {
            text.push_str("\nJudged here as well, each by its worst load case:\n");
            let stands =
                |one: &Finding| if one.utilisation.is_some() { verdict(one).to_owned() } else { String::new() };
            text.push_str(&table(self.model, self.others.iter().map(|&one| (one, stands(one)))));
        }
        text
    }

    /// The numbers that went into a check that is not written out.
    fn entered(&self) -> String {
        let mut text = "This check is not written out line by line".to_owned();
        text.push_str(if self.finding.entered.is_empty() { ".\n" } else { "; what went into it:\n" });
        for &(symbol, value, unit) in &self.finding.entered {
            text.push_str(format!("  {symbol} = {} {}", digits(unit.of(value)), unit.name).trim_end());
            text.push('\n');
        }
        text
    }

    /// For machines.
    pub(super) fn json(&self) -> String {
        let calculation = self.calculation.as_ref().map(|page| {
            let lines: Vec<Value> = page
                .lines
                .iter()
                .map(|line| {
                    json!({
                        "symbol": line.symbol,
                        "formula": line.formula,
                        "substituted": line.substituted,
                        "value": line.value,
                        "unit": line.unit,
                        "note": line.note,
                    })
                })
                .collect();
            json!({
                "title": page.title,
                "clause": page.clause,
                "source": page.source,
                "lines": lines,
                "utilisation": page.utilisation,
                "outside": page.outside,
            })
        });
        let others: Vec<Value> = self.others.iter().map(|one| as_json(self.model, one)).collect();
        let mut value = as_json(self.model, self.finding);
        value["calculation"] = json!(calculation);
        value["others"] = json!(others);
        format!("{value:#}\n")
    }
}

/// What governs each item, for people.
pub(super) fn list(model: &Model, items: &[Item<'_>]) -> String {
    if items.is_empty() {
        return "Nothing is held against a limit.\n".to_owned();
    }
    let shown = &items[..items.len().min(LISTED)];
    let mut text = table(model, shown.iter().map(|item| (item.governing, stands(item))));
    if items.len() > LISTED {
        text.push_str(&format!("and {} more: `--json` has all\n", counted(items.len() - LISTED, "item")));
    }
    text.push_str("\n`strutwork working FOLDER \"ITEM\"` writes out the calculation behind a row.\n");
    text
}

/// The same for machines.
pub(super) fn list_json(model: &Model, items: &[Item<'_>]) -> String {
    let one = |item: &Item<'_>| {
        let mut value = as_json(model, item.governing);
        value["standing"] = json!(item.standing().word());
        value["checks_outside_scope"] = json!(item.outside);
        value
    };
    format!("{:#}\n", json!({ "governing": items.iter().map(one).collect::<Vec<_>>() }))
}

fn table<'f>(model: &Model, rows: impl Iterator<Item = (&'f Finding, String)>) -> String {
    let mut columns = Columns::new(&[
        ("kind", Align::Left),
        ("item", Align::Left),
        ("check", Align::Left),
        ("load case", Align::Left),
        ("utilisation", Align::Right),
        ("", Align::Left),
    ]);
    for (one, stands) in rows {
        columns.push(vec![
            one.kind().word().to_owned(),
            one.subject.name(model).into_owned(),
            format!("{} {}", one.code, title(one)),
            one.case.clone(),
            one.utilisation.map_or_else(|| "-".to_owned(), |used| format!("{used:.3}")),
            stands,
        ]);
    }
    columns.render()
}

/// How an item stands over all checks and cases.
fn stands(item: &Item<'_>) -> String {
    match item.standing() {
        Standing::Exceeded => "OVER".to_owned(),
        Standing::Outside => format!("no pass: {} outside scope", item.outside.join(", ")),
        Standing::Passed => "within".to_owned(),
    }
}

/// What a finding comes to, in a word or two. What is outside scope is never called a pass.
fn verdict(finding: &Finding) -> &'static str {
    match (finding.severity == Severity::Error, finding.is_outside()) {
        (true, _) => "OVER",
        (false, true) => "outside scope, no pass",
        (false, false) => "within",
    }
}

fn title(finding: &Finding) -> &'static str {
    pages::find(finding.code.0).map_or("", |page| page.title)
}

/// Lines without what a terminal would obey.
fn printable_lines(text: &str) -> String {
    text.lines().map(|line| printable(line) + "\n").collect()
}

fn as_json(model: &Model, finding: &Finding) -> Value {
    let entered: Vec<Value> = finding
        .entered
        .iter()
        .map(|&(symbol, value, unit)| json!({ "symbol": symbol, "value": unit.of(value), "unit": unit.name }))
        .collect();
    json!({
        "kind": finding.kind().word(),
        "item": finding.subject.name(model),
        "code": finding.code.0,
        "check": title(finding),
        "severity": finding.severity.word(),
        "load_case": finding.case,
        "value": finding.value,
        "limit": finding.limit,
        "unit": finding.unit,
        "utilisation": finding.utilisation,
        "exceeded": finding.severity == Severity::Error,
        "outside_scope": finding.is_outside(),
        "clause": finding.clause,
        "entered": entered,
        "message": finding.message,
    })
}

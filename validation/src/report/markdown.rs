//! `REPORT.md`.

use std::fmt::Write as _;

use super::{citation, difference, families, tally};
use crate::refine::Study;
use crate::run::{CaseReport, Row};

const HEAD: &str = "\
# Published problems, re-solved

Generated from `suite/`; a test keeps it up to date. Each value stands as its source prints it, ours beside it, and the
difference in units of the last printed digit. Values agree where they differ by no more than half such a unit; a wider
allowance is marked and gives its reason. A value that disagrees stays in, marked. Where an answer is a limit, a table says
how the error falls as the division grows finer, and the order that this makes. `strutwork validate --book FOLDER` writes
the same as a book with sketches.

\"From memory\" means that nobody had the source's text at hand. Worked examples from memory were taken in only where the
data as remembered give the digits as remembered, and those that did not were left out when the suite was put together. Such
a case shows that the program and the memory agree; it is weaker evidence than a text that was read.

";

/// All reports as one Markdown page, by family.
pub fn markdown(reports: &[CaseReport]) -> String {
    let mut page = HEAD.to_owned();
    page.push_str("| family | cases | values | agree |\n|---|---:|---:|---:|\n");
    for (family, group) in families(reports) {
        let [cases, values, agree] = tally(group);
        line(&mut page, format_args!("| [{family}](#{family}) | {cases} | {values} | {agree} |"));
    }
    let [cases, values, agree] = tally(reports);
    line(&mut page, format_args!("| all | {cases} | {values} | {agree} |"));
    for (family, group) in families(reports) {
        line(&mut page, format_args!("\n## {family}"));
        for report in group {
            case(&mut page, report);
        }
    }
    page
}

fn case(page: &mut String, report: &CaseReport) {
    let source = &report.source;
    line(page, format_args!("\n### {}", report.title));
    line(page, format_args!("\n*Source*: {}.  ", citation(source)));
    line(page, format_args!("*Basis*: {}; {}.  ", source.basis.word(), source.seen.word()));
    line(page, format_args!("*Model*: `suite/{}/{}`", report.family, report.name));
    for note in &report.notes {
        line(page, format_args!("\n{note}"));
    }
    if let Some(failure) = &report.failure {
        line(page, format_args!("\n**NOT SOLVED**: {failure}"));
    }
    let formulas = report.rows.iter().any(|row| !row.formula.is_empty());
    let (head, rule) = if formulas { ("formula | ", "---|") } else { ("", "") };
    line(
        page,
        format_args!("\n| quantity | {head}unit | printed | ours | difference | |\n|---|{rule}---|---:|---:|---:|---|"),
    );
    let mut reasons: Vec<&str> = Vec::new();
    for row in &report.rows {
        let formula = if formulas { format!("{} | ", cell(&row.formula)) } else { String::new() };
        let mark = verdict(row, source.seen != row.seen, &mut reasons);
        line(
            page,
            format_args!(
                "| {} | {formula}{} | {} | {} | {} | {mark} |",
                cell(&row.what),
                row.unit,
                row.printed,
                row.computed,
                difference(row.difference)
            ),
        );
    }
    for (number, reason) in reasons.iter().enumerate() {
        line(page, format_args!("\n({}) {reason}.", number + 1));
    }
    for study in &report.studies {
        refinement(page, study);
    }
}

/// How an answer nears its limit.
fn refinement(page: &mut String, study: &Study) {
    let formula = if study.formula.is_empty() { String::new() } else { format!(" = {}", study.formula) };
    let Study { what, limit, unit, order, because, divided, .. } = study;
    line(page, format_args!("\nHow {what} nears its limit, {limit} {unit}{formula}. Order {order}: {because}."));
    if !study.holds {
        line(page, format_args!("\n**THE ORDER IS NOT REACHED**"));
    }
    line(page, format_args!("\n| {divided} | value | relative error | order observed |\n|---:|---:|---:|---:|"));
    for step in &study.steps {
        let order = if step.order.is_finite() { format!("{:.2}", step.order) } else { String::new() };
        let error = if step.error.is_finite() { format!("{:+.2e}", step.error) } else { cell(&step.problem) };
        line(page, format_args!("| {} | {} | {error} | {order} |", step.parts, step.computed));
    }
}

/// What is said of a row; a reason for a wider allowance is numbered and printed once below the table.
fn verdict<'r>(row: &'r Row, seen_otherwise: bool, reasons: &mut Vec<&'r str>) -> String {
    let mut marks = Vec::new();
    if !row.problem.is_empty() {
        marks.push(format!("**{}**", row.problem));
    } else if !row.agrees {
        marks.push("**DISAGREES**".to_owned());
    }
    if !row.because.is_empty() {
        let number = reasons.iter().position(|known| *known == row.because).unwrap_or_else(|| {
            reasons.push(&row.because);
            reasons.len() - 1
        });
        marks.push(format!("±{} {} allowed ({})", row.allowance, row.unit, number + 1));
    }
    if seen_otherwise {
        marks.push(row.seen.word().to_owned());
    }
    marks.join(", ")
}

/// Text within a table: a bar would end the cell.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

fn line(page: &mut String, text: std::fmt::Arguments<'_>) {
    writeln!(page, "{text}").expect("bug: writing to a string cannot fail");
}

//! The page of a case.

use strutwork_report::figures::graph::{self, Graph, Scale, Series};

use super::{Block, Cell, Section, Table, id_of, model, part, sketch};
use crate::case::{Basis, Case, Seen};
use crate::refine::Study;
use crate::report::{citation, difference};
use crate::run::{CaseReport, Row};

/// Everything about a case.
pub(super) fn page(case: &Case, report: &CaseReport) -> Section {
    let source = &report.source;
    let mut blocks = vec![Block::Facts(vec![
        ("Source".to_owned(), citation(source)),
        ("Values".to_owned(), format!("{}; {}", basis(source.basis), seen(source.seen))),
        ("Files".to_owned(), format!("validation/suite/{}/{}", report.family, report.name)),
    ])];
    blocks.extend(report.notes.iter().cloned().map(Block::Text));
    blocks.extend(report.failure.iter().map(|failure| Block::Warning(format!("NOT SOLVED: {failure}"))));
    blocks.extend(sketch::figures(case).into_iter().chain(part::figures(case)).map(Block::Figure));
    blocks.extend(model::blocks(case));
    values(report, &mut blocks);
    for study in &report.studies {
        refinement(study, &mut blocks);
    }
    Section { title: report.title.clone(), id: id_of(report), blocks }
}

fn basis(basis: Basis) -> &'static str {
    match basis {
        Basis::ClosedForm => "written out from a closed form",
        Basis::PrintedTable => "from a printed table",
        Basis::PrintedValues => "printed values of a worked example",
        Basis::Derived => "derived apart from this program",
    }
}

fn seen(seen: Seen) -> &'static str {
    match seen {
        Seen::TextRead => "verified: the text was read",
        Seen::FromMemory => "from memory: nobody had the text at hand",
        Seen::DerivedHere => "derived for this suite",
    }
}

/// Printed and computed values, and below them the reasons for wider allowances.
fn values(report: &CaseReport, blocks: &mut Vec<Block>) {
    if report.rows.is_empty() {
        return;
    }
    let formulas = report.rows.iter().any(|row| !row.formula.is_empty());
    let heads = ["Quantity", "Formula", "Unit", "#Printed", "#Computed", "#Difference", "#Allowed", "Remark"];
    let heads: Vec<&str> = heads.into_iter().filter(|head| formulas || *head != "Formula").collect();
    let mut table = Table::new("Printed and computed values; differences in units of the last printed digit", &heads);
    let mut reasons: Vec<&str> = Vec::new();
    for row in &report.rows {
        let remark = remark(row, report.source.seen, &mut reasons);
        let mut cells: Vec<Cell> = vec![row.what.clone().into()];
        if formulas {
            cells.push(row.formula.clone().into());
        }
        cells.extend([
            row.unit.into(),
            row.printed.clone().into(),
            row.computed.clone().into(),
            difference(row.difference).into(),
            allowed(row).into(),
            remark.into(),
        ]);
        table.push(cells, !row.agrees);
    }
    blocks.push(Block::Table(table));
    let numbered = |(place, reason): (usize, &&str)| format!("({}) {reason}.", place + 1);
    if !reasons.is_empty() {
        blocks.push(Block::List(reasons.iter().enumerate().map(numbered).collect()));
    }
}

/// What may differ, in units of the last printed digit.
fn allowed(row: &Row) -> String {
    if row.because.is_empty() {
        return "0.5".to_owned();
    }
    let decimals = if row.allowed < 10.0 { 2 } else { 0 };
    format!("{:.decimals$}", row.allowed)
}

fn remark<'r>(row: &'r Row, seen_of_case: Seen, reasons: &mut Vec<&'r str>) -> String {
    let mut parts = Vec::new();
    if !row.problem.is_empty() {
        parts.push(format!("NO VALUE: {}", row.problem));
    } else if !row.agrees {
        parts.push("DISAGREES".to_owned());
    }
    if !row.because.is_empty() {
        let place = reasons.iter().position(|known| *known == row.because).unwrap_or_else(|| {
            reasons.push(&row.because);
            reasons.len() - 1
        });
        parts.push(format!("({})", place + 1));
    }
    if row.seen != seen_of_case {
        parts.push(row.seen.word().to_owned());
    }
    parts.join(", ")
}

/// How an answer nears its limit: a table and a picture.
fn refinement(study: &Study, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading(format!("How {} nears its limit", study.what)));
    let formula = if study.formula.is_empty() { String::new() } else { format!(" = {}", study.formula) };
    blocks.push(Block::Text(format!(
        "Limit: {} {}{formula}. Theory promises order {}: {}.",
        study.limit, study.unit, study.order, study.because
    )));
    if !study.holds {
        blocks.push(Block::Warning("The order observed last is BELOW the one that theory promises.".to_owned()));
    }
    let parts = format!("#{}", study.divided);
    let value = format!("#Value, {}", study.unit);
    let mut table = Table::new("", &[&parts, &value, "#Relative error", "#Order observed"]);
    for step in &study.steps {
        let order = if step.order.is_finite() { format!("{:.2}", step.order) } else { String::new() };
        let error = if step.error.is_finite() { format!("{:+.2e}", step.error) } else { step.problem.clone() };
        table
            .push(vec![step.parts.to_string().into(), step.computed.clone().into(), error.into(), order.into()], false);
    }
    blocks.push(Block::Table(table));
    blocks.extend(picture(study).map(Block::Figure));
}

/// The errors over the division, and the slope that theory promises through the last of them.
fn picture(study: &Study) -> Option<strutwork_report::figures::Figure> {
    let points: Vec<(f64, f64)> = study
        .steps
        .iter()
        .filter(|step| step.error.is_finite() && step.error != 0.0)
        .map(|step| (step.parts as f64, step.error.abs()))
        .collect();
    let (&first, &last) = (points.first()?, points.last()?);
    let slope = vec![(last.0, last.1), (first.0, last.1 * (last.0 / first.0).powf(study.order))];
    graph::draw(&Graph {
        names: [study.divided.clone(), "relative error".to_owned()],
        scales: [Scale::Logarithmic; 2],
        series: vec![
            Series { name: format!("order {}", study.order), points: slope, marked: false },
            Series { name: String::new(), points, marked: true },
        ],
        caption: format!(
            "Circles: the error of each division. Broken: the slope of order {} through the finest.",
            study.order
        ),
    })
}

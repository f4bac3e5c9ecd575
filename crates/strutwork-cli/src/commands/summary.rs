//! What `run` tells at its end: a row a case, what exceeds its limit, where the report is.

use std::path::Path;

use serde_json::{Value, json};
use strutwork_checks::{Figures, Finding};
use strutwork_loads::MassModel;
use strutwork_model::Severity;
use strutwork_model::units::to_nm_per_deg;
use strutwork_report::Run;
use strutwork_report::tally;
use strutwork_report::utilisation::Utilisations;
use strutwork_solve::CaseResult;
use strutwork_solve::results::MeasureResult;

use super::{beside, check::list, measured, second_order};
use crate::columns::{Align, Columns};
use crate::exit::{Failure, Outcome};
use crate::render::counted;
use crate::terminal::Terminal;

/// How many findings are told on the terminal; the report has all.
const TOLD: usize = 12;

/// How a finished run is told, and what was written.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Told<'a> {
    /// The folder of results.
    pub(crate) out: &'a Path,
    /// Whether report.pdf is in it.
    pub(crate) paper: bool,
    /// For a machine.
    pub(crate) as_json: bool,
}

impl Told<'_> {
    fn report(&self) -> String {
        self.out.join("report.html").display().to_string()
    }

    /// `None` where it was not asked for.
    fn pdf(&self) -> Option<String> {
        self.paper.then(|| self.out.join("report.pdf").display().to_string())
    }
}

/// Tells a finished run.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn solved(run: &Run<'_>, told: &Told<'_>, terminal: &Terminal) -> Result<Outcome, Failure> {
    let exceeded: Vec<&Finding> = run.findings.iter().filter(|finding| finding.severity == Severity::Error).collect();
    let outcome = if exceeded.is_empty() { Outcome::Passed } else { Outcome::Exceeded };
    let text = if told.as_json { machine(run, told, &exceeded, outcome) } else { people(run, told, &exceeded) };
    terminal.result(&text)?;
    Ok(outcome)
}

/// Tells a failed run to a machine; the failure then only carries the exit code.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn failed(failure: Failure, terminal: &Terminal) -> Result<Failure, Failure> {
    let (word, diagnostics) = match &failure {
        Failure::Input { faults, .. } => ("input is wrong", faults),
        Failure::Structure { reasons, .. } => ("cannot be solved", reasons),
        _ => return Ok(failure),
    };
    let code = failure.code();
    terminal.result(&format!("{:#}\n", json!({ "exit": code, "outcome": word, "diagnostics": list(diagnostics) })))?;
    Ok(Failure::Told(code))
}

fn people<'a>(run: &Run<'a>, written: &Told<'_>, exceeded: &[&'a Finding]) -> String {
    let model = run.model;
    let tubes: f64 = model.tubes().ids().map(|tube| model.tube_mass(tube)).sum();
    let mut text = format!(
        "{}: {}, {}, {tubes:.2} kg of tube, {:.2} kg in all\n\n",
        printable(&model.title().title),
        counted(model.joints().len(), "joint"),
        counted(model.tubes().len(), "tube"),
        MassModel::of(model).total,
    );
    let utilisations = Utilisations::of(run);
    text.push_str(&table(run, &utilisations));
    text.push('\n');
    text.push_str(&figures(run));
    text.push_str(&measured::people(run));
    text.push_str(&second_order::people(run));
    text.push_str(&beside::people(run));
    text.push_str(&governing(run, &utilisations));
    let warnings = run.findings.iter().filter(|finding| finding.severity == Severity::Warning).count();
    let look = match warnings {
        0 => String::new(),
        number => format!(" ({} to look at)", counted(number, "warning")),
    };
    let outside = utilisations.outside();
    let unjudged = utilisations.unjudged();
    if exceeded.is_empty() && utilisations.worst().is_none() {
        text.push_str(&format!("Nothing was held against a limit{look}.\n"));
    } else if exceeded.is_empty() && outside + unjudged == 0 && run.model.switched_off().is_empty() {
        text.push_str(&format!("Every check passed{look}. What is outside their scope stands in the report.\n"));
    } else if exceeded.is_empty() {
        text.push_str(&format!("No check exceeds its limit{look}.\n"));
    } else {
        text.push_str(&format!("{}{look}:\n", exceed(exceeded.len())));
        let told = worst_of_each(&utilisations, exceeded);
        for finding in told.iter().take(TOLD) {
            let case = if finding.case.is_empty() { String::new() } else { format!("{}: ", printable(&finding.case)) };
            text.push_str(&format!("  {}  {case}{}\n", finding.code, printable(&finding.message)));
        }
        if exceeded.len() > told.len().min(TOLD) {
            let rest = exceeded.len() - told.len().min(TOLD);
            text.push_str(&format!("  and {rest} more in findings.csv\n"));
        }
    }
    if outside > 0 {
        text.push_str(&format!(
            "{} within the limits of a clause that does not cover {}: no pass, see the report.\n",
            stand(outside),
            if outside == 1 { "it" } else { "them" }
        ));
    }
    if unjudged > 0 {
        let was = if unjudged == 1 { "was" } else { "were" };
        text.push_str(&format!("{} {was} not judged at all: see D002 in findings.csv.\n", counted(unjudged, "tube")));
    }
    for off in run.model.switched_off() {
        text.push_str(&format!("Check {} is switched off: {}\n", off.check, printable(&off.reason)));
    }
    text.push_str(&format!("Report: {}\n", written.report()));
    if let Some(pdf) = written.pdf() {
        text.push_str(&format!("On paper: {pdf}\n"));
    }
    text
}

/// What exceeds a limit, item by item the worst finding of each, the worst item first; before them what is no item.
fn worst_of_each<'a>(utilisations: &Utilisations<'a>, exceeded: &[&'a Finding]) -> Vec<&'a Finding> {
    let no_item = |finding: &&Finding| finding.utilisation.is_none() || !finding.code.0.starts_with('D');
    let mut told: Vec<&Finding> = exceeded.iter().copied().filter(no_item).collect();
    let items = utilisations.items.iter().filter(|item| item.exceeded).map(|item| item.governing);
    told.extend(items.filter(|finding| finding.severity == Severity::Error));
    told
}

/// The worst item of each kind, with the check that governs it; empty where nothing is held against a limit.
fn governing(run: &Run<'_>, utilisations: &Utilisations<'_>) -> String {
    let headings = [
        ("governs", Align::Left),
        ("check", Align::Left),
        ("case", Align::Left),
        ("utilisation", Align::Right),
        ("scope", Align::Left),
    ];
    let mut columns = Columns::new(&headings);
    let mut any = false;
    for (_, item) in utilisations.worst_by_kind() {
        let finding = item.governing;
        any = true;
        columns.push(vec![
            printable(&run.about(finding.subject)),
            format!("{} {}", finding.code.0, tally::title(finding.code.0)),
            printable(&finding.case),
            finding.utilisation.map_or_else(none, |value| format!("{value:.2}")),
            if finding.is_outside() { "outside: no pass" } else { "in" }.to_owned(),
        ]);
    }
    if any { format!("{}\n", columns.render()) } else { String::new() }
}

fn stand(items: usize) -> String {
    if items == 1 { "1 item stands".to_owned() } else { format!("{items} items stand") }
}

/// Torsional stiffness with its band, what it weighs, what reaches the tyres; empty where no case measured it.
fn figures(run: &Run<'_>) -> String {
    let Some(figures) = run.figures else { return String::new() };
    let stiffness = |value: f64| format!("{:.0}", to_nm_per_deg(value));
    let mut text = format!("Torsional stiffness {} N·m/deg", stiffness(figures.stiffness));
    if let Some(band) = figures.band {
        text.push_str(&format!(" ({} with soft joints)", stiffness(band.soft)));
    }
    text.push_str(&format!(", {:.1} g of tube per N·m/deg", figures.grams_per_nm_per_deg()));
    if let Some(share) = figures.chassis_share {
        text.push_str(&format!(", {:.0} % of a shift of roll couple reaches the tyres", share.share * 100.0));
    }
    text.push_str("\n\n");
    text
}

fn exceed(number: usize) -> String {
    if number == 1 {
        "1 finding exceeds its limit".to_owned()
    } else {
        format!("{number} findings exceed their limits")
    }
}

fn table(run: &Run<'_>, utilisations: &Utilisations<'_>) -> String {
    let twisted = run.results.cases.iter().any(|case| stiffness(case).is_some());
    let mut headings =
        vec![("case", Align::Left), ("nature", Align::Left), ("worst", Align::Left), ("utilisation", Align::Right)];
    if twisted {
        headings.push(("K N·m/deg", Align::Right));
    }
    let mut columns = Columns::new(&headings);
    for (case, result) in run.pairs() {
        let worst = utilisations.in_case(&case.name);
        let mut row = vec![
            case.name.clone(),
            case.nature.word().to_owned(),
            worst.map_or_else(none, |finding| run.about(finding.subject)),
            worst.and_then(|finding| finding.utilisation).map_or_else(none, |value| format!("{value:.2}")),
        ];
        if twisted {
            row.push(stiffness(result).map_or_else(none, |value| format!("{value:.0}")));
        }
        columns.push(row);
    }
    columns.render()
}

fn none() -> String {
    "-".to_owned()
}

/// The first torsional stiffness that a case measures, N·m/deg.
fn stiffness(result: &CaseResult) -> Option<f64> {
    result.measures.iter().find_map(|measure| match measure {
        MeasureResult::Twist { stiffness, .. } => Some(to_nm_per_deg(*stiffness)),
        MeasureResult::Movement { .. } => None,
    })
}

/// A name from a file without what a terminal would obey.
pub(crate) fn printable(text: &str) -> String {
    text.chars().map(|letter| if letter.is_control() { '\u{fffd}' } else { letter }).collect()
}

fn machine(run: &Run<'_>, written: &Told<'_>, exceeded: &[&Finding], outcome: Outcome) -> String {
    let utilisations = Utilisations::of(run);
    let cases: Vec<Value> = run
        .pairs()
        .map(|(case, result)| {
            let worst = utilisations.in_case(&case.name);
            json!({
                "case": case.name,
                "nature": case.nature.word(),
                "worst": worst.map(|finding| run.subject(finding.subject)),
                "utilisation": worst.and_then(|finding| finding.utilisation),
                "torsional_stiffness_nm_per_deg": stiffness(result),
            })
        })
        .collect();
    let governing: Vec<Value> = utilisations
        .worst_by_kind()
        .map(|(kind, item)| {
            let finding = item.governing;
            json!({
                "kind": kind.word(),
                "item": run.subject(finding.subject),
                "code": finding.code.0,
                "case": finding.case,
                "utilisation": finding.utilisation,
                "scope": finding.scope(),
            })
        })
        .collect();
    let exceeded: Vec<Value> = exceeded
        .iter()
        .map(|finding| {
            json!({
                "code": finding.code.0,
                "case": finding.case,
                "subject": run.subject(finding.subject),
                "value": finding.value,
                "limit": finding.limit,
                "unit": finding.unit,
                "utilisation": finding.utilisation,
                "message": finding.message,
            })
        })
        .collect();
    let passed = outcome == Outcome::Passed;
    let value = json!({
        "exit": if passed { 0 } else { 1 },
        "outcome": if passed { "no check exceeds its limit" } else { "findings exceed limits" },
        "out": written.out.display().to_string(),
        "report": written.report(),
        "report_pdf": written.pdf(),
        "mass_kg": MassModel::of(run.model).total,
        "torsional_stiffness_nm_per_deg": run.figures.map(|figures| to_nm_per_deg(figures.stiffness)),
        "torsional_stiffness_soft_nm_per_deg":
            run.figures.and_then(|figures| figures.band).map(|band| to_nm_per_deg(band.soft)),
        "g_per_nm_per_deg": run.figures.map(Figures::grams_per_nm_per_deg),
        "chassis_share_percent":
            run.figures.and_then(|figures| figures.chassis_share).map(|share| share.share * 100.0),
        "cases": cases,
        "governing": governing,
        "outside_scope": utilisations.outside(),
        "switched_off": run.model.switched_off().iter().map(|off| json!({ "check": off.check, "reason": off.reason })).collect::<Vec<_>>(),
        "exceeded": exceeded,
        "rig_stiffness_nm_per_deg": measured::rig_stiffness(run),
        "measured": measured::machine(run),
        "modes_hz": beside::frequencies(run),
        "buckling": beside::factors(run),
        "diagnostics": list(&run.info.warnings),
    });
    format!("{value:#}\n")
}

//! The same for the terminal.

use std::fmt::Write as _;

use super::{citation, difference, families, tally};
use crate::refine::Study;
use crate::run::CaseReport;

/// All reports as plain text, by family, ending in one line that says whether all agree.
pub fn text(reports: &[CaseReport]) -> String {
    let mut page = String::new();
    for (family, group) in families(reports) {
        line(&mut page, format_args!("{}", family.to_uppercase()));
        for report in group {
            case(&mut page, report);
        }
        page.push('\n');
    }
    let [cases, values, agree] = tally(reports);
    let disagree = values - agree;
    let slow = reports.iter().flat_map(|report| &report.studies).filter(|study| !study.holds).count();
    let end = match (disagree, slow) {
        (0, 0) => "all agree".to_owned(),
        (0, _) => format!("all agree, but {slow} near their limit TOO SLOWLY"),
        _ => format!("{disagree} DISAGREE"),
    };
    line(&mut page, format_args!("{values} values of {cases} cases: {end}."));
    page
}

fn case(page: &mut String, report: &CaseReport) {
    line(page, format_args!("\n  {}", report.title));
    line(
        page,
        format_args!("  {} ({}; {})", citation(&report.source), report.source.basis.word(), report.source.seen.word()),
    );
    if let Some(failure) = &report.failure {
        line(page, format_args!("  NOT SOLVED: {failure}"));
    }
    let width =
        |text: fn(&crate::run::Row) -> &str| report.rows.iter().map(|row| text(row).chars().count()).max().unwrap_or(0);
    let (what, unit) = (width(|row| &row.what), width(|row| row.unit));
    let (printed, ours) = (width(|row| &row.printed).max(7), width(|row| &row.computed).max(4));
    line(page, format_args!("    {:what$}  {:unit$}  {:>printed$}  {:>ours$}  last digits", "", "", "printed", "ours"));
    for row in &report.rows {
        let mark = match (row.problem.is_empty(), row.agrees, row.because.is_empty()) {
            (false, ..) => format!("  {}", row.problem),
            (true, false, _) => "  DISAGREES".to_owned(),
            (true, true, false) => format!("  allowed: {}", row.because),
            (true, true, true) => String::new(),
        };
        line(
            page,
            format_args!(
                "    {:what$}  {:unit$}  {:>printed$}  {:>ours$}  {:>11}{mark}",
                row.what,
                row.unit,
                row.printed,
                row.computed,
                difference(row.difference)
            ),
        );
    }
    for study in &report.studies {
        let Study { what, unit, limit, order, divided, .. } = study;
        let last = study.steps.last();
        let (parts, error) = last.map_or((0, f64::NAN), |step| (step.parts, step.error));
        let observed = last.map_or(f64::NAN, |step| step.order);
        let mark = if study.holds { "" } else { "  TOO LOW" };
        line(
            page,
            format_args!(
                "    {what} nears {limit} {unit}: {divided} {parts}, error {error:+.1e}, order {observed:.2} (theory: {order}){mark}"
            ),
        );
    }
}

fn line(page: &mut String, text: std::fmt::Arguments<'_>) {
    writeln!(page, "{text}").expect("bug: writing to a string cannot fail");
}

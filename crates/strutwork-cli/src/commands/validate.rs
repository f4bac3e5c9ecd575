//! `strutwork validate`: the published cases, re-solved on this machine.

use serde_json::{Value, json};
use strutwork_validation::{CaseReport, report_text, run_all, suite};

use crate::args::ValidateArgs;
use crate::exit::{Failure, Outcome};
use crate::terminal::Terminal;

/// Re-solves every published case.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn run(args: &ValidateArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let reports: Vec<CaseReport> = run_all(&suite());
    let agree = reports.iter().all(CaseReport::agrees);
    let text = if args.json {
        format!("{:#}\n", json!({ "agree": agree, "cases": reports.iter().map(as_json).collect::<Vec<_>>() }))
    } else {
        report_text(&reports)
    };
    terminal.result(&text)?;
    Ok(if agree { Outcome::Passed } else { Outcome::Exceeded })
}

fn as_json(report: &CaseReport) -> Value {
    let rows: Vec<Value> = report
        .rows
        .iter()
        .map(|row| {
            json!({
                "what": row.what,
                "unit": row.unit,
                "printed": row.printed,
                "computed": row.computed,
                "difference_last_digits": Some(row.difference).filter(|difference| difference.is_finite()),
                "allowed_last_digits": row.allowed,
                "because": row.because,
                "agrees": row.agrees,
                "problem": row.problem,
            })
        })
        .collect();
    json!({
        "family": report.family,
        "case": report.name,
        "title": report.title,
        "author": report.source.author,
        "source": report.source.title,
        "place": report.source.place,
        "agrees": report.agrees(),
        "failure": report.failure,
        "rows": rows,
    })
}

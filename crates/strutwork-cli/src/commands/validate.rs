//! `strutwork validate`: the published cases, re-solved on this machine.

use serde_json::{Value, json};
use strutwork_validation::{Book, CaseReport, Study, report_text, run_all, suite};

use crate::args::ValidateArgs;
use crate::exit::{Failure, Outcome};
use crate::files::book;
use crate::terminal::Terminal;

/// Re-solves every published case, and writes the book where one is asked for.
///
/// # Errors
/// [`Failure::Occupied`] and [`Failure::File`] when the book cannot be written; [`Failure::Output`] when standard output
/// cannot.
pub(crate) fn run(args: &ValidateArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    if let Some(folder) = &args.book {
        book::may_write(folder)?;
    }
    let suite = suite();
    let reports = run_all(&suite);
    let agree = reports.iter().all(CaseReport::agrees);
    let written = match &args.book {
        None => None,
        Some(folder) => {
            let whole = Book::of(&suite, &reports, env!("CARGO_PKG_VERSION"));
            let pdf = whole.pdf().unwrap_or_else(|fault| panic!("bug: the book cannot be printed: {fault}"));
            book::write(folder, &[(book::PAGE, whole.html().into_bytes()), (book::PAPER, pdf)])?;
            Some([folder.join(book::PAGE), folder.join(book::PAPER)])
        }
    };
    let text = match &written {
        _ if args.json => {
            format!("{:#}\n", json!({ "agree": agree, "cases": reports.iter().map(as_json).collect::<Vec<_>>() }))
        }
        None => report_text(&reports),
        // The book says it all; what disagrees is said here too.
        Some(_) => {
            let wrong: Vec<CaseReport> = reports.iter().filter(|report| !report.agrees()).cloned().collect();
            let all = report_text(&reports);
            let verdict = all.lines().last().unwrap_or_default();
            if wrong.is_empty() { format!("{verdict}\n") } else { format!("{}{verdict}\n", report_text(&wrong)) }
        }
    };
    terminal.result(&text)?;
    if let Some([page, paper]) = written {
        terminal.note(&format!("Wrote {} and {}\n", page.display(), paper.display()));
    }
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
    let studies: Vec<Value> = report.studies.iter().map(study_json).collect();
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
        "refinements": studies,
    })
}

fn study_json(study: &Study) -> Value {
    let finite = |value: f64| Some(value).filter(|value| value.is_finite());
    let steps: Vec<Value> = study
        .steps
        .iter()
        .map(|step| {
            json!({
                "parts": step.parts,
                "computed": step.computed,
                "relative_error": finite(step.error),
                "order_observed": finite(step.order),
                "problem": step.problem,
            })
        })
        .collect();
    json!({
        "what": study.what,
        "divided": study.divided,
        "unit": study.unit,
        "limit": study.limit,
        "order": study.order,
        "holds": study.holds,
        "steps": steps,
    })
}

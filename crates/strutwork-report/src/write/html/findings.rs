//! Warnings and findings: what exceeds a limit or wants a look in full, what passed in numbers.

use std::borrow::Cow;
use std::collections::BTreeMap;

use strutwork_checks::{Finding, Subject};
use strutwork_model::{Diagnostic, Severity};

use crate::number::{fixed, power, significant};
use crate::run::Run;

/// Findings shown in full; the rest stands in the file.
const SHOWN: usize = 120;

/// A finding or a warning in full.
pub(super) struct Said<'a> {
    pub(super) severity: &'static str,
    pub(super) code: &'static str,
    pub(super) place: String,
    pub(super) about: Cow<'a, str>,
    pub(super) message: &'a str,
    pub(super) used: String,
    pub(super) rest: &'a str,
}

/// Notes of one code.
pub(super) struct Notes<'a> {
    pub(super) code: &'static str,
    pub(super) count: usize,
    pub(super) rule: &'a str,
    pub(super) example: &'a str,
}

/// What a run has to say.
pub(super) struct Findings<'a> {
    /// Errors and warnings among the findings, errors first.
    pub(super) serious: Vec<Said<'a>>,
    /// How many more there are.
    pub(super) more: usize,
    /// What came with the model.
    pub(super) input: Vec<Said<'a>>,
    /// Notes with a rule, gathered by code and rule.
    pub(super) notes: Vec<Notes<'a>>,
    /// What is outside the scope of the checks.
    pub(super) outside: Vec<&'a str>,
    /// How many more of these there are.
    pub(super) outside_more: usize,
}

/// Whether a note says that something was not checked.
fn is_outside(finding: &Finding) -> bool {
    finding.clause.starts_with("outside scope")
}

impl<'a> Findings<'a> {
    pub(super) fn of(run: &Run<'a>) -> Self {
        let mut serious = Vec::new();
        for severity in [Severity::Error, Severity::Warning] {
            let mut of_severity: Vec<&Finding> =
                run.findings.iter().filter(|finding| finding.severity == severity).collect();
            // The farthest over its limit first; equals stay in the order in which they were made.
            let used = |finding: &Finding| finding.utilisation.unwrap_or(f64::INFINITY);
            of_severity.sort_by(|a, b| used(b).total_cmp(&used(a)));
            serious.extend(of_severity.into_iter().map(|finding| said(run, finding)));
        }
        let more = serious.len().saturating_sub(SHOWN);
        serious.truncate(SHOWN);
        let mut outside: Vec<&Finding> = run.findings.iter().filter(|finding| is_outside(finding)).collect();
        // What holds for the whole frame first, single bolts and tubes after it; equals stay in order.
        outside.sort_by_key(|finding| finding.subject != Subject::Frame);
        let mut outside: Vec<&str> = outside.into_iter().map(|finding| finding.message.as_str()).collect();
        let outside_more = outside.len().saturating_sub(SHOWN);
        outside.truncate(SHOWN);
        Self {
            serious,
            more,
            input: run.info.warnings.iter().map(warned).collect(),
            notes: notes(run),
            outside,
            outside_more,
        }
    }
}

fn said<'a>(run: &Run<'a>, finding: &'a Finding) -> Said<'a> {
    Said {
        severity: finding.severity.word(),
        code: finding.code.0,
        place: if finding.case.is_empty() { String::new() } else { format!("case {}", finding.case) },
        about: run.subject(finding.subject),
        message: &finding.message,
        used: used(finding),
        rest: &finding.clause,
    }
}

/// Value over limit of a design finding; of others, the value where it has a limit.
fn used(finding: &Finding) -> String {
    match (finding.utilisation, finding.limit) {
        (Some(utilisation), _) if finding.code.0.starts_with('D') => fixed(utilisation, 2),
        (_, Some(_)) => {
            let size = finding.value.abs();
            let value = if size != 0.0 && !(1e-3..1e7).contains(&size) {
                power(finding.value)
            } else {
                significant(finding.value, 4)
            };
            format!("{value} {}", finding.unit).trim_end().to_owned()
        }
        _ => String::new(),
    }
}

fn warned(diagnostic: &Diagnostic) -> Said<'_> {
    let place = diagnostic.place.as_ref().map(|place| match place.line {
        0 => place.file.clone(),
        line => format!("{}, line {line}", place.file),
    });
    Said {
        severity: diagnostic.severity.word(),
        code: diagnostic.code.0,
        place: place.unwrap_or_default(),
        about: Cow::Borrowed(&diagnostic.subject),
        message: &diagnostic.message,
        used: String::new(),
        rest: &diagnostic.help,
    }
}

/// Notes gathered by code and rule; the example is the one nearest to its limit.
fn notes<'a>(run: &Run<'a>) -> Vec<Notes<'a>> {
    let mut gathered: BTreeMap<(&'static str, &'a str), (usize, &'a Finding)> = BTreeMap::new();
    let notes = run.findings.iter();
    for finding in notes.filter(|f| f.severity == Severity::Note && !is_outside(f)) {
        let entry = gathered.entry((finding.code.0, &finding.clause)).or_insert((0, finding));
        entry.0 += 1;
        if finding.utilisation > entry.1.utilisation {
            entry.1 = finding;
        }
    }
    gathered
        .into_iter()
        .map(|((code, rule), (count, example))| Notes { code, count, rule, example: &example.message })
        .collect()
}

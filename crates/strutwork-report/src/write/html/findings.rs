//! Warnings and findings: what exceeds a limit or wants a look in full, what passed in numbers.

use std::borrow::Cow;

use strutwork_checks::{Finding, Subject};
use strutwork_model::{Diagnostic, Severity};

use crate::number::{fixed, power, significant};
use crate::run::Run;
use crate::tally::Check;

use super::Edition;
use super::calculations::Calculations;

/// Findings shown in full, and on paper; the rest stands in the file.
const SHOWN: usize = 120;
const SHOWN_ON_PAPER: usize = 30;

/// A finding or a warning in full.
pub(super) struct Said<'a> {
    pub(super) severity: &'static str,
    pub(super) code: &'static str,
    pub(super) place: String,
    pub(super) about: Cow<'a, str>,
    pub(super) message: &'a str,
    pub(super) used: String,
    pub(super) rest: &'a str,
    /// The calculation that writes it out.
    pub(super) calculation: Option<usize>,
}

/// Notes of one code.
pub(super) struct Notes<'a> {
    pub(super) code: &'static str,
    pub(super) title: &'static str,
    pub(super) count: usize,
    pub(super) rule: &'a str,
    pub(super) example: &'a str,
}

/// Findings of one code that a clause does not cover.
pub(super) struct Beyond<'a> {
    pub(super) code: &'static str,
    pub(super) title: &'static str,
    pub(super) count: usize,
    /// The greatest utilisation among them.
    pub(super) used: String,
    /// Why that one is outside.
    pub(super) rule: &'a str,
}

/// What a run has to say.
pub(super) struct Findings<'a> {
    /// Errors and warnings among the findings, errors first.
    pub(super) serious: Vec<Said<'a>>,
    /// How many more there are.
    pub(super) more: usize,
    /// What came with the model.
    pub(super) input: Vec<Said<'a>>,
    /// Notes with a rule, one entry a code.
    pub(super) notes: Vec<Notes<'a>>,
    /// What was not checked.
    pub(super) outside: Vec<&'a str>,
    /// The same of the whole frame in a word or two each.
    pub(super) uncovered: Vec<&'a str>,
    /// How many more of these there are.
    pub(super) outside_more: usize,
    /// What was put through a formula whose clause does not cover it.
    pub(super) beyond: Vec<Beyond<'a>>,
}

impl<'a> Findings<'a> {
    pub(super) fn of(run: &Run<'a>, checks: &[Check<'a>], calculations: &Calculations<'a>, edition: Edition) -> Self {
        let most = if edition == Edition::Paper { SHOWN_ON_PAPER } else { SHOWN };
        let mut serious: Vec<&Finding> = Vec::new();
        for severity in [Severity::Error, Severity::Warning] {
            let first = serious.len();
            serious.extend(run.findings.iter().filter(|finding| finding.severity == severity));
            // The farthest over its limit first; equals stay in the order in which they were made.
            let used = |finding: &Finding| finding.utilisation.unwrap_or(f64::INFINITY);
            serious[first..].sort_by(|a, b| used(b).total_cmp(&used(a)));
        }
        let more = serious.len().saturating_sub(most);
        serious.truncate(most);
        // Those that were put through a formula are counted by rule instead.
        let unchecked = |finding: &&Finding| finding.utilisation.is_none() && finding.is_outside();
        let mut outside: Vec<&Finding> = run.findings.iter().filter(unchecked).collect();
        // What holds for the whole frame first, single bolts and tubes after it; equals stay in order.
        outside.sort_by_key(|finding| finding.subject != Subject::Frame);
        let uncovered = outside
            .iter()
            .filter(|finding| finding.subject == Subject::Frame)
            .filter_map(|finding| finding.clause.strip_prefix("outside scope: "))
            .collect();
        let mut outside: Vec<&str> = outside.into_iter().map(|finding| finding.message.as_str()).collect();
        outside.retain(|message| !message.is_empty());
        let outside_more = outside.len().saturating_sub(SHOWN);
        outside.truncate(SHOWN);
        Self {
            serious: serious.into_iter().map(|finding| said(run, finding, calculations)).collect(),
            more,
            input: run.info.warnings.iter().map(warned).collect(),
            notes: notes(checks),
            outside,
            uncovered,
            outside_more,
            beyond: beyond(checks),
        }
    }
}

fn said<'a>(run: &Run<'a>, finding: &'a Finding, calculations: &Calculations<'a>) -> Said<'a> {
    Said {
        severity: finding.severity.word(),
        code: finding.code.0,
        place: if finding.case.is_empty() { String::new() } else { format!("case {}", finding.case) },
        about: run.subject(finding.subject),
        message: &finding.message,
        used: used(finding),
        rest: &finding.clause,
        calculation: calculations.number(finding),
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
        calculation: None,
    }
}

/// Notes by code; rule and example are those of the one nearest to its limit.
fn notes<'a>(checks: &[Check<'a>]) -> Vec<Notes<'a>> {
    let noted = |check: &Check<'a>| {
        let passed = check.rules.iter().map(|rule| rule.worst).filter(|worst| worst.severity == Severity::Note);
        let worst = passed.reduce(|best, next| if next.utilisation > best.utilisation { next } else { best })?;
        Some(Notes {
            code: check.code,
            title: check.title,
            count: check.notes_in_scope,
            rule: &worst.clause,
            example: &worst.message,
        })
    };
    checks.iter().filter_map(noted).collect()
}

/// What a clause does not cover and was put through its formula all the same, by code.
fn beyond<'a>(checks: &[Check<'a>]) -> Vec<Beyond<'a>> {
    let beyond = |check: &Check<'a>| {
        let worst = check.worst_outside?;
        Some(Beyond {
            code: check.code,
            title: check.title,
            count: check.outside,
            used: fixed(worst.utilisation?, 2),
            rule: &worst.clause,
        })
    };
    checks.iter().filter_map(beyond).collect()
}

//! How many findings there are of each check, by severity and by rule; nothing is computed.

use strutwork_checks::{Finding, PAGES};
use strutwork_model::Severity;

use crate::run::Run;

/// Rules of one check that are kept apart. A check has few; where its rules name sizes of single items, no more are sought.
const MOST_RULES: usize = 16;

/// The findings of one code.
#[derive(Debug, Clone, PartialEq)]
pub struct Check<'a> {
    /// Its code.
    pub code: &'static str,
    /// In words, as `strutwork explain` heads its page.
    pub title: &'static str,
    /// How many are errors, warnings and notes.
    pub severities: [usize; 3],
    /// How many a clause does not cover.
    pub outside: usize,
    /// Of these the one nearest to its limit; of those without a limit, the first.
    pub worst_outside: Option<&'a Finding>,
    /// How many are notes that their clause covers: passed, or good to know.
    pub notes_in_scope: usize,
    /// The one nearest to its limit; the first where none has a limit.
    pub worst: &'a Finding,
    /// Clauses or rules that cover what they judge, in the order in which they first occur; the first few where there are many.
    pub rules: Vec<Rule<'a>>,
}

/// A clause under which a check judges.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule<'a> {
    /// The clause.
    pub clause: &'a str,
    /// The finding nearest to its limit; of those without a limit, the first.
    pub worst: &'a Finding,
}

/// The findings of a run, counted, in the order in which their codes first occur.
pub fn checks<'a>(run: &Run<'a>) -> Vec<Check<'a>> {
    let mut checks: Vec<Check<'a>> = Vec::new();
    // Checks speak one after the other: mostly a finding is of the code before, under the clause before.
    let (mut check, mut rule) = (0, 0);
    for finding in run.findings {
        if checks.get(check).is_none_or(|known| known.code != finding.code.0) {
            check = checks.iter().position(|known| known.code == finding.code.0).unwrap_or(checks.len());
            rule = 0;
        }
        if check == checks.len() {
            checks.push(Check {
                code: finding.code.0,
                title: title(finding.code.0),
                severities: [0; 3],
                outside: 0,
                worst_outside: None,
                notes_in_scope: 0,
                worst: finding,
                rules: Vec::new(),
            });
        }
        let of_code = &mut checks[check];
        of_code.severities[match finding.severity {
            Severity::Error => 0,
            Severity::Warning => 1,
            Severity::Note => 2,
        }] += 1;
        of_code.worst = nearer(of_code.worst, finding);
        if finding.is_outside() {
            of_code.outside += 1;
            of_code.worst_outside = Some(of_code.worst_outside.map_or(finding, |best| nearer(best, finding)));
            continue;
        }
        of_code.notes_in_scope += usize::from(finding.severity == Severity::Note);
        let rules = &mut of_code.rules;
        if rules.get(rule).is_none_or(|known| known.clause != finding.clause) {
            rule = match rules.iter().position(|known| known.clause == finding.clause) {
                Some(known) => known,
                None if rules.len() < MOST_RULES => {
                    rules.push(Rule { clause: &finding.clause, worst: finding });
                    rules.len() - 1
                }
                None => continue,
            };
        }
        rules[rule].worst = nearer(rules[rule].worst, finding);
    }
    checks
}

/// What a check is called; its code where nothing explains it.
pub fn title(code: &str) -> &str {
    PAGES.iter().find(|page| page.code == code).map_or(code, |page| page.title)
}

fn nearer<'a>(best: &'a Finding, next: &'a Finding) -> &'a Finding {
    if next.utilisation > best.utilisation { next } else { best }
}

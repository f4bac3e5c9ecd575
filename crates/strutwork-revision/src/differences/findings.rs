//! Findings that came, went, or crossed their limits.

use std::collections::BTreeMap;

use super::naming::Naming;
use crate::results::{FindingRow, ResultSet};

/// What became of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fate {
    /// It exceeds its limit now, and did not before.
    Over,
    /// It no longer exceeds its limit.
    Within,
    /// A warning that was not there before.
    New,
    /// A warning that is no longer there.
    Gone,
}

impl Fate {
    /// Its words in sentences and files.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Over => "over its limit now",
            Self::Within => "no longer over its limit",
            Self::New => "new",
            Self::Gone => "gone",
        }
    }
}

/// A check of one item over all cases, and what became of it.
#[derive(Debug, Clone, PartialEq)]
pub struct FindingChange {
    /// The code of the check.
    pub code: String,
    /// What it is about, by the name of the second revision.
    pub subject: String,
    /// What became of it.
    pub fate: Fate,
    /// The greatest utilisation of the check before.
    pub before: Option<f64>,
    /// And now.
    pub after: Option<f64>,
    /// The case that it is told of, the worst of those that exceed or warn; empty where it holds for all.
    pub case: String,
    /// In how many cases it exceeds or warns; of what went, did so before.
    pub cases: usize,
    /// In the fabricator's words.
    pub message: String,
}

/// A check of one item, over all cases.
#[derive(Default, Clone)]
struct Check<'r> {
    most: Option<f64>,
    over: Vec<&'r FindingRow>,
    warns: Vec<&'r FindingRow>,
}

type Checks<'r> = BTreeMap<(String, String), Check<'r>>;

/// What became of the findings: over their limits first, the worst first.
pub(super) fn compare(a: &ResultSet, b: &ResultSet, naming: &Naming) -> Vec<FindingChange> {
    let before = checks(a, |subject| naming.item("", subject).into_owned());
    let after = checks(b, str::to_owned);
    let nothing = Check::default();
    let mut all = Vec::new();
    let keys: std::collections::BTreeSet<&(String, String)> = before.keys().chain(after.keys()).collect();
    for key in keys {
        let (was, is) = (before.get(key).unwrap_or(&nothing), after.get(key).unwrap_or(&nothing));
        let fate = match (was.over.is_empty(), is.over.is_empty(), was.warns.is_empty(), is.warns.is_empty()) {
            (true, false, ..) => Fate::Over,
            (false, true, ..) => Fate::Within,
            (true, true, true, false) => Fate::New,
            (true, true, false, true) => Fate::Gone,
            _ => continue,
        };
        let rows = match fate {
            Fate::Over => &is.over,
            Fate::Within => &was.over,
            Fate::New => &is.warns,
            Fate::Gone => &was.warns,
        };
        let Some(told) = worst(rows) else { continue };
        all.push(FindingChange {
            code: key.0.clone(),
            subject: key.1.clone(),
            fate,
            before: was.most,
            after: is.most,
            case: told.case.clone(),
            cases: rows.len(),
            message: told.message.clone(),
        });
    }
    all.sort_by(|a, b| {
        let most = |one: &FindingChange| one.after.unwrap_or(0.0).max(one.before.unwrap_or(0.0));
        a.fate.cmp(&b.fate).then(most(b).total_cmp(&most(a)))
    });
    all
}

/// The row of greatest utilisation; of equals the first.
fn worst<'r>(rows: &[&'r FindingRow]) -> Option<&'r FindingRow> {
    let mut worst: Option<&'r FindingRow> = None;
    for row in rows {
        if worst.is_none_or(|worst| row.utilisation > worst.utilisation) {
            worst = Some(row);
        }
    }
    worst
}

fn checks(set: &ResultSet, named: impl Fn(&str) -> String) -> Checks<'_> {
    let mut checks = Checks::new();
    for row in &set.findings {
        let check = checks.entry((row.code.clone(), named(&row.subject))).or_default();
        if row.utilisation > check.most {
            check.most = row.utilisation;
        }
        match row.severity.as_str() {
            "error" => check.over.push(row),
            "warning" => check.warns.push(row),
            _ => {}
        }
    }
    checks
}

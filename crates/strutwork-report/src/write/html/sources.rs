//! Every source that the numbers of this report rest on, once each, in order of appearance.

use std::collections::BTreeSet;

use crate::figures::bays::breaking;
use crate::run::Run;
use crate::tally::Check;

use super::words;

/// What rests on a source, and the source.
pub(super) struct Source {
    pub(super) what: String,
    pub(super) source: String,
}

/// All sources of a run.
pub(super) fn of(run: &Run<'_>, checks: &[Check<'_>]) -> Vec<Source> {
    let mut list = List { seen: BTreeSet::new(), sources: Vec::new() };
    let mut known: Vec<&str> = Vec::new();
    for section in run.model.sections() {
        if known.contains(&section.source.as_str()) {
            continue;
        }
        known.push(&section.source);
        let of = run.model.sections().iter().filter(|other| other.source == section.source);
        let names: Vec<&str> = of.map(|other| other.name.as_str()).collect();
        let sections = if names.len() == 1 { "Section" } else { "Sections" };
        list.add(format!("{sections} {}", names.join(", ")), &section.source);
    }
    for material in run.model.materials() {
        let mark = if material.verified { "source read" } else { "not verified" };
        list.add(format!("Material {} ({mark})", material.name), &material.source);
    }
    for fixing in run.model.fixings() {
        list.add(format!("Fixing {}", fixing.name), &fixing.source);
    }
    for factor in run.cases.0.iter().flat_map(|case| &case.derivation.factors) {
        list.add(format!("Factor {}", factor.name), &factor.source);
    }
    for check in checks {
        for rule in &check.rules {
            list.add(format!("Check {}", check.code), rule.clause);
        }
    }
    if run.cases.0.iter().any(|case| case.free) {
        list.add("Balance of free cases".into(), words::INERTIA_RELIEF);
    }
    if !run.model.panels().is_empty() {
        list.add("Buckling of panels".into(), words::PANEL_BUCKLING);
    }
    if !breaking(run.bays).is_empty() {
        list.add("Rings of bays".into(), words::CLOSED_BOX);
    }
    for method in words::METHODS {
        list.add("This report".into(), method);
    }
    list.sources
}

struct List {
    seen: BTreeSet<(String, String)>,
    sources: Vec<Source>,
}

impl List {
    fn add(&mut self, what: String, source: &str) {
        let key = (what, source.to_owned());
        if !source.is_empty() && !self.seen.contains(&key) {
            self.sources.push(Source { what: key.0.clone(), source: key.1.clone() });
            self.seen.insert(key);
        }
    }
}

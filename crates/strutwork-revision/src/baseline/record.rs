//! From a run's quantities to a baseline.

use std::collections::{BTreeMap, BTreeSet};

use super::file::{Baseline, Entry, Setting};
use super::keep::Pattern;
use super::quantity::{Kept, Key};
use super::tolerance::{Scales, rounded_up, rules};
use super::usual::{all, usual};
use crate::results::ResultSet;

/// Of a run, what its tables do not say.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Circumstances {
    /// How the run was asked for.
    pub options: Vec<Setting>,
    /// The diagonal of the box round all joints, m.
    pub size_m: f64,
    /// The share at which passes of second order end; `None` in first order.
    pub steady: Option<f64>,
}

/// Keeps the chosen quantities of a run, each with its tolerance.
///
/// With an earlier baseline, a row of it whose tolerance has a reason of its author's own keeps tolerance and reason, rules
/// that its author changed hold on, and rows that no pattern means stay as long as the run knows the quantity.
pub fn record(set: &ResultSet, keep: &[Pattern], of: &Circumstances, earlier: Option<&Baseline>) -> Baseline {
    let rules = kept_rules(of.steady, earlier);
    let scales = Scales::of(&set.quantities, of.size_m);
    let own = earlier.map(own_tolerances).unwrap_or_default();
    let mut entries: Vec<Entry> = Vec::new();
    for kept in chosen(&everything(set), keep, earlier).cloned() {
        let (rule, scale) = scales.scale(&kept);
        let share = rules.iter().find(|one| one.name == rule).map_or(0.0, |one| one.share);
        let (tolerance, why) =
            own.get(&kept.key).cloned().unwrap_or_else(|| (rounded_up(share * scale), rule.to_owned()));
        entries.push(Entry { kept, tolerance, why, line: 0 });
    }
    Baseline {
        recorded_by: set.about.version.clone(),
        options: of.options.clone(),
        keep: keep.to_vec(),
        inputs: set.about.inputs.clone(),
        rules: rules.into_iter().filter(|rule| entries.iter().any(|entry| entry.why == rule.name)).collect(),
        entries,
    }
}

/// The patterns that keep nothing of a run.
pub fn idle<'a>(set: &ResultSet, keep: &'a [Pattern]) -> Vec<&'a Pattern> {
    let keys: Vec<Key> = every(set).into_iter().map(|kept| kept.key).collect();
    keep.iter().filter(|pattern| !pattern.is_usual() && !keys.iter().any(|key| pattern.means(key))).collect()
}

/// Everything that can be kept, the usual choice first, then table by table; none twice.
pub fn every(set: &ResultSet) -> Vec<Kept> {
    everything(set).all
}

/// Everything that can be kept, of which the first so many are the usual choice.
pub(super) struct Everything {
    pub(super) all: Vec<Kept>,
    usual: usize,
}

pub(super) fn everything(set: &ResultSet) -> Everything {
    let mut met: BTreeSet<Key> = BTreeSet::new();
    let mut first = |kept: &Kept| met.insert(kept.key.clone());
    let mut every: Vec<Kept> = usual(set).into_iter().filter(&mut first).collect();
    let usual = every.len();
    every.extend(all(set).filter(first));
    Everything { all: every, usual }
}

/// What the patterns mean, in the order of [`every`], then what an earlier baseline has beside them.
pub(super) fn chosen<'e>(
    every: &'e Everything,
    keep: &[Pattern],
    earlier: Option<&Baseline>,
) -> impl Iterator<Item = &'e Kept> {
    let usual = if keep.iter().any(Pattern::is_usual) { every.usual } else { 0 };
    let meant = |(place, kept): &(usize, &Kept)| *place < usual || keep.iter().any(|pattern| pattern.means(&kept.key));
    let (chosen, others): (Vec<(usize, &Kept)>, Vec<_>) = every.all.iter().enumerate().partition(meant);
    let known: BTreeSet<&Key> = earlier.iter().flat_map(|earlier| &earlier.entries).map(|of| &of.kept.key).collect();
    let beside: Vec<_> = others.into_iter().filter(|(_, kept)| known.contains(&kept.key)).collect();
    chosen.into_iter().chain(beside).map(|(_, kept)| kept)
}

/// The rules, with what the author of an earlier baseline made of them.
fn kept_rules(steady: Option<f64>, earlier: Option<&Baseline>) -> Vec<super::Rule> {
    let own = |rule: super::Rule| {
        let changed = earlier.and_then(|earlier| earlier.rule(&rule.name)).filter(|known| known.why != rule.why);
        changed.cloned().unwrap_or(rule)
    };
    rules(steady).into_iter().map(own).collect()
}

/// The tolerances of rows whose reason is no rule, with the reason.
fn own_tolerances(earlier: &Baseline) -> BTreeMap<Key, (f64, String)> {
    let own = earlier.entries.iter().filter(|entry| earlier.rule(&entry.why).is_none());
    own.map(|entry| (entry.kept.key.clone(), (entry.tolerance, entry.why.clone()))).collect()
}

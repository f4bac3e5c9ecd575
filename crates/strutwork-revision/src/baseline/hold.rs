//! A new run held against a baseline.

use std::collections::{BTreeMap, BTreeSet};

use super::file::{Baseline, Entry};
use super::quantity::{Kept, Key, Value};
use super::record::{chosen, everything};
use crate::results::{InputHash, Kind, ResultSet};

/// What came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Held<'a> {
    /// Every expected value, in the order of the file.
    pub rows: Vec<Row<'a>>,
    /// What the run has, would be kept, and is not in the baseline.
    pub new: Vec<Kept>,
    /// What the run read that is not what was read when the baseline was recorded.
    pub inputs: Vec<InputChange>,
    /// The version of the program that recorded.
    pub recorded_by: &'a str,
    /// The version of the program that ran.
    pub version: &'a str,
}

/// An expected value, and how the new one stands to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Row<'a> {
    /// What was expected.
    pub entry: &'a Entry,
    /// How it stands.
    pub standing: Standing,
}

/// How a new value stands to the expected one.
#[derive(Debug, Clone, PartialEq)]
pub enum Standing {
    /// Within its tolerance.
    Holds,
    /// Further off than its tolerance, or another word.
    Departs(Departure),
    /// The run does not have it.
    Missing,
}

/// A value that departs.
#[derive(Debug, Clone, PartialEq)]
pub struct Departure {
    /// The new value.
    pub now: Value,
    /// The unit of the new value, where it is another.
    pub unit: Option<String>,
    /// How many tolerances it lies off; infinite for words, counts and other units.
    pub tolerances: f64,
    /// By how much it has grown, %; `None` for words and where the expected value is 0.
    pub per_cent: Option<f64>,
}

/// A file that is not as it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum InputChange {
    /// It has another content.
    Differs(String),
    /// It was read then and is not there now.
    Gone(String),
    /// It was not there then.
    Added(String),
}

/// Holds a run against a baseline.
pub fn hold<'a>(baseline: &'a Baseline, set: &'a ResultSet) -> Held<'a> {
    let every = everything(set);
    let now: BTreeMap<&Key, &Kept> = every.all.iter().map(|kept| (&kept.key, kept)).collect();
    let row = |entry: &'a Entry| {
        let standing = match now.get(&entry.kept.key) {
            Some(kept) => stand(entry, kept),
            None => Standing::Missing,
        };
        Row { entry, standing }
    };
    let expected: BTreeSet<&Key> = baseline.entries.iter().map(|entry| &entry.kept.key).collect();
    let new = chosen(&every, &baseline.keep, None).filter(|kept| !expected.contains(&kept.key));
    Held {
        rows: baseline.entries.iter().map(row).collect(),
        new: new.cloned().collect(),
        inputs: changed(&baseline.inputs, &set.about.inputs),
        recorded_by: &baseline.recorded_by,
        version: &set.about.version,
    }
}

fn stand(entry: &Entry, now: &Kept) -> Standing {
    let (tolerances, per_cent) = match (&entry.kept.value, &now.value) {
        (Value::Number(was), Value::Number(is)) => {
            let off = (is - was).abs();
            let tolerances = if off <= entry.tolerance {
                0.0
            } else if entry.tolerance > 0.0 {
                off / entry.tolerance
            } else {
                f64::INFINITY
            };
            (tolerances, (*was != 0.0).then(|| (is - was) / was.abs() * 100.0))
        }
        (was, is) => (if was == is { 0.0 } else { f64::INFINITY }, None),
    };
    let unit = (entry.kept.unit != now.unit).then(|| now.unit.clone());
    if tolerances == 0.0 && unit.is_none() {
        return Standing::Holds;
    }
    let tolerances = if unit.is_some() { f64::INFINITY } else { tolerances };
    Standing::Departs(Departure { now: now.value.clone(), unit, tolerances, per_cent })
}

/// Of files that a run read, the one of this name.
fn find<'i>(list: &'i [InputHash], name: &str) -> Option<&'i InputHash> {
    list.iter().find(|input| input.file == name)
}

fn changed(then: &[InputHash], now: &[InputHash]) -> Vec<InputChange> {
    let gone_or_other = then.iter().filter_map(|was| match find(now, &was.file) {
        Some(is) if is == was => None,
        Some(_) => Some(InputChange::Differs(was.file.clone())),
        None => Some(InputChange::Gone(was.file.clone())),
    });
    let added = now.iter().filter(|is| find(then, &is.file).is_none());
    gone_or_other.chain(added.map(|is| InputChange::Added(is.file.clone()))).collect()
}

impl Held<'_> {
    /// Whether every expected value is there and within its tolerance. New quantities do not count: the baseline says
    /// nothing of them.
    pub fn holds(&self) -> bool {
        self.rows.iter().all(|row| row.standing == Standing::Holds)
    }

    /// What departs or is missing, in the order that matters: what sums the frame up before its parts, as kinds are listed,
    /// and within a kind the most tolerances first, what is missing before the rest.
    pub fn by_importance(&self) -> Vec<&Row<'_>> {
        let mut rows: Vec<&Row<'_>> = self.rows.iter().filter(|row| row.standing != Standing::Holds).collect();
        rows.sort_by(|a, b| weight(a).cmp(&weight(b)).then(tolerances(b).total_cmp(&tolerances(a))));
        rows
    }
}

/// What matters most has the least: the figures that a frame is ordered and accepted by, then kind by kind.
fn weight(row: &Row<'_>) -> (u8, Kind) {
    let Key { kind, quantity, .. } = &row.entry.kept.key;
    let rank = match (kind, quantity.as_str()) {
        (Kind::Frame, "torsional_stiffness") => 0,
        (Kind::Frame, "worst_utilisation") => 1,
        (Kind::Frame, "mass") => 2,
        (Kind::Frame, _) => 3,
        _ => 4,
    };
    (rank, *kind)
}

fn tolerances(row: &Row<'_>) -> f64 {
    match &row.standing {
        Standing::Holds => 0.0,
        Standing::Departs(departure) => departure.tolerances,
        Standing::Missing => f64::INFINITY,
    }
}

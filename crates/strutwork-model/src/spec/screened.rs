//! Fatigue pairs and limits on movement, as the user wrote them.

use serde::Serialize;

use super::Written;
use super::keys::{Document, Keys};
use crate::reference;

/// The table `[fatigue]` with the tables below it: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct FatigueEntry {
    /// Where it stands; a script gives none.
    pub name: Written<String>,
    /// What holds for tubes whose group has none of its own.
    pub detail: DetailEntry,
    /// Factor on the stress ranges where the moments at joints are not modelled.
    pub moment_factor: Option<Written<f64>>,
    /// `[fatigue.groups.NAME]`.
    pub groups: Vec<DetailEntry>,
    /// `[fatigue.pairs.NAME]`.
    pub pairs: Vec<PairEntry>,
}

/// The detail that tubes are welded in: of `[fatigue]` or of one `[fatigue.groups.NAME]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct DetailEntry {
    /// The group of tubes; empty for all.
    pub group: Written<String>,
    /// Detail category, MPa at 2 million cycles.
    pub category_mpa: Option<Written<f64>>,
    /// `member` or `node-joint`.
    pub curve: Option<Written<String>>,
}

/// A table `[fatigue.pairs.NAME]`: two cases that the frame goes between.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct PairEntry {
    /// Its name.
    pub name: Written<String>,
    /// The name of a load case.
    pub from: Option<Written<String>>,
    /// The name of another, or `none` for the unloaded frame.
    pub to: Option<Written<String>>,
    /// How often.
    pub cycles: Option<Written<f64>>,
    /// Share of the range between the two cases; 1 where not given.
    pub share: Option<Written<f64>>,
    /// Where the cycles come from.
    pub source: Option<Written<String>>,
    /// The user's note.
    pub note: Option<Written<String>>,
}

/// A table `[limits.NAME]`: how far something may move.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct LimitEntry {
    /// Its name.
    pub name: Written<String>,
    /// The joint that moves.
    pub joint: Option<Written<String>>,
    /// The joint that the movement is measured from.
    pub relative_to: Option<Written<String>>,
    /// Two joints whose distance changes.
    pub between: Vec<Written<String>>,
    /// `x`, `y`, `z` or `total`.
    pub direction: Option<Written<String>>,
    /// mm.
    pub most_mm: Option<Written<f64>>,
    /// The cases that it holds in; empty for all.
    pub cases: Vec<Written<String>>,
    /// Where the limit comes from.
    pub source: Option<Written<String>>,
    /// The user's note.
    pub note: Option<Written<String>>,
}

pub(super) fn fatigue(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> FatigueEntry {
    let Some((table, spot)) = root.table("fatigue", document) else { return FatigueEntry::default() };
    let keys = Keys { called: "[fatigue]", table, spot };
    keys.known(&reference::FATIGUE, document);
    FatigueEntry {
        name: Written::at("fatigue".to_owned(), spot),
        detail: detail(Written::at(String::new(), spot), &keys, document),
        moment_factor: keys.number("moment_factor", document),
        groups: below(&keys, "groups", document, |name, keys, document| {
            keys.known(&reference::FATIGUE_GROUP, document);
            detail(name, keys, document)
        }),
        pairs: below(&keys, "pairs", document, pair),
    }
}

/// The tables `[fatigue.KIND.NAME]`, each read by `one`.
fn below<T>(
    fatigue: &Keys<'_, '_>,
    kind: &'static str,
    document: &mut Document<'_, '_>,
    one: impl Fn(Written<String>, &Keys<'_, '_>, &mut Document<'_, '_>) -> T,
) -> Vec<T> {
    let Some((table, spot)) = fatigue.table(kind, document) else { return Vec::new() };
    let called = format!("[fatigue.{kind}]");
    let mut entries = Vec::new();
    for (name, table) in (Keys { called: &called, table, spot }).tables(document) {
        let called = format!("[fatigue.{kind}.{}]", name.value);
        let spot = name.spot.unwrap_or(spot);
        entries.push(one(name, &Keys { called: &called, table, spot }, document));
    }
    entries
}

fn detail(group: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> DetailEntry {
    DetailEntry { group, category_mpa: keys.number("category_mpa", document), curve: keys.text("curve", document) }
}

fn pair(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> PairEntry {
    keys.known(&reference::FATIGUE_PAIR, document);
    PairEntry {
        from: keys.text("from", document),
        to: keys.text("to", document),
        cycles: keys.number("cycles", document),
        share: keys.number("share", document),
        source: keys.text("source", document),
        note: keys.text("note", document),
        name,
    }
}

pub(super) fn limit(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> LimitEntry {
    keys.known(&reference::LIMIT, document);
    LimitEntry {
        joint: keys.text("joint", document),
        relative_to: keys.text("relative_to", document),
        between: keys.texts("between", document),
        direction: keys.text("direction", document),
        most_mm: keys.number("most_mm", document),
        cases: keys.texts("cases", document),
        source: keys.text("source", document),
        note: keys.text("note", document),
        name,
    }
}

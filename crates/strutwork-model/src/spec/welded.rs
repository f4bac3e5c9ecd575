//! `[welds]`, as the user wrote it.

use serde::Serialize;

use super::Written;
use super::keys::{Document, Keys};
use crate::reference;

/// The table `[welds]`: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct WeldsEntry {
    /// What holds for every tube.
    pub all: WeldEntry,
    /// `directional` or `simplified`.
    pub method: Option<Written<String>>,
    /// `tig` or `mig`.
    pub process: Option<Written<String>>,
    /// `[welds.groups.NAME]`.
    pub groups: Vec<WeldEntry>,
}

/// Kind and throat, of `[welds]` or of one group.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct WeldEntry {
    /// The group's name; empty in `[welds]` itself.
    pub group: Written<String>,
    /// `fillet` or `butt`.
    pub kind: Option<Written<String>>,
    /// mm.
    pub throat_mm: Option<Written<f64>>,
}

pub(super) fn welds(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> WeldsEntry {
    let Some((table, spot)) = root.table("welds", document) else { return WeldsEntry::default() };
    let keys = Keys { called: "[welds]", table, spot };
    keys.known(&reference::WELDS, document);
    let mut groups = Vec::new();
    if let Some((table, spot)) = keys.table("groups", document) {
        for (name, table) in (Keys { called: "[welds.groups]", table, spot }).tables(document) {
            let called = format!("[welds.groups.{}]", name.value);
            let keys = Keys { called: &called, table, spot: name.spot.unwrap_or(spot) };
            keys.known(&reference::WELD_GROUP, document);
            groups.push(one(name, &keys, document));
        }
    }
    WeldsEntry {
        all: one(Written::at(String::new(), spot), &keys, document),
        method: keys.text("method", document),
        process: keys.text("process", document),
        groups,
    }
}

fn one(group: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> WeldEntry {
    WeldEntry { group, kind: keys.text("kind", document), throat_mm: keys.number("throat_mm", document) }
}

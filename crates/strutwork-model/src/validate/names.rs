//! Names: what is one, which stand twice, and where each stands.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::Log;
use crate::codes;
use crate::diagnostic::Code;
use crate::nearest::nearest;
use crate::spec::Written;

/// The rows of one kind by their names.
pub(super) struct Names<'s> {
    kind: &'static str,
    rows: BTreeMap<&'s str, usize>,
    /// In input order, for suggestions.
    all: Vec<&'s str>,
    suggested: RefCell<Suggested<'s>>,
}

/// Suggestions made so far: a name used a thousand times is looked for once.
#[derive(Default)]
struct Suggested<'s> {
    found: BTreeMap<String, Option<&'s str>>,
    compared: usize,
}

/// How many pairs of names are compared before suggestions stop, so that a large frame with every name wrong is still
/// answered at once.
const MOST_COMPARED: usize = 2_000_000;

impl<'s> Names<'s> {
    /// Registers the names of all rows; a name that is none or stands twice is a fault.
    pub(super) fn of(kind: &'static str, names: impl Iterator<Item = &'s Written<String>>, log: &mut Log) -> Self {
        let mut found = Self { kind, rows: BTreeMap::new(), all: Vec::new(), suggested: RefCell::default() };
        let mut first: Vec<&Written<String>> = Vec::new();
        for (row, name) in names.enumerate() {
            first.push(name);
            if !is_name(name, kind, log) {
                continue;
            }
            if let Some(&before) = found.rows.get(name.as_str()) {
                let place = first[before].spot.map(|spot| format!(", first on line {}", spot.line)).unwrap_or_default();
                let kinds = if kind == "mass" { "masses".to_owned() } else { format!("{kind}s") };
                let message = format!("there are two {kinds} called `{}`{place}", name.value);
                let help = format!("give each {kind} a name of its own, or take one of the two out");
                log.error(codes::DUPLICATE_NAME, name.spot, name, message, help);
            } else {
                found.rows.insert(name, row);
                found.all.push(name);
            }
        }
        found
    }

    /// Registers names of which every row of a group has the same: the place of a name is that of its first row among the
    /// first rows. A name that is none is a fault.
    pub(super) fn grouped(kind: &'static str, names: impl Iterator<Item = &'s Written<String>>, log: &mut Log) -> Self {
        let mut found = Self { kind, rows: BTreeMap::new(), all: Vec::new(), suggested: RefCell::default() };
        for name in names {
            if !found.rows.contains_key(name.as_str()) && is_name(name, kind, log) {
                found.rows.insert(name, found.all.len());
                found.all.push(name);
            }
        }
        found
    }

    /// The names, in input order, each once.
    pub(super) fn all(&self) -> impl Iterator<Item = &'s str> {
        self.all.iter().copied()
    }

    /// The row with this exact name.
    pub(super) fn row(&self, name: &str) -> Option<usize> {
        self.rows.get(name).copied()
    }

    /// Whether the row is the one that its name finds: not so for a name that is none, or the second of two.
    pub(super) fn finds(&self, name: &str, row: usize) -> bool {
        self.rows.get(name) == Some(&row)
    }

    fn nearest(&self, name: &str) -> Option<&'s str> {
        let mut suggested = self.suggested.borrow_mut();
        if let Some(&found) = suggested.found.get(name) {
            return found;
        }
        if suggested.compared > MOST_COMPARED {
            return None;
        }
        suggested.compared += self.all.len();
        let found = nearest(name, self.all.iter().copied());
        suggested.found.insert(name.to_owned(), found);
        found
    }

    /// The row with this exact name, or a fault that names the nearest one.
    pub(super) fn find(
        &self,
        name: &Written<String>,
        code: Code,
        file: &str,
        who: &str,
        log: &mut Log,
    ) -> Option<usize> {
        if let Some(&row) = self.rows.get(name.as_str()) {
            return Some(row);
        }
        let kind = self.kind;
        if name.is_empty() {
            let message = format!("{who} names no {kind}");
            log.error(codes::EMPTY_NAME, name.spot, "", message, format!("write the name of a {kind} of {file}"));
            return None;
        }
        let help = match self.nearest(name) {
            Some(found) => format!("did you mean `{found}`?"),
            None if self.all.is_empty() => format!("no {kind} is defined in {file}"),
            None => format!("add it to {file}, or correct the name: letters, case and signs count"),
        };
        log.error(code, name.spot, name, format!("{who}: there is no {kind} `{}` in {file}", name.value), help);
        None
    }
}

/// Whether a text can be a name; a fault otherwise.
pub(super) fn is_name(name: &Written<String>, kind: &str, log: &mut Log) -> bool {
    if name.trim().is_empty() {
        let message = format!("a {kind} has no name");
        log.error(codes::EMPTY_NAME, name.spot, "", message, "give it a name, any text");
        return false;
    }
    if let Some(sign) = name.chars().find(|sign| sign.is_control()) {
        let plain: String = name.chars().filter(|sign| !sign.is_control()).collect();
        let message = format!("the name of the {kind} `{plain}` holds an invisible sign (U+{:04X})", u32::from(sign));
        log.error(codes::CONTROL_CHARACTER, name.spot, &plain, message, "type the name again, on one line");
        return false;
    }
    true
}

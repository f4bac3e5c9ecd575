//! Two lists of the same kind of items: which is which, and what happened to each.

use super::change::{Change, Part};
use super::facts::{Item, differ, pair};

/// Two lists of items, and which is which.
pub(super) struct Listed {
    pub(super) before: Vec<Item>,
    pub(super) after: Vec<Item>,
    pub(super) pairs: Vec<Option<usize>>,
}

impl Listed {
    pub(super) fn of(before: Vec<Item>, after: Vec<Item>) -> Self {
        let pairs = pair(&before, &after);
        Self { before, after, pairs }
    }

    /// Without pairs of different names: what is alike is not the same thing by another name.
    pub(super) fn by_name_only(mut self) -> Self {
        for (item, pair) in self.before.iter().zip(&mut self.pairs) {
            *pair = pair.filter(|&place| self.after[place].name == item.name);
        }
        self
    }

    /// Tells the parts of the first model by the names of their pairs.
    pub(super) fn rename<'m>(&self, names: &mut [&'m str], others: &[&'m str]) {
        for (name, pair) in names.iter_mut().zip(&self.pairs) {
            if let Some(place) = *pair {
                *name = others[place];
            }
        }
    }

    /// Which item of the first list each of the second was.
    pub(super) fn came_from(&self) -> Vec<Option<usize>> {
        let mut from = vec![None; self.after.len()];
        for (place, pair) in self.pairs.iter().enumerate() {
            if let Some(other) = *pair {
                from[other] = Some(place);
            }
        }
        from
    }

    /// Tells what happened to each, in the order of the second list, then what is gone.
    pub(super) fn told(&self, part: Part, out: &mut Vec<Change>) {
        for (item, from) in self.after.iter().zip(self.came_from()) {
            match from {
                None => out.push(Change::added(part, &item.name, summary(item))),
                Some(was) => {
                    let was = &self.before[was];
                    out.extend(Change::of(part, &was.name, &item.name, differ(&was.facts, &item.facts)));
                }
            }
        }
        for (item, pair) in self.before.iter().zip(&self.pairs) {
            if pair.is_none() {
                out.push(Change::gone(part, &item.name, summary(item)));
            }
        }
    }
}

/// An item in a few words.
pub(super) fn summary(item: &Item) -> String {
    let told = item.facts.iter().filter(|fact| fact.what != "source").take(3);
    let words = told.map(|fact| format!("{} {}", fact.what, fact.value.with_unit()));
    words.collect::<Vec<_>>().join(", ")
}

/// Tells of what a model has one, under no name.
pub(super) fn single(part: Part, before: &Item, after: &Item, out: &mut Vec<Change>) {
    out.extend(Change::of(part, "", "", differ(&before.facts, &after.facts)));
}

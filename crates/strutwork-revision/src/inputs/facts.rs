//! What is known of an item of a model, as a list of named values, and how two such lists differ.

use std::borrow::Cow;

use crate::number;

/// A value of an item.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number in its door unit; the unit is empty for a ratio.
    Number(f64, &'static str),
    /// A word or a name.
    Text(String),
    /// A place or a direction, mm or a ratio, global axes.
    Point([f64; 3]),
}

/// Places nearer than this are the same, mm: what rounding leaves of a coordinate.
const SAME_MM: f64 = 1e-6;
/// Numbers that differ by less than this share are the same.
const SAME_SHARE: f64 = 1e-9;
/// Numbers below this are zero: no size, force or mass of a frame is so small.
const NOTHING: f64 = 1e-12;

impl Value {
    /// Whether both mean the same: as numbers, not as they are written.
    pub fn same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Number(a, of_a), Self::Number(b, of_b)) => of_a == of_b && same_number(*a, *b),
            (Self::Text(a), Self::Text(b)) => a == b,
            (Self::Point(a), Self::Point(b)) => a.iter().zip(b).all(|(a, b)| (a - b).abs() <= SAME_MM),
            _ => false,
        }
    }

    /// Its text without the unit: `1.5`, `fixed`, `(100, 0, 50)`.
    pub fn text(&self) -> String {
        match self {
            Self::Number(value, _) => number::shown(*value),
            Self::Text(text) if text.is_empty() => "none".to_owned(),
            Self::Text(text) => text.clone(),
            Self::Point(at) => format!("({})", at.map(number::shown).join(", ")),
        }
    }

    /// Its text and its unit: `1.5 mm`.
    pub fn with_unit(&self) -> String {
        let unit = self.unit();
        if unit.is_empty() { self.text() } else { format!("{} {unit}", self.text()) }
    }

    /// Its unit; empty for a ratio or a word.
    pub const fn unit(&self) -> &'static str {
        match self {
            Self::Number(_, unit) => unit,
            Self::Point(_) => "mm",
            Self::Text(_) => "",
        }
    }
}

pub(super) fn same_number(a: f64, b: f64) -> bool {
    (a - b).abs() <= (SAME_SHARE * a.abs().max(b.abs())).max(NOTHING)
}

/// A value and what it is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fact {
    pub(super) what: Cow<'static, str>,
    pub(super) value: Value,
    /// Whether the value only follows from another one. Where it does on both sides, it is no change of its own.
    pub(super) follows: bool,
}

impl Fact {
    pub(super) fn new(what: impl Into<Cow<'static, str>>, value: Value) -> Self {
        Self { what: what.into(), value, follows: false }
    }

    /// The same, as one that follows from another where that holds.
    pub(super) fn following(self, follows: bool) -> Self {
        Self { follows, ..self }
    }
}

/// A number in its door unit.
pub(super) fn number(what: impl Into<Cow<'static, str>>, value: f64, unit: &'static str) -> Fact {
    Fact::new(what, Value::Number(value, unit))
}

/// A word or a name.
pub(super) fn text(what: impl Into<Cow<'static, str>>, value: impl Into<String>) -> Fact {
    Fact::new(what, Value::Text(value.into()))
}

/// Yes or no.
pub(super) fn yes(what: impl Into<Cow<'static, str>>, value: bool) -> Fact {
    text(what, if value { "yes" } else { "no" })
}

/// A place, m.
pub(super) fn place(what: impl Into<Cow<'static, str>>, at: [f64; 3]) -> Fact {
    Fact::new(what, Value::Point(at.map(strutwork_model::units::to_mm)))
}

/// One thing that differs of an item.
#[derive(Debug, Clone, PartialEq)]
pub struct Detail {
    /// What: `wall`, `group`, `place`.
    pub what: String,
    /// What it was; `None` where it was not given.
    pub before: Option<Value>,
    /// What it is; `None` where it is not given.
    pub after: Option<Value>,
}

impl Detail {
    /// How far a number or a place went, in its unit; `None` for words.
    pub fn size(&self) -> Option<f64> {
        match (self.before.as_ref()?, self.after.as_ref()?) {
            (Value::Number(a, _), Value::Number(b, _)) => Some(b - a),
            (Value::Point(a), Value::Point(b)) => Some(distance(*a, *b)),
            _ => None,
        }
    }

    /// In words: `wall 1.5 → 2 mm`, `moved by 12.5 mm (x +10, z −7.5)`.
    pub fn words(&self) -> String {
        match (&self.before, &self.after) {
            (Some(Value::Point(a)), Some(Value::Point(b))) => {
                let parts: Vec<String> = ["x", "y", "z"]
                    .into_iter()
                    .zip(a.iter().zip(b))
                    .filter(|(_, (a, b))| (**b - **a).abs() > SAME_MM)
                    .map(|(axis, (a, b))| format!("{axis} {}", number::signed(b - a)))
                    .collect();
                let what = if self.what == PLACE { String::new() } else { format!("{} ", self.what) };
                format!("{what}moved by {} mm ({})", number::length(distance(*a, *b)), parts.join(", "))
            }
            (Some(a), Some(b)) if a.unit() == b.unit() => format!("{} {} → {}", self.what, a.text(), b.with_unit()),
            (Some(a), Some(b)) => format!("{} {} → {}", self.what, a.with_unit(), b.with_unit()),
            (None, Some(b)) => format!("{} now {}", self.what, b.with_unit()),
            (Some(a), None) => format!("{} no longer given, was {}", self.what, a.with_unit()),
            (None, None) => self.what.clone(),
        }
    }
}

/// The fact that is an item's own place.
pub(super) const PLACE: &str = "place";

pub(super) fn distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    a.iter().zip(b).map(|(a, b)| (b - a).powi(2)).sum::<f64>().sqrt()
}

/// What differs between two lists of facts, in the order of the second, then what only the first has.
pub(super) fn differ(before: &[Fact], after: &[Fact]) -> Vec<Detail> {
    let find = |facts: &'_ [Fact], what: &str| facts.iter().find(|fact| fact.what == what).cloned();
    let mut details = Vec::new();
    for fact in after {
        let was = find(before, &fact.what);
        if !was.as_ref().is_some_and(|was| was.value.same(&fact.value) || was.follows && fact.follows) {
            let before = was.map(|was| was.value);
            details.push(Detail { what: fact.what.to_string(), before, after: Some(fact.value.clone()) });
        }
    }
    for fact in before {
        if find(after, &fact.what).is_none() {
            details.push(Detail { what: fact.what.to_string(), before: Some(fact.value.clone()), after: None });
        }
    }
    details
}

/// An item of a list: its name, and what is known of it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Item {
    pub(super) name: String,
    pub(super) facts: Vec<Fact>,
}

/// For each item of the first list the place of its pair in the second: the one of the same name, else one of another name
/// of which the same is known.
pub(super) fn pair(before: &[Item], after: &[Item]) -> Vec<Option<usize>> {
    let mut taken = vec![false; after.len()];
    let mut pairs: Vec<Option<usize>> = before
        .iter()
        .map(|item| {
            let place = (0..after.len()).find(|&place| !taken[place] && after[place].name == item.name)?;
            taken[place] = true;
            Some(place)
        })
        .collect();
    for (item, pair) in before.iter().zip(&mut pairs).filter(|(_, pair)| pair.is_none()) {
        let alike = |place: &usize| !taken[*place] && differ(&item.facts, &after[*place].facts).is_empty();
        *pair = (0..after.len()).find(alike);
        if let Some(place) = *pair {
            taken[place] = true;
        }
    }
    pairs
}

//! One value with its name: what a baseline keeps.

use std::fmt;

use crate::results::{Kind, Quantity};

/// What a value is of.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// What it is of.
    pub kind: Kind,
    /// The load case; empty where it is of none or of all.
    pub case: String,
    /// The joint, tube, mount, …; empty for the frame or the case as a whole.
    pub subject: String,
    /// What is measured: `torsional_stiffness`, `uz_mm`, …
    pub quantity: String,
}

/// A number, or a word such as the code of the check that governs.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// In the quantity's unit.
    Number(f64),
    /// As it is written.
    Text(String),
}

/// A named value.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept {
    /// What it is of.
    pub key: Key,
    /// Its value.
    pub value: Value,
    /// The unit at the doors: `N`, `mm`, `N·m/deg`; empty for none.
    pub unit: String,
}

impl Key {
    /// A key of these parts.
    pub fn new(kind: Kind, case: &str, subject: impl Into<String>, quantity: impl Into<String>) -> Self {
        Self { kind, case: case.to_owned(), subject: subject.into(), quantity: quantity.into() }
    }

    /// The four parts as text, in the order of the file's columns.
    pub fn parts(&self) -> [&str; 4] {
        [self.kind.word(), &self.case, &self.subject, &self.quantity]
    }
}

impl fmt::Display for Key {
    /// `mount drive at rear-left: axial_n, case kerb`; `frame: torsional_stiffness`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.kind.word())?;
        if !self.subject.is_empty() {
            write!(f, " {}", self.subject)?;
        }
        write!(f, ": {}", self.quantity)?;
        if self.case.is_empty() { Ok(()) } else { write!(f, ", case {}", self.case) }
    }
}

impl Kept {
    /// A number with its unit.
    pub fn number(key: Key, value: f64, unit: impl Into<String>) -> Self {
        Self { key, value: Value::Number(value), unit: unit.into() }
    }

    /// A word.
    pub fn text(key: Key, value: impl Into<String>) -> Self {
        Self { key, value: Value::Text(value.into()), unit: String::new() }
    }
}

impl From<&Quantity> for Kept {
    /// As it is in the result tables; of greatest movements with their signs the magnitude, for on a symmetric frame
    /// rounding decides which of two mirrored joints is named, and so the sign.
    fn from(of: &Quantity) -> Self {
        let sided = of.kind == Kind::Case && of.quantity.starts_with("largest_");
        let value = if sided { of.value.abs() } else { of.value };
        Self::number(Key::new(of.kind, &of.case, of.subject.clone(), of.quantity.clone()), value, of.unit.clone())
    }
}

impl fmt::Display for Value {
    /// The shortest text that reads back as the same number; −0 is 0.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(value) => f.write_str(&number(*value)),
            Self::Text(text) => f.write_str(text),
        }
    }
}

/// The shortest text that reads back as the same number, as result tables have it; −0 is 0.
pub(super) fn number(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let mut buffer = ryu::Buffer::new();
    let shortest = buffer.format(value);
    shortest.strip_suffix(".0").unwrap_or(shortest).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_reads_as_a_sentence_would_name_it() {
        let key = Key::new(Kind::Case, "twist", "", "torsional_stiffness");
        assert_eq!(key.to_string(), "case: torsional_stiffness, case twist");
        let key = Key::new(Kind::Mount, "", "drive at rear", "greatest_force");
        assert_eq!(key.to_string(), "mount drive at rear: greatest_force");
    }

    #[test]
    fn numbers_read_back_to_the_last_bit() {
        for value in [1.0 / 3.0, -17.25, 6.02e23, 5e-324] {
            assert_eq!(number(value).parse::<f64>().unwrap().to_bits(), value.to_bits());
        }
        assert_eq!(number(-0.0), "0");
    }

    #[test]
    fn the_greatest_movement_has_no_side() {
        let of = |quantity: &'static str| Quantity {
            kind: Kind::Case,
            case: "kerb".into(),
            subject: String::new(),
            quantity: quantity.into(),
            unit: "mm".into(),
            value: -2.0,
        };
        assert_eq!(Kept::from(&of("largest_uy")).value, Value::Number(2.0));
        assert_eq!(Kept::from(&of("applied_fx")).value, Value::Number(-2.0));
    }
}

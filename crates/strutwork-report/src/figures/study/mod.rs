//! Pictures of a study: [`front`] of two responses, [`tornado`] of walls, [`effects`] of parameters, [`together`] by twos,
//! [`bands`] of samples.
//!
//! What a picture shows stands in its file as data too, with all digits: groups have attributes `data-…`.

pub mod bands;
pub mod effects;
pub mod front;
pub mod together;
pub mod tornado;

use crate::number::exact;

/// What an axis or a panel is called.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// What it is, in words.
    pub title: String,
    /// Its unit; empty for none.
    pub unit: &'static str,
}

impl Named {
    /// With its unit behind it.
    pub fn whole(&self) -> String {
        if self.unit.is_empty() { self.title.clone() } else { format!("{}, {}", self.title, self.unit) }
    }
}

/// With a capital at the start of a sentence.
fn opening(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A number as data: all digits.
fn data(name: &'static str, value: f64) -> (&'static str, String) {
    (name, exact(value))
}

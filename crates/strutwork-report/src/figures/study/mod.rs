//! Pictures of a study: [`front`] of two responses, [`tornado`] of walls, [`effects`] of parameters, [`together`] by twos,
//! [`bands`] of samples.
//!
//! What a picture shows stands in its file as data too, with all digits: groups have attributes `data-…`.

pub mod bands;
pub mod effects;
pub mod front;
pub mod together;
pub mod tornado;

use strutwork_study::Limit;

use crate::number::{as_given, exact};

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

/// A bound: `at least 6000`.
pub fn limit(limit: Limit) -> String {
    match limit {
        Limit::AtLeast(bound) => format!("at least {}", as_given(bound)),
        Limit::AtMost(bound) => format!("at most {}", as_given(bound)),
    }
}

/// A number as data: all digits.
fn data(name: &'static str, value: f64) -> (&'static str, String) {
    (name, exact(value))
}

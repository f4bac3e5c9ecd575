//! Writes lines and keeps every number that they gave, for the formulas below them.

use crate::calculation::{Put, Sink, Unit};

/// A page in the making: a formula may hold any symbol that stands above it.
pub(super) struct Book<'s, S> {
    sink: &'s mut S,
    known: Vec<(String, f64, Unit)>,
}

impl<'s, S: Sink> Book<'s, S> {
    pub(super) fn new(sink: &'s mut S) -> Self {
        Self { sink, known: Vec::new() }
    }

    pub(super) fn given(&mut self, symbol: &str, value: f64, unit: Unit, note: &str) {
        self.sink.given(symbol, value, unit, note);
        self.keep(symbol, value, unit);
    }

    pub(super) fn step(&mut self, symbol: &str, formula: &str, value: f64, unit: Unit, note: &str) {
        let put: Vec<Put<'_>> =
            self.known.iter().map(|(symbol, value, unit)| (symbol.as_str(), *value, *unit)).collect();
        self.sink.step(symbol, formula, &put, value, unit, note);
        self.keep(symbol, value, unit);
    }

    pub(super) fn remark(&mut self, text: &str) {
        self.sink.remark(text);
    }

    pub(super) fn outside(&mut self, why: &str) {
        self.sink.outside(why);
    }

    fn keep(&mut self, symbol: &str, value: f64, unit: Unit) {
        match self.known.iter_mut().find(|(known, ..)| known == symbol) {
            Some(place) => (place.1, place.2) = (value, unit),
            None => self.known.push((symbol.to_owned(), value, unit)),
        }
    }
}

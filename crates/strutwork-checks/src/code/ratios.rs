//! The ratios that a check makes one after the other: the greatest is its utilisation.

use super::Verdict;
use super::profile::{MOST, share};
use crate::calculation::{Put, Sink, Unit};

/// The greatest ratio so far, and the symbols of all for the last line of a page.
pub(super) struct Ratios {
    worst: Verdict,
    symbols: Vec<(String, f64)>,
}

impl Ratios {
    /// None yet.
    pub(super) const fn new() -> Self {
        Self { worst: Verdict::NONE, symbols: Vec::new() }
    }

    /// A ratio whose step stands on the page.
    pub(super) fn add(&mut self, symbol: &str, value: f64, clause: &'static str, sink: &impl Sink) {
        self.worst = self.worst.worse(Verdict::of(value, clause));
        if sink.writes() {
            self.symbols.push((symbol.to_owned(), value));
        }
    }

    /// What acts over what can be carried, with its line.
    pub(super) fn over(
        &mut self,
        symbol: &str,
        acting: Put<'_>,
        resistance: Put<'_>,
        clause: &'static str,
        sink: &mut impl Sink,
    ) -> f64 {
        let value = share(acting.1, resistance.1);
        if sink.writes() {
            write_over(symbol, acting, resistance, clause, sink);
        }
        self.add(symbol, value, clause, sink);
        value
    }

    /// The greatest of all, with its line.
    pub(super) fn finish(self, sink: &mut impl Sink) -> Verdict {
        if sink.writes() {
            let names: Vec<&str> = self.symbols.iter().map(|(symbol, _)| symbol.as_str()).collect();
            let put: Vec<Put<'_>> =
                self.symbols.iter().map(|(symbol, value)| (symbol.as_str(), *value, Unit::ONE)).collect();
            let formula = match names.as_slice() {
                [] => "0".to_owned(),
                [one] => (*one).to_owned(),
                several => format!("max({})", several.join(", ")),
            };
            sink.step("U", &formula, &put, self.worst.utilisation, Unit::ONE, self.worst.clause);
        }
        self.worst
    }
}

/// The line of [`share`].
pub(super) fn write_over(symbol: &str, acting: Put<'_>, resistance: Put<'_>, note: &str, sink: &mut impl Sink) {
    let value = share(acting.1, resistance.1);
    if value < MOST {
        let formula = format!("{} / {}", acting.0, resistance.0);
        sink.step(symbol, &formula, &[acting, resistance], value, Unit::ONE, note);
    } else {
        sink.step(symbol, "1000", &[], value, Unit::ONE, "a thousand times what can be carried, or more");
    }
}

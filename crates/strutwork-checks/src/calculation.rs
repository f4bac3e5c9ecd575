//! A check written out as an engineer writes it by hand: symbols, formulas, the numbers put in, the results.
//!
//! A check is one function, generic over a [`Sink`]: with [`Silent`] it only computes, for the sweep over all tubes and cases;
//! with [`Pages`] the same formulas are written out. So what is printed is what was computed.

use std::fmt::Write as _;

use crate::formula::substitute;

/// A check written out.
#[derive(Debug, Clone, PartialEq)]
pub struct Calculation {
    /// What is checked.
    pub title: String,
    /// The clause that governs.
    pub clause: String,
    /// Where the formulas come from, with "from memory" where no text was read.
    pub source: String,
    /// The inputs first, then step by step.
    pub lines: Vec<Line>,
    /// Utilisation: above 1 the limit is exceeded.
    pub utilisation: f64,
    /// Why the clause does not cover this case, one reason an entry: then it is no pass.
    pub outside: Vec<String>,
}

/// One line of a calculation.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What the line gives: `N_pl,Rd`.
    pub symbol: String,
    /// The formula in the source's symbols; empty for an input.
    pub formula: String,
    /// The formula with the numbers in place of the symbols, in the units of their own lines; empty for an input.
    pub substituted: String,
    /// The result, in `unit`.
    pub value: f64,
    /// Door unit; empty for a plain number.
    pub unit: &'static str,
    /// What it is, or why.
    pub note: String,
}

/// A door unit: its name, and its size in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As printed; empty for a plain number.
    pub name: &'static str,
    /// In SI units.
    pub size: f64,
}

impl Unit {
    /// A plain number.
    pub const ONE: Self = Self { name: "", size: 1.0 };
    /// Millimetres.
    pub const MM: Self = Self { name: "mm", size: 1e-3 };
    /// Square millimetres.
    pub const MM2: Self = Self { name: "mm²", size: 1e-6 };
    /// Cubic millimetres.
    pub const MM3: Self = Self { name: "mm³", size: 1e-9 };
    /// Millimetres to the fourth.
    pub const MM4: Self = Self { name: "mm⁴", size: 1e-12 };
    /// Newtons.
    pub const N: Self = Self { name: "N", size: 1.0 };
    /// Newton metres.
    pub const NM: Self = Self { name: "N·m", size: 1.0 };
    /// Newtons a square millimetre.
    pub const MPA: Self = Self { name: "MPa", size: 1e6 };
    /// Newtons a millimetre.
    pub const N_PER_MM: Self = Self { name: "N/mm", size: 1e3 };
    /// Degrees.
    pub const DEG: Self = Self { name: "deg", size: std::f64::consts::PI / 180.0 };

    /// An SI value in this unit.
    pub fn of(self, value: f64) -> f64 {
        value / self.size
    }
}

/// A number that goes into a formula: its symbol there, its SI value, its door unit.
pub type Put<'a> = (&'a str, f64, Unit);

/// Where a check writes its working.
pub trait Sink {
    /// Whether anything is written: to leave out work that only serves the text.
    fn writes(&self) -> bool;

    /// An input: its symbol, SI value, door unit, and what it is.
    fn given(&mut self, symbol: &str, value: f64, unit: Unit, note: &str);

    /// A step: the symbol of the result, the formula, what goes into it, the SI result, its door unit, and why.
    ///
    /// The formula is arithmetic with every sign written (`A · f_y / γ_M0`): the symbols of `with` are replaced by their
    /// numbers, so that the substituted line can be worked out as it stands. It holds in door units: where N·mm become
    /// N·m it says `/ 1000`.
    fn step(&mut self, symbol: &str, formula: &str, with: &[Put<'_>], value: f64, unit: Unit, note: &str);

    /// A remark without a number.
    fn remark(&mut self, text: &str);

    /// A reason why the clause does not cover this case.
    fn outside(&mut self, why: &str);
}

/// Writes nothing.
#[derive(Debug, Clone, Copy, Default)]
pub struct Silent;

impl Sink for Silent {
    #[inline(always)]
    fn writes(&self) -> bool {
        false
    }

    #[inline(always)]
    fn given(&mut self, _: &str, _: f64, _: Unit, _: &str) {}

    #[inline(always)]
    fn step(&mut self, _: &str, _: &str, _: &[Put<'_>], _: f64, _: Unit, _: &str) {}

    #[inline(always)]
    fn remark(&mut self, _: &str) {}

    #[inline(always)]
    fn outside(&mut self, _: &str) {}
}

/// Keeps every line.
#[derive(Debug, Clone, Default)]
pub struct Pages {
    lines: Vec<Line>,
    outside: Vec<String>,
}

impl Sink for Pages {
    fn writes(&self) -> bool {
        true
    }

    fn given(&mut self, symbol: &str, value: f64, unit: Unit, note: &str) {
        self.push(symbol, String::new(), String::new(), unit.of(value), unit.name, note);
    }

    fn step(&mut self, symbol: &str, formula: &str, with: &[Put<'_>], value: f64, unit: Unit, note: &str) {
        let substituted = substitute(formula, with);
        self.push(symbol, formula.to_owned(), substituted, unit.of(value), unit.name, note);
    }

    fn remark(&mut self, text: &str) {
        self.push("", String::new(), String::new(), 0.0, "", text);
    }

    fn outside(&mut self, why: &str) {
        if self.outside.iter().all(|said| said != why) {
            self.outside.push(why.to_owned());
        }
    }
}

impl Pages {
    fn push(&mut self, symbol: &str, formula: String, substituted: String, value: f64, unit: &'static str, note: &str) {
        let line = Line { symbol: symbol.to_owned(), formula, substituted, value, unit, note: note.to_owned() };
        // Two clauses may ask for the same value: it is printed once.
        if line.symbol.is_empty() || !self.lines.contains(&line) {
            self.lines.push(line);
        }
    }

    /// The whole calculation.
    pub fn finish(
        self,
        title: impl Into<String>,
        clause: impl Into<String>,
        source: impl Into<String>,
        utilisation: f64,
    ) -> Calculation {
        Calculation {
            title: title.into(),
            clause: clause.into(),
            source: source.into(),
            lines: self.lines,
            utilisation,
            outside: self.outside,
        }
    }
}

impl Line {
    /// The line as text: `χ = 1 / (Φ + √(Φ² − λ̄²)) = 1 / (… ) = 0.8712  note`.
    pub fn text(&self) -> String {
        let mut text = self.symbol.clone();
        if self.symbol.is_empty() {
            return self.note.clone();
        }
        for part in [&self.formula, &self.substituted] {
            if !part.is_empty() {
                let _ = write!(text, " = {part}");
            }
        }
        let _ = write!(text, " = {}", digits(self.value));
        if !self.unit.is_empty() {
            let _ = write!(text, " {}", self.unit);
        }
        if !self.note.is_empty() {
            let _ = write!(text, "  ({})", self.note);
        }
        text
    }
}

/// Six significant digits without needless zeros, as on a page.
///
/// # Example
/// ```
/// use strutwork_checks::calculation::digits;
/// assert_eq!(digits(135.17699), "135.177");
/// assert_eq!(digits(31_765.2), "31765.2");
/// assert_eq!(digits(0.5), "0.5");
/// ```
pub fn digits(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return if value == 0.0 { "0".to_owned() } else { value.to_string() };
    }
    let before = value.abs().log10().floor();
    let after = (5.0 - before).clamp(0.0, 12.0) as usize;
    let mut text = format!("{value:.after$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_keep_six_that_count() {
        for (value, text) in
            [(0.0, "0"), (-0.5, "-0.5"), (1.0, "1"), (1.234_567_8, "1.23457"), (1e7, "10000000"), (1.23e-4, "0.000123")]
        {
            assert_eq!(digits(value), text);
        }
    }

    #[test]
    fn a_value_that_two_clauses_ask_for_is_printed_once() {
        let mut pages = Pages::default();
        for _ in 0..2 {
            pages.given("A", 1e-6, Unit::MM2, "area");
            pages.step("N", "A · f", &[("A", 1e-6, Unit::MM2), ("f", 235e6, Unit::MPA)], 235.0, Unit::N, "");
            pages.outside("thin");
        }
        let page = pages.finish("t", "c", "s", 0.5);
        assert_eq!(page.lines.len(), 2);
        assert_eq!(page.lines[1].text(), "N = A · f = 1 · 235 = 235 N");
        assert_eq!(page.outside, ["thin"]);
    }
}

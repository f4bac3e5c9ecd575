//! A calculation as a page of plain text, for a terminal or a script.

use std::fmt::Write as _;

use crate::calculation::{Calculation, Line, digits};

impl Calculation {
    /// The page as text: title, clause, source; inputs and steps, each formula with its numbers below it; the verdict.
    ///
    /// # Example
    /// ```
    /// use strutwork_checks::calculation::{Pages, Sink, Unit};
    /// let mut pages = Pages::default();
    /// pages.given("N", 500.0, Unit::N, "force");
    /// pages.given("R", 1000.0, Unit::N, "resistance");
    /// pages.step("U", "N / R", &[("N", 500.0, Unit::N), ("R", 1000.0, Unit::N)], 0.5, Unit::ONE, "");
    /// let text = pages.finish("pull", "a clause", "a book", 0.5).text();
    /// assert!(text.contains("U = N / R\n    = 500 / 1000\n    = 0.5\n"), "{text}");
    /// assert!(text.ends_with("Utilisation 0.5: within the limit\n"), "{text}");
    /// ```
    pub fn text(&self) -> String {
        let mut text = format!("{}\n", self.title);
        for (what, said) in [("Clause", &self.clause), ("Source", &self.source)] {
            if !said.is_empty() {
                let _ = writeln!(text, "{what}: {said}");
            }
        }
        text.push('\n');
        for line in &self.lines {
            put(line, &mut text);
        }
        let _ = write!(text, "\nUtilisation {}: ", digits(self.utilisation));
        // A value that is no number is no pass either.
        text.push_str(match (self.utilisation <= 1.0, self.outside.is_empty()) {
            (false, _) => "OVER THE LIMIT\n",
            (true, true) => "within the limit\n",
            (true, false) => "NO PASS, for the clause does not cover it\n",
        });
        for why in &self.outside {
            let _ = writeln!(text, "Outside scope: {why}");
        }
        text
    }
}

/// A line with its formula, the numbers in it and its result below each other, the note beside the result.
fn put(line: &Line, text: &mut String) {
    if line.symbol.is_empty() {
        let _ = writeln!(text, "  {}", line.note);
        return;
    }
    let unit = if line.unit.is_empty() { String::new() } else { format!(" {}", line.unit) };
    let note = if line.note.is_empty() { String::new() } else { format!("    {}", line.note) };
    let result = format!("{}{unit}{note}", digits(line.value));
    let blank = " ".repeat(width(&line.symbol));
    let mut before = line.symbol.as_str();
    for (index, part) in [&line.formula, &line.substituted, &result].into_iter().enumerate() {
        // A formula without symbols is its own substituted line, one of a single symbol its own result.
        let again = index == 1 && (line.substituted == line.formula || line.substituted == digits(line.value));
        if !part.is_empty() && !again {
            let _ = writeln!(text, "  {before} = {part}");
            before = &blank;
        }
    }
}

/// Columns that a symbol takes: an accent such as that of λ̄ takes none.
fn width(symbol: &str) -> usize {
    symbol.chars().filter(|sign| !('\u{300}'..='\u{36f}').contains(sign)).count()
}

#[cfg(test)]
mod tests {
    use crate::calculation::{Pages, Sink, Unit};

    #[test]
    fn results_stand_below_their_formulas_and_accents_take_no_room() {
        let mut pages = Pages::default();
        pages.remark("About the weak axis:");
        pages.given("λ̄", 0.5, Unit::ONE, "slenderness");
        pages.step("λ̄²", "λ̄ · λ̄", &[("λ̄", 0.5, Unit::ONE)], 0.25, Unit::ONE, "squared");
        pages.step("k", "0.5 + 0.5", &[], 1.0, Unit::ONE, "");
        pages.step("h", "k", &[("k", 1.0, Unit::ONE)], 1.0, Unit::ONE, "the same");
        pages.outside("a thin wall");
        let text = pages.finish("title", "", "source", 1.5).text();
        assert_eq!(
            text,
            "title\nSource: source\n\n  About the weak axis:\n  λ̄ = 0.5    slenderness\n  λ̄² = λ̄ · λ̄\n     = 0.5 · 0.5\n     \
             = 0.25    squared\n  k = 0.5 + 0.5\n    = 1\n  h = k\n    = 1    the same\n\nUtilisation 1.5: OVER THE LIMIT\n\
             Outside scope: a thin wall\n"
        );
    }

    #[test]
    fn what_is_outside_scope_or_no_number_is_no_pass() {
        let mut pages = Pages::default();
        pages.outside("a thin wall");
        let text = pages.finish("t", "", "", 0.5).text();
        assert!(text.contains("Utilisation 0.5: NO PASS"), "{text}");
        assert!(Pages::default().finish("t", "", "", f64::NAN).text().contains("OVER"));
    }
}

//! A formula as text: its symbols and signs, and numbers put in for its symbols.

use std::fmt::Write as _;

use crate::calculation::{Put, digits};

/// The formula with numbers for symbols; what is not among `with` stays.
pub(crate) fn substitute(formula: &str, with: &[Put<'_>]) -> String {
    let mut out = String::with_capacity(formula.len());
    for token in tokens(formula) {
        match with.iter().find(|(symbol, _, _)| *symbol == token) {
            Some(&(_, value, unit)) => {
                let number = digits(unit.of(value));
                // A negative number behind a sign, or before a power, stands in brackets.
                if number.starts_with('-') {
                    let _ = write!(out, "({number})");
                } else {
                    out.push_str(&number);
                }
            }
            None => out.push_str(token),
        }
    }
    out
}

/// A formula in its parts, symbol by symbol and sign by sign; together they are the formula.
///
/// # Example
/// ```
/// use strutwork_checks::formula::tokens;
/// assert_eq!(tokens("max(N_Ed, 2)/A_v").collect::<Vec<_>>(), ["max", "(", "N_Ed", ",", " ", "2", ")", "/", "A_v"]);
/// ```
pub fn tokens(formula: &str) -> impl Iterator<Item = &str> {
    let mut rest = formula;
    std::iter::from_fn(move || {
        let first = rest.chars().next()?;
        let (token, after) = rest.split_at(if parts(first) { first.len_utf8() } else { word(rest) });
        rest = after;
        Some(token)
    })
}

/// Length in bytes of the symbol that the text starts with. A comma belongs to a symbol unless a blank follows: `max(a, b)`.
fn word(text: &str) -> usize {
    let mut signs = text.char_indices().peekable();
    while let Some((at, sign)) = signs.next() {
        let list = sign == ',' && signs.peek().is_none_or(|&(_, next)| next == ' ');
        if parts(sign) || list {
            return if at == 0 { sign.len_utf8() } else { at };
        }
    }
    text.len()
}

/// Signs that part symbols.
fn parts(sign: char) -> bool {
    sign.is_whitespace() || "()+−·/²³^√|".contains(sign)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculation::Unit;

    #[test]
    fn symbols_become_numbers_and_the_rest_stays() {
        let with = [("Φ", 0.75, Unit::ONE), ("λ̄", 0.5, Unit::ONE), ("A", 135.2e-6, Unit::MM2), ("N", -4.0, Unit::N)];
        assert_eq!(substitute("1 / (Φ + √(Φ² − λ̄²))", &with), "1 / (0.75 + √(0.75² − 0.5²))");
        assert_eq!(substitute("max(N, A) · A_v", &with), "max((-4), 135.2) · A_v");
        assert_eq!(substitute("N² / A,b", &with), "(-4)² / A,b");
    }
}

//! A value as a source prints it: its digits say how exactly it is meant.

use crate::fault::CaseFault;

/// A value as a source prints it.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    text: String,
    value: f64,
    decimals: usize,
    exponent: i32,
}

impl Printed {
    /// Reads a printed value: sign, digits, decimal point, exponent (`-2.35`, `3.70e3`).
    ///
    /// # Errors
    /// [`CaseFault::Printed`], also for an integer that ends in 0: nobody can tell whether that 0 was meant. `3700` with
    /// three figures is `3.70e3`.
    pub fn read(text: &str) -> Result<Self, CaseFault> {
        let fault = || CaseFault::Printed(text.to_owned());
        let (mantissa, exponent) = match text.split_once('e') {
            Some((mantissa, exponent)) => (mantissa, exponent.parse().map_err(|_| fault())?),
            None => (text, 0),
        };
        let digits = mantissa.strip_prefix('-').unwrap_or(mantissa);
        let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
        let all_digits = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
        let well_formed = !whole.is_empty()
            && all_digits(whole)
            && all_digits(fraction)
            && (digits.contains('.') != fraction.is_empty())
            && (!fraction.is_empty() || !whole.ends_with('0'));
        if !well_formed || !(-300..=300).contains(&exponent) {
            return Err(fault());
        }
        let value = text.parse().map_err(|_| fault())?;
        Ok(Self { text: text.to_owned(), value, decimals: fraction.len(), exponent })
    }

    /// As printed.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Its value, in the unit it is printed in.
    pub const fn value(&self) -> f64 {
        self.value
    }

    /// One unit of the last printed digit.
    pub fn last_digit(&self) -> f64 {
        10f64.powi(self.exponent - self.decimals as i32)
    }

    /// Another value in the manner of this one, with a digit or two more.
    pub fn beside(&self, value: f64) -> String {
        let figures = self.text.bytes().take_while(|&b| b != b'e').filter(u8::is_ascii_digit).count();
        let decimals = self.decimals + if figures < 7 { 2 } else { 1 };
        let scaled = format!("{:.decimals$}", value / 10f64.powi(self.exponent));
        let scaled = match scaled.strip_prefix('-') {
            Some(digits) if digits.bytes().all(|b| matches!(b, b'0' | b'.')) => digits.to_owned(),
            _ => scaled,
        };
        if self.text.contains('e') { format!("{scaled}e{}", self.exponent) } else { scaled }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_set_the_unit_of_the_last_place() {
        for (text, value, last) in [
            ("-2.83", -2.83, 0.01),
            ("167", 167.0, 1.0),
            ("3.70e3", 3700.0, 10.0),
            ("7.098e-5", 7.098e-5, 1e-8),
            ("0.0", 0.0, 0.1),
        ] {
            let printed = Printed::read(text).unwrap();
            assert_eq!(printed.value(), value);
            assert!((printed.last_digit() / last - 1.0).abs() < 1e-12, "{text}");
        }
    }

    #[test]
    fn what_does_not_tell_its_precision_is_refused() {
        for text in ["750", "0", "75e1x", "", "-", ".5", "5.", "1 000", "+3", "370e1", "NaN", "inf", "1e999"] {
            assert!(Printed::read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn ours_is_written_like_the_source() {
        assert_eq!(Printed::read("3.70e3").unwrap().beside(3703.32), "3.7033e3");
        assert_eq!(Printed::read("0.0").unwrap().beside(-1e-9), "0.000");
        assert_eq!(Printed::read("-2.83").unwrap().beside(-2.824_94), "-2.8249");
    }
}

//! Numbers as people type them, and what to say when they are none.

use crate::codes;
use crate::diagnostic::Code;

/// Why a text is not a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct NumberFault {
    pub(super) code: Code,
    pub(super) message: String,
    pub(super) help: String,
}

/// The finite number that a text says: an optional sign, digits, a decimal point, an exponent; nothing else.
pub(super) fn parse(text: &str) -> Result<f64, NumberFault> {
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        Ok(_) => Err(NumberFault {
            code: codes::NOT_FINITE,
            message: format!("`{text}` is not a number that can be worked with"),
            help: "write a finite number".to_owned(),
        }),
        Err(_) => Err(NumberFault {
            code: codes::NOT_A_NUMBER,
            message: format!("`{}` is not a number", shown(text)),
            help: why(text),
        }),
    }
}

/// The direction that a text says: `x`, `y`, `z`, or three numbers separated by blanks.
pub(super) fn direction(text: &str) -> Result<[f64; 3], NumberFault> {
    match text.trim() {
        "x" => return Ok([1.0, 0.0, 0.0]),
        "y" => return Ok([0.0, 1.0, 0.0]),
        "z" => return Ok([0.0, 0.0, 1.0]),
        _ => {}
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let &[x, y, z] = words.as_slice() else {
        return Err(NumberFault {
            code: codes::UNKNOWN_WORD,
            message: format!("`{}` is not a direction", shown(text)),
            help: "write `x`, `y`, `z`, or three numbers separated by blanks: `0 0.7 0.7`".to_owned(),
        });
    };
    Ok([parse(x)?, parse(y)?, parse(z)?])
}

/// A text cut to what fits a message.
pub(super) fn shown(text: &str) -> String {
    let one = |letter: char| if letter.is_control() { ' ' } else { letter };
    let cut: String = text.chars().take(60).map(one).collect();
    if text.chars().nth(60).is_some() { cut + "…" } else { cut }
}

fn why(text: &str) -> String {
    let is_number = |text: &str| text.parse::<f64>().is_ok_and(f64::is_finite);
    let plain_minus = text.replace(['−', '–', '‐'], "-");
    if is_number(&plain_minus) {
        return format!("the minus sign is a typeset one; write `{plain_minus}` with the sign of the keyboard");
    }
    if text.matches(',').count() == 1 && is_number(&text.replace(',', ".")) {
        let (before, after) = text.split_once(',').unwrap_or_default();
        let thousands = after.len() == 3 && !before.is_empty() && before.len() <= 4 && before != "0" && before != "-0";
        let point = text.replace(',', ".");
        return if thousands {
            format!("write `{point}` if the comma is a decimal comma, `{before}{after}` if it parts thousands")
        } else {
            format!("the decimal sign is a point: write `{point}`")
        };
    }
    let points = text.replace('.', "").replace(',', ".");
    if text.find('.').zip(text.rfind(',')).is_some_and(|(point, comma)| point < comma) && is_number(&points) {
        return format!("write thousands without a separator and a decimal point: `{points}`");
    }
    let joined: String =
        text.chars().filter(|&c| !matches!(c, ' ' | '\u{a0}' | '\u{202f}' | '\'' | '’' | '_' | ',')).collect();
    if joined != text && is_number(&joined) {
        return format!("write thousands without a separator: `{joined}`");
    }
    let letters: String = text
        .chars()
        .map(|c| match c {
            'o' | 'O' => '0',
            'l' | 'I' => '1',
            other => other,
        })
        .collect();
    if is_number(&letters) {
        return format!("a letter stands where a digit belongs: `{letters}`?");
    }
    let digits =
        text.trim_end_matches(|c: char| c.is_alphabetic() || matches!(c, ' ' | '°' | '²' | '³' | '/' | '·' | '%'));
    if digits != text && is_number(digits) {
        return format!("leave the unit out (the name of the column or key says it): `{digits}`");
    }
    if text.starts_with('=') {
        return "a formula of a spreadsheet: save the values, not the formulas".to_owned();
    }
    "write a number with digits and a decimal point".to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn help(text: &str) -> String {
        parse(text).expect_err("no number").help
    }

    #[test]
    fn reads_what_spreadsheets_write() {
        for (text, value) in [("1", 1.0), ("-0.5", -0.5), ("+3", 3.0), ("1e3", 1000.0), ("2.5E-3", 0.0025), (".5", 0.5)]
        {
            assert_eq!(parse(text), Ok(value));
        }
    }

    #[test]
    fn explains_what_people_type() {
        assert!(help("1,5").contains("`1.5`"));
        assert!(help("1,200").contains("`1.200`") && help("1,200").contains("`1200`"));
        assert!(help("1 200").contains("`1200`"));
        assert!(help("1'200.5").contains("`1200.5`"));
        assert!(help("1.200,5").contains("`1200.5`"));
        assert!(help("12o0").contains("`1200`"));
        assert!(help("−12").contains("`-12`"));
        assert!(help("30 mm").contains("`30`"));
        assert!(help("=A1*2").contains("formula"));
        assert!(help("").contains("write a number"));
    }

    #[test]
    fn stops_what_is_not_finite() {
        for text in ["nan", "NaN", "inf", "-Infinity", "1e999"] {
            assert_eq!(parse(text).expect_err("not finite").code, codes::NOT_FINITE, "{text}");
        }
    }
}

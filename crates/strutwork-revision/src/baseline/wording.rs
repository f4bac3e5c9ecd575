//! How a departure is said, the same in every output.

use strutwork_model::Code;

use super::codes;
use super::hold::{Departure, Row, Standing};
use super::quantity::Value;

/// The code and the sentence of a row that does not hold.
pub fn of(row: &Row<'_>) -> Option<(Code, String)> {
    let kept = &row.entry.kept;
    match &row.standing {
        Standing::Holds => None,
        Standing::Missing => Some((codes::MISSING, format!("{}: the run does not have it", kept.key))),
        Standing::Departs(departure) => {
            let told = match amount(departure, row.entry.tolerance) {
                Some(amount) => format!("{}: {} → {}, {amount}", kept.key, was(row), now(row, departure)),
                None => format!("{}: {} → {}", kept.key, was(row), now(row, departure)),
            };
            Some((codes::DEPARTS, told))
        }
    }
}

/// Where the expected value stands and why its tolerance is what it is.
pub(super) fn at(row: &Row<'_>, file: &str) -> String {
    let entry = row.entry;
    let sentence = of(row).map_or_else(String::new, |(_, told)| told);
    format!("{sentence}\n{file}:{}: tolerance {} {}, why: {}", entry.line, entry.tolerance, entry.kept.unit, entry.why)
}

/// The expected value with its unit.
pub fn was(row: &Row<'_>) -> String {
    with_unit(&row.entry.kept.value, &row.entry.kept.unit)
}

/// The new value with its unit.
pub fn now(row: &Row<'_>, departure: &Departure) -> String {
    with_unit(&departure.now, departure.unit.as_deref().unwrap_or(&row.entry.kept.unit))
}

fn with_unit(value: &Value, unit: &str) -> String {
    let value = match value {
        Value::Number(number) => shown(*number),
        Value::Text(text) if text.is_empty() => "nothing".to_owned(),
        Value::Text(text) => text.clone(),
    };
    if unit.is_empty() || unit == super::tolerance::COUNT { value } else { format!("{value} {unit}") }
}

/// Ten significant digits, trailing zeros dropped: enough to see a departure of a part in 10⁹.
fn shown(value: f64) -> String {
    let size = value.abs();
    if value != 0.0 && !(1e-4..1e10).contains(&size) {
        let text = format!("{value:.9e}");
        let (digits, exponent) = text.split_once('e').unwrap_or((&text, "0"));
        return format!("{}e{exponent}", digits.trim_end_matches('0').trim_end_matches('.'));
    }
    let whole = if size >= 1.0 { size.log10().floor() as usize + 1 } else { 1 };
    let text = format!("{value:.*}", 10_usize.saturating_sub(whole));
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// By how much: `+0.25 % (2.5e6 tolerances)`; `None` for words.
fn amount(departure: &Departure, tolerance: f64) -> Option<String> {
    let per_cent = departure.per_cent.map(per_cent);
    let tolerances = (departure.tolerances.is_finite() && tolerance > 0.0).then(|| times(departure.tolerances));
    match (per_cent, tolerances) {
        (Some(per_cent), Some(times)) => Some(format!("{per_cent} ({times} tolerances)")),
        (Some(per_cent), None) => Some(per_cent),
        (None, Some(times)) => Some(format!("{times} tolerances")),
        (None, None) => None,
    }
}

/// A growth in per cent, with its sign.
pub fn per_cent(value: f64) -> String {
    let size = value.abs();
    if (0.01..1e5).contains(&size) { format!("{value:+.2} %") } else { format!("{value:+.1e} %") }
}

/// How many tolerances.
pub fn times(value: f64) -> String {
    if value.is_infinite() {
        "-".to_owned()
    } else if value < 1e4 {
        format!("{value:.1}")
    } else {
        format!("{value:.1e}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_digits_show_a_part_in_a_thousand_million() {
        assert_eq!(shown(6685.321459123), "6685.321459");
        assert_eq!(shown(6685.0), "6685");
        assert_eq!(shown(-0.012345678912), "-0.012345679");
        assert_eq!(shown(1.5e-13), "1.5e-13");
        assert_eq!(shown(0.0), "0");
        assert_eq!(shown(123_456_789_012.0), "1.23456789e11");
    }

    #[test]
    fn small_and_large_growths_are_told_in_powers() {
        assert_eq!(per_cent(0.25), "+0.25 %");
        assert_eq!(per_cent(-3.2e-7), "-3.2e-7 %");
        assert_eq!(times(12.34), "12.3");
        assert_eq!(times(2.5e6), "2.5e6");
    }
}

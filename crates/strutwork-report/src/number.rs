//! Numbers as text: exact for machines, rounded the same way everywhere for readers.

/// Groups of three digits are set apart by a narrow space that does not break.
const THIN_SPACE: char = '\u{202f}';
/// The typographic minus, as wide as the plus.
const MINUS: char = '\u{2212}';

/// Shortest text that reads back as the same number; −0 becomes 0.
///
/// # Example
/// ```
/// assert_eq!(strutwork_report::number::exact(1200.0), "1200");
/// assert_eq!(strutwork_report::number::exact(-0.0), "0");
/// assert_eq!(strutwork_report::number::exact(0.1 + 0.2), "0.30000000000000004");
/// ```
pub fn exact(value: f64) -> String {
    let mut text = String::new();
    push_exact(&mut text, value);
    text
}

/// As [`exact`], at the end of a text.
pub fn push_exact(text: &mut String, value: f64) {
    if value == 0.0 {
        text.push('0');
        return;
    }
    let mut buffer = ryu::Buffer::new();
    let shortest = buffer.format(value);
    text.push_str(shortest.strip_suffix(".0").unwrap_or(shortest));
}

/// Powers of ten that [`push_six`] works with.
const TENS: [f64; 19] =
    [1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18];

/// Six significant digits without needless zeros, at the end of a text; whole numbers keep all of theirs, `-` for minus.
///
/// It is made for tables of 10^5 rows: no allocation and no general formatting but for numbers outside 10⁻⁹ to 10¹².
///
/// # Example
/// ```
/// let mut text = String::new();
/// strutwork_report::number::push_six(&mut text, -12_345.67);
/// assert_eq!(text, "-12345.7");
/// ```
pub fn push_six(text: &mut String, value: f64) {
    let size = value.abs();
    if !(1e-9..1e12).contains(&size) {
        return push_exact(text, value);
    }
    // Decimals that leave six digits; none above 10^5.
    let mut decimals = 0;
    while decimals < TENS.len() - 5 && size * TENS[decimals] < 99_999.95 {
        decimals += 1;
    }
    let mut whole = (size * TENS[decimals]).round() as u64;
    while decimals > 0 && whole.is_multiple_of(10) {
        whole /= 10;
        decimals -= 1;
    }
    if value < 0.0 {
        text.push('-');
    }
    let mut digits = [0_u8; 20];
    let mut start = digits.len();
    let mut place = 0;
    while whole > 0 || place <= decimals {
        if place == decimals && place > 0 {
            start -= 1;
            digits[start] = b'.';
        }
        start -= 1;
        digits[start] = b'0' + (whole % 10) as u8;
        whole /= 10;
        place += 1;
    }
    text.push_str(std::str::from_utf8(&digits[start..]).unwrap_or_default());
}

/// Decimals with which a number of this size shows `digits` significant digits; none for large numbers.
pub fn decimals_for(size: f64, digits: usize) -> usize {
    if size == 0.0 || !size.is_finite() {
        return 0;
    }
    // Rounded first, so that 9.9996 with four digits counts as 10.00.
    let text = format!("{:.*e}", digits.saturating_sub(1), size.abs());
    let exponent = text.rsplit('e').next().and_then(|tail| tail.parse::<i64>().ok()).unwrap_or(0);
    let wanted = i64::try_from(digits).unwrap_or(1) - 1 - exponent;
    usize::try_from(wanted).unwrap_or(0).min(12)
}

/// With this many decimals, thin spaces between groups of three, and a real minus. What rounds to zero has no sign.
pub fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "not a number".to_owned();
    }
    let text = format!("{:.*}", decimals, value.abs());
    let (whole, fraction) = text.split_once('.').unwrap_or((&text, ""));
    let mut out = String::with_capacity(text.len() + 8);
    if value < 0.0 && text.bytes().any(|byte| (b'1'..=b'9').contains(&byte)) {
        out.push(MINUS);
    }
    for (place, digit) in whole.chars().enumerate() {
        // Four digits stand together: 1200 mm reads better than 1 200 mm.
        if place > 0 && whole.len() > 4 && (whole.len() - place) % 3 == 0 {
            out.push(THIN_SPACE);
        }
        out.push(digit);
    }
    if !fraction.is_empty() {
        out.push('.');
        out.push_str(fraction);
    }
    out
}

/// Decimals beyond which a length in mm, a force in N or a stress in MPa is rounding noise.
const MOST_DECIMALS: usize = 5;

/// As [`decimals_for`], but none where nothing would be left but zeros behind the point.
pub fn sensible_decimals(size: f64, digits: usize) -> usize {
    let decimals = decimals_for(size, digits).min(MOST_DECIMALS);
    let least = 0.5 * 10.0_f64.powi(-(MOST_DECIMALS as i32));
    if size.abs() < least { 0 } else { decimals }
}

/// A single number with this many significant digits; whole numbers keep all of theirs, rounding noise becomes 0.
pub fn significant(value: f64, digits: usize) -> String {
    fixed(value, sensible_decimals(value, digits))
}

/// A number as its author wrote it, up to six significant digits, trailing zeros dropped.
pub fn as_given(value: f64) -> String {
    let text = fixed(value, decimals_for(value, 6));
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// A very small or very large number as `3.1 × 10⁻¹⁶`; 0 as `0`.
pub fn power(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    if !value.is_finite() {
        return "not a number".to_owned();
    }
    let text = format!("{value:.1e}");
    let (mantissa, exponent) = text.split_once('e').unwrap_or((&text, "0"));
    let raised: String = exponent
        .chars()
        .map(|c| match c {
            '-' => '⁻',
            '0' => '⁰',
            '1' => '¹',
            '2' => '²',
            '3' => '³',
            '4' => '⁴',
            '5' => '⁵',
            '6' => '⁶',
            '7' => '⁷',
            '8' => '⁸',
            _ => '⁹',
        })
        .collect();
    format!("{} × 10{raised}", mantissa.replace('-', "\u{2212}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_text_reads_back_as_the_same_bits() {
        for value in [1.0 / 3.0, 1e-300, 6.02e23, -17.25, 123_456_789.123_456_78] {
            assert_eq!(exact(value).parse::<f64>().unwrap().to_bits(), value.to_bits());
        }
    }

    #[test]
    fn six_digits_are_those_of_general_formatting() {
        let six = |value: f64| {
            let mut text = String::new();
            push_six(&mut text, value);
            text
        };
        for (value, text) in [
            (0.0, "0"),
            (-0.0, "0"),
            (1.0, "1"),
            (-12_345.67, "-12345.7"),
            (31_765.24, "31765.2"),
            (999_999.6, "1000000"),
            (99_999.96, "100000"),
            (99_999.94, "99999.9"),
            (0.5, "0.5"),
            (0.099_999_96, "0.1"),
            (0.000_123_456_7, "0.000123457"),
            (1e-9, "0.000000001"),
            (2_345_678.4, "2345678"),
            (f64::INFINITY, "inf"),
        ] {
            assert_eq!(six(value), text, "{value}");
        }
        // Against the page's own digits, over fifteen decades.
        let mut value = 1.234_567_89e-6;
        while value < 1e9 {
            let [read, page] =
                [six(value), strutwork_checks::calculation::digits(value)].map(|t| t.parse::<f64>().unwrap());
            assert!((read / value - 1.0).abs() < 5.1e-6 && (read / page - 1.0).abs() < 1e-12, "{value}: {read} {page}");
            value *= 1.093;
        }
    }

    #[test]
    fn fixed_groups_digits_and_drops_the_sign_of_nothing() {
        assert_eq!(fixed(1200.0, 0), "1200");
        assert_eq!(fixed(-12_345.678, 1), "\u{2212}12\u{202f}345.7");
        assert_eq!(fixed(1_234_567.0, 0), "1\u{202f}234\u{202f}567");
        assert_eq!(fixed(-0.000_4, 2), "0.00");
        assert_eq!(fixed(-0.0, 0), "0");
        assert_eq!(fixed(f64::NAN, 2), "not a number");
    }

    #[test]
    fn significant_digits_hold_across_a_rounding_carry() {
        assert_eq!(significant(9.9996, 4), "10.00");
        assert_eq!(significant(0.012_345, 3), "0.0123");
        assert_eq!(significant(98_765.4, 3), "98\u{202f}765");
        assert_eq!(significant(0.0, 4), "0");
        assert_eq!(significant(-3e-13, 4), "0");
        assert_eq!(significant(0.000_123_4, 4), "0.00012");
    }

    #[test]
    fn given_numbers_keep_their_face() {
        assert_eq!(as_given(1.5), "1.5");
        assert_eq!(as_given(30.0), "30");
        assert_eq!(as_given(1.626), "1.626");
        assert_eq!(as_given(1e-5), "0.00001");
    }

    #[test]
    fn powers_of_ten_are_raised() {
        assert_eq!(power(3.14e-16), "3.1 × 10⁻¹⁶");
        assert_eq!(power(-2.0e5), "\u{2212}2.0 × 10⁵");
        assert_eq!(power(0.0), "0");
    }
}

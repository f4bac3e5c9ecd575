//! Whether two reports say the same.

/// Whether two reports say the same: the same words, and numbers that differ by no more than one unit of the last digit
/// shown. Another processor may round the last bit of a sum another way.
pub fn same_report(a: &str, b: &str) -> bool {
    let (mut a_words, mut b_words) = (a.split_whitespace(), b.split_whitespace());
    loop {
        match (a_words.next(), b_words.next()) {
            (None, None) => return a.lines().count() == b.lines().count(),
            (Some(a), Some(b)) if a == b || same_number(a, b) => {}
            _ => return false,
        }
    }
}

fn same_number(a: &str, b: &str) -> bool {
    let (Some((a_value, a_last)), Some((b_value, b_last))) = (number(a), number(b)) else { return false };
    // Of a difference next to nothing, `0.00` is shown without its sign.
    a_last == b_last && (a_value - b_value).abs() <= 1.001 * a_last
}

/// A number's value and one unit of its last digit.
fn number(text: &str) -> Option<(f64, f64)> {
    let (mantissa, exponent) = text.split_once('e').unwrap_or((text, "0"));
    let decimals = mantissa.split_once('.')?.1.len();
    let exponent: i32 = exponent.parse().ok()?;
    Some((text.parse().ok()?, 10f64.powi(exponent - i32::try_from(decimals).ok()?)))
}

#[cfg(test)]
mod tests {
    use super::same_report;

    #[test]
    fn a_last_digit_may_round_another_way_and_nothing_else_may_differ() {
        assert!(same_report("| a | 1.234e-5 | +0.01 |\n", "| a | 1.235e-5 | 0.00 |\n"));
        assert!(same_report("x\n", "x\n"));
        assert!(!same_report("| a | 1.234e-5 |\n", "| a | 1.237e-5 |\n"));
        assert!(!same_report("| a | 1.234 |\n", "| a | 1.2340 |\n"));
        assert!(!same_report("agrees\n", "DISAGREES\n"));
        assert!(!same_report("a b\n", "a\nb\n"));
        assert!(!same_report("| 12 |\n", "| 13 |\n"));
    }
}

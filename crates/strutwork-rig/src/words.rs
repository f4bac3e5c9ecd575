//! Numbers and names as they stand in remarks.

/// A number for readers, without needless zeros.
pub(crate) fn rounded(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.replace('-', "\u{2212}") }
}

/// A ratio for readers, with three digits.
pub(crate) fn shown(value: f64) -> String {
    let decimals = if value >= 100.0 {
        0
    } else if value >= 10.0 {
        1
    } else if value >= 0.1 {
        2
    } else {
        4
    };
    rounded(value, decimals)
}

/// A mass in kg: two decimals below 20 kg, one above.
pub(crate) fn kg(value: f64) -> String {
    rounded(value, if value.abs() < 20.0 { 2 } else { 1 })
}

/// Names in a sentence: `a`, `a and b`, `a, b and c`.
pub(crate) fn listed(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_told_without_needless_zeros() {
        assert_eq!(rounded(1.2300, 3), "1.23");
        assert_eq!(rounded(-0.0001, 2), "0");
        assert_eq!(rounded(-4.0, 1), "\u{2212}4");
        assert_eq!(rounded(900.0, 0), "900");
        assert_eq!([shown(254.3), shown(25.43), shown(2.543), shown(0.0254)], ["254", "25.4", "2.54", "0.0254"]);
        assert_eq!([kg(19.876), kg(20.04)], ["19.88", "20"]);
    }

    #[test]
    fn names_stand_in_a_sentence() {
        assert_eq!(
            [listed(&[]), listed(&["a"]), listed(&["a", "b"]), listed(&["a", "b", "c"])],
            ["", "a", "a and b", "a, b and c"]
        );
    }
}

//! How sentences begin.

/// With a capital at the start of a sentence.
pub(crate) fn opening(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::opening;

    #[test]
    fn a_sentence_begins_with_a_capital_whatever_its_letter() {
        assert_eq!(["über", "x", "", "7 mm"].map(opening), ["Über", "X", "", "7 mm"]);
    }
}

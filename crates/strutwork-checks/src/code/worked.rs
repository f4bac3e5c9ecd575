//! Recomputes a written-out calculation from what it prints alone, as a reader with a pocket calculator does. Tests only.

use crate::Calculation;
use crate::calculation::{Put, Unit, digits};
use crate::formula::substitute;
use strutwork_testkit::{evaluate, printed};

/// Checks that a page is sufficient by itself.
///
/// Every symbol of a formula stands above it, as an input or an earlier step, and the number printed there is the one put in;
/// every substituted line gives the printed result to the digits that are printed; one of the results is the utilisation.
///
/// # Panics
/// Where that does not hold, with the line.
pub(crate) fn recomputes(page: &Calculation) {
    for (place, line) in page.lines.iter().enumerate() {
        if line.formula.is_empty() {
            continue;
        }
        let said = line.text();
        let above: Vec<Put<'_>> = page.lines[..place]
            .iter()
            .rev()
            .filter(|line| !line.symbol.is_empty())
            .map(|line| (line.symbol.as_str(), line.value, Unit::ONE))
            .collect();
        let expected = substitute(&line.formula, &above);
        assert_eq!(line.substituted, expected, "the numbers put in are not those printed above: {said}");
        let [low, high] = evaluate(&line.substituted).unwrap_or_else(|why| panic!("{why}: {said}"));
        if line.value.is_infinite() {
            assert!(high == f64::INFINITY || low == f64::NEG_INFINITY, "{low} to {high}: {said}");
            continue;
        }
        assert!(low.is_finite() && high.is_finite(), "the digits printed do not settle it: {said}");
        let [least, most] = printed(line.value);
        assert!(low <= most && least <= high, "works out as {low} to {high}: {said}");
    }
    let utilisation = digits(page.utilisation);
    let found = page.lines.iter().any(|line| !line.formula.is_empty() && digits(line.value) == utilisation);
    assert!(found, "no step gives the utilisation {utilisation}: {:#?}", page.lines);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculation::{Pages, Sink};

    fn page(value: f64, above: f64) -> Calculation {
        let mut pages = Pages::default();
        pages.given("a", 2.0, Unit::ONE, "");
        pages.step("b", "3 · a", &[("a", above, Unit::ONE)], value, Unit::ONE, "");
        pages.finish("t", "c", "s", value)
    }

    #[test]
    fn a_sound_page_passes() {
        recomputes(&page(6.0, 2.0));
    }

    #[test]
    #[should_panic(expected = "works out as")]
    fn a_wrong_result_is_found() {
        recomputes(&page(6.001, 2.0));
    }

    #[test]
    #[should_panic(expected = "not those printed above")]
    fn a_number_that_does_not_stand_above_is_found() {
        recomputes(&page(6.3, 2.1));
    }

    #[test]
    #[should_panic(expected = "no step gives the utilisation")]
    fn a_utilisation_from_nowhere_is_found() {
        recomputes(&Calculation { utilisation: 7.0, ..page(6.0, 2.0) });
    }
}

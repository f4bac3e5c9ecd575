//! Every page of `strutwork explain`, from every crate that has codes.

use strutwork_model::explain::Page;

/// The pages, crate by crate, in the order in which a run meets them.
pub(crate) fn all() -> impl Iterator<Item = &'static Page> {
    strutwork_model::explain::PAGES
        .iter()
        .chain(strutwork_loads::explain::PAGES)
        .chain(strutwork_script::explain::PAGES)
        .chain(strutwork_solve::explain::PAGES)
        .chain(strutwork_checks::explain::PAGES)
}

/// The page of a code, whatever its case.
pub(crate) fn find(code: &str) -> Option<&'static Page> {
    all().find(|page| page.code.eq_ignore_ascii_case(code))
}

/// The codes nearest to one that does not exist: those that differ in one character, else those of the same letter.
pub(crate) fn near(code: &str) -> Vec<&'static str> {
    let code = code.to_ascii_uppercase();
    let differ = |other: &str| {
        other.len().abs_diff(code.len()) + other.chars().zip(code.chars()).filter(|(a, b)| a != b).count()
    };
    let one: Vec<&str> = all().map(|page| page.code).filter(|other| differ(other) <= 1).take(5).collect();
    if one.is_empty() {
        all().map(|page| page.code).filter(|other| other.chars().next() == code.chars().next()).take(5).collect()
    } else {
        one
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_has_one_page_and_every_page_says_something() {
        let mut codes: Vec<&str> = all().map(|page| page.code).collect();
        let number = codes.len();
        codes.sort_unstable();
        codes.dedup();
        assert_eq!(codes.len(), number, "a code with two pages");
        for page in all() {
            for part in [page.title, page.meaning, page.remedy] {
                assert!(!part.trim().is_empty(), "{} says nothing", page.code);
            }
        }
    }

    #[test]
    fn a_slip_finds_its_neighbours() {
        assert!(near("M00").contains(&"M001"));
        assert!(find("m001").is_some());
        assert!(find("Q999").is_none());
    }
}

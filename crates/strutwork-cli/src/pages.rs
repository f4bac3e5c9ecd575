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
        .chain(strutwork_revision::explain::PAGES)
        .chain(strutwork_revision::baseline::explain::PAGES)
}

/// What codes are about, by what they begin with, in the order of lists; the last that fits counts.
const SUBJECTS: &[(&str, &str)] = &[
    ("M", "The model"),
    ("M0", "The model: files, cells and keys"),
    ("M1", "The model: names"),
    ("M2", "The model: joints and tubes"),
    ("M3", "The model: sections and materials"),
    ("M4", "The model: supports, loads and masses"),
    ("M5", "The model: vehicle, factors and margins"),
    ("M6", "The model: bodies and suspension"),
    ("M7", "The model: panels and tube ends"),
    ("M8", "The model: what the frame is judged by"),
    ("M9", "The model: readings of a rig, parts on the scales"),
    ("L", "Load cases"),
    ("R", "Scripts"),
    ("S", "Frames that cannot be solved"),
    ("T", "Checks: whether the numbers can be trusted"),
    ("D", "Checks: stress, panels, bays, and what no check covers"),
    ("D02", "Checks: sections and members"),
    ("D03", "Checks: joints and welds"),
    ("D04", "Checks: bolts"),
    ("D05", "Checks: fatigue"),
    ("D06", "Checks: movements"),
    ("C", "Comparisons"),
    ("G1", "Evidence: the twist rig against the model"),
    ("G2", "Evidence: the scales against the model"),
    ("B", "Baselines"),
];

/// The subjects that have pages, each with them.
pub(crate) fn by_subject() -> impl Iterator<Item = (&'static str, Vec<&'static Page>)> {
    let groups = SUBJECTS
        .iter()
        .map(|&(_, subject)| (subject, all().filter(|page| subject_of(page.code) == subject).collect::<Vec<_>>()));
    groups.filter(|(_, pages)| !pages.is_empty())
}

/// What a code is about.
pub(crate) fn subject_of(code: &str) -> &'static str {
    SUBJECTS.iter().rev().find(|(start, _)| code.starts_with(start)).map_or("", |&(_, subject)| subject)
}

/// The pages whose codes begin so, whatever the case; none for an empty beginning.
pub(crate) fn beginning(start: &str) -> Vec<&'static Page> {
    let start = start.to_ascii_uppercase();
    all().filter(|page| !start.is_empty() && page.code.starts_with(&start)).collect()
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
    fn every_page_stands_under_one_subject() {
        let listed: usize = by_subject().map(|(_, pages)| pages.len()).sum();
        assert_eq!(listed, all().count());
        assert!(by_subject().all(|(subject, pages)| pages.iter().all(|page| subject_of(page.code) == subject)));
        assert_eq!(subject_of("D003"), subject_of("D011"));
        assert_ne!(subject_of("D003"), subject_of("D030"));
    }

    #[test]
    fn a_slip_finds_its_neighbours() {
        assert!(near("M00").contains(&"M001"));
        assert!(find("m001").is_some());
        assert!(find("Q999").is_none());
    }
}

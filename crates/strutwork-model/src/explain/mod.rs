//! The page of every code of this crate: what it means, the smallest example, what to do.

mod bodies;
mod bolts;
mod files;
mod geometry;
mod judging;
mod loads;
mod measured;
mod names;
mod panels;
mod screening;
mod sections;
mod suspension;
mod vehicle;
mod welds;

use crate::diagnostic::Code;

/// What `strutwork explain M012` shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Page {
    /// The code: `M012`.
    pub code: &'static str,
    /// One line.
    pub title: &'static str,
    /// What it means and why it matters.
    pub meaning: &'static str,
    /// The smallest example that brings it about.
    pub example: &'static str,
    /// What to do.
    pub remedy: &'static str,
}

/// One page for each `M` code, in order.
pub const PAGES: &[Page] = &join::<{ length(PARTS) }>(PARTS);

const PARTS: &[&[Page]] = &[
    files::PAGES,
    names::PAGES,
    geometry::PAGES,
    sections::PAGES,
    loads::PAGES,
    vehicle::PAGES,
    bodies::PAGES,
    suspension::PAGES,
    panels::PAGES,
    judging::PAGES,
    welds::PAGES,
    bolts::PAGES,
    screening::PAGES,
    measured::PAGES,
];

/// How many pages the parts have together.
pub const fn length(parts: &[&[Page]]) -> usize {
    let (mut length, mut part) = (0, 0);
    while part < parts.len() {
        length += parts[part].len();
        part += 1;
    }
    length
}

/// The pages of all parts in one row; `N` is their [`length`].
pub const fn join<const N: usize>(parts: &[&[Page]]) -> [Page; N] {
    let mut all = [parts[0][0]; N];
    let (mut at, mut part) = (0, 0);
    while part < parts.len() {
        let mut row = 0;
        while row < parts[part].len() {
            all[at] = parts[part][row];
            at += 1;
            row += 1;
        }
        part += 1;
    }
    all
}

/// A page in the order of its parts.
pub const fn page(
    code: Code,
    title: &'static str,
    meaning: &'static str,
    example: &'static str,
    remedy: &'static str,
) -> Page {
    Page { code: code.0, title, meaning, example, remedy }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes;

    #[test]
    fn every_code_has_its_page_in_order() {
        let pages: Vec<&str> = PAGES.iter().map(|page| page.code).collect();
        let codes: Vec<&str> = codes::ALL.iter().map(|code| code.0).collect();
        assert_eq!(pages, codes);
    }

    #[test]
    fn every_page_says_something_of_its_own() {
        for (row, page) in PAGES.iter().enumerate() {
            for text in [page.title, page.meaning, page.example, page.remedy] {
                assert!(!text.trim().is_empty(), "{}", page.code);
            }
            assert!(PAGES[..row].iter().all(|other| other.title != page.title), "{}", page.code);
        }
    }
}

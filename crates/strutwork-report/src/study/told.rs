//! A finished study: everything that its page is made of.

use strutwork_study::{Overview, Start, Study};

/// A finished study. Nothing in it is changed; the page only arranges it. It knows no date and no command: an interrupted study
/// ends with the same bytes as an undisturbed one.
#[derive(Debug, Clone, Copy)]
pub struct StudyRun<'a> {
    /// What was asked.
    pub study: &'a Study,
    /// What came out.
    pub overview: &'a Overview,
    /// The model as it is.
    pub start: &'a Start,
    /// Digest of everything that decides on the results, in hexadecimal.
    pub identity: &'a str,
    /// Version of the program.
    pub version: &'a str,
    /// What the names of the study's files begin with.
    pub stem: &'a str,
}

//! Two revisions side by side, as sentences and tables; what differs is found by `strutwork-revision`.
//!
//! - [`words`]: what a change did, in a few lines, and the changes in sentences;
//! - [`tables`]: changes, differences and findings as tables, for files and pages.

pub mod tables;
pub mod words;

use strutwork_model::Model;
use strutwork_revision::Comparison;

/// Two revisions as a page shows them.
#[derive(Debug, Clone, Copy)]
pub struct Compared<'a> {
    /// What differs.
    pub comparison: &'a Comparison,
    /// What the two are called: the folders, as they were typed.
    pub labels: [&'a str; 2],
    /// The models, for the picture; `None` where one is not at hand.
    pub models: [Option<&'a Model>; 2],
    /// What a reader must know of the comparison itself, one sentence an entry.
    pub remarks: &'a [String],
}

impl Compared<'_> {
    /// What the two are called in sentences: `revision A`, else the folder.
    pub fn names(&self) -> [String; 2] {
        let revisions = [&self.comparison.before.revision, &self.comparison.after.revision];
        let apart = revisions[0] != revisions[1];
        let name = |place: usize| match revisions[place].as_str() {
            "" => self.labels[place].to_owned(),
            revision if apart => format!("revision {revision}"),
            revision => format!("{} (revision {revision})", self.labels[place]),
        };
        [name(0), name(1)]
    }
}

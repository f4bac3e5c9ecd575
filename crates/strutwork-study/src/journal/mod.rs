//! The journal of a study: finished variants as lines that are only ever added, each with a checksum.
//!
//! ```text
//! {"journal":"strutwork study 2","version":…,"study":SHA-256,"name":…,"variants":N,"shard":[k,n],"parameters":[…],…,"check":…}
//! {"variant":0,"values":[1.5,"on"],"status":"solved","responses":[12.3,null],"feasible":true,"note":"","way":"side by side","check":"…16 digits…"}
//! ```
//!
//! The variants of a shard stand in their order without a gap: whatever interrupts a run, its journal is the beginning of the
//! journal of an undisturbed one, but for a last line that may be torn. So a run goes on where the whole lines end, and its
//! journal has the same bytes in the end. A checksum covers its line and the study that it belongs to.

mod line;
mod merge;
mod read;
mod shard;

use serde::{Deserialize, Serialize};

use crate::fault::StudyFault;
use crate::outcome::Row;
use crate::study::Study;
pub use merge::{Incomplete, Merge, MergeFault};
pub use read::{JournalFault, Reader};
pub use shard::Shard;

/// What the first line of every journal opens with; another number is another format.
const FORMAT: &str = "strutwork study 2";

/// A parameter as the journal tells it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Column {
    /// Its name, with its unit.
    pub name: String,
    /// Whether its values are numbers.
    pub number: bool,
}

/// The first line of a journal: which study, which program, which part of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Header {
    /// The format.
    journal: String,
    /// Version of the program: another may come to other digits.
    pub version: String,
    /// Digest of the study ([`identity`](crate::identity::identity)).
    pub study: String,
    /// Its name.
    pub name: String,
    /// How many variants the whole study has.
    pub variants: u64,
    /// Which part this is.
    pub shard: Shard,
    /// The parameters.
    pub parameters: Vec<Column>,
    /// Names of the responses.
    pub responses: Vec<String>,
    /// Whether the study has constraints.
    pub constrained: bool,
}

impl Header {
    /// The header of a shard of a study with this digest.
    ///
    /// # Errors
    /// As [`Study::count`].
    pub fn of(study: &Study, identity: String, version: &str, shard: Shard) -> Result<Self, StudyFault> {
        let column =
            |parameter: &crate::Parameter| Column { name: parameter.name.clone(), number: parameter.is_number() };
        Ok(Self {
            journal: FORMAT.to_owned(),
            version: version.to_owned(),
            study: identity,
            name: study.name.clone(),
            variants: study.count()?,
            shard,
            parameters: study.parameters.iter().map(column).collect(),
            responses: study.responses.iter().map(|response| response.name.clone()).collect(),
            constrained: !study.constraints.is_empty(),
        })
    }

    /// The same for the whole study.
    #[must_use]
    pub fn whole(&self) -> Self {
        Self { shard: Shard::WHOLE, ..self.clone() }
    }

    /// Its line, with the line end.
    pub fn line(&self) -> String {
        line::sealed(&serde_json::to_string(self).unwrap_or_default(), "")
    }

    /// The line of a finished variant, with the line end.
    pub fn row_line(&self, row: &Row) -> String {
        line::of_row(row, &self.study)
    }

    /// Why another journal is not one of the same study; `None` where it is.
    pub fn differs(&self, other: &Self) -> Option<String> {
        if self.study != other.study {
            return Some(format!(
                "it is the journal of another study, `{}`, or of this one before something was changed",
                other.name
            ));
        }
        if self.version != other.version {
            return Some(format!(
                "it was written by version {} of this program, and this is {}: numbers may differ",
                other.version, self.version
            ));
        }
        None
    }
}

#[cfg(test)]
mod tests;

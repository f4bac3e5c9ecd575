//! Shards put together, and the proof that nothing is missing and nothing twice.

use std::io::BufRead;

use super::{Header, JournalFault, Reader};
use crate::outcome::Row;

/// Why journals cannot be put together.
#[derive(Debug, thiserror::Error)]
pub enum MergeFault {
    /// A journal cannot be read: which, by its place, and why.
    #[error("journal {place}: {fault}")]
    Journal {
        /// Its place among those given, from 0.
        place: usize,
        /// What is wrong with it.
        fault: JournalFault,
    },
    /// A journal is not of the same study as the first.
    #[error("journal {place}: {why}")]
    Other {
        /// Its place among those given, from 0.
        place: usize,
        /// How it differs.
        why: String,
    },
    /// Whoever took the rows failed.
    #[error("the results cannot be written")]
    Keep,
}

/// Ranges of variants that are missing, and variants that stand in two journals.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Incomplete {
    /// First and last variant of each gap, ascending.
    pub missing: Vec<(u64, u64)>,
    /// First and last variant of each overlap, ascending.
    pub doubled: Vec<(u64, u64)>,
}

impl Incomplete {
    /// Whether nothing is missing and nothing twice.
    pub fn is_nothing(&self) -> bool {
        self.missing.is_empty() && self.doubled.is_empty()
    }
}

/// Journals of one study, read side by side in the order of their variants.
pub struct Merge<R> {
    readers: Vec<Reader<R>>,
    /// The next row of each.
    heads: Vec<Option<Row>>,
}

impl<R: BufRead> Merge<R> {
    /// Opens journals and sees that they are of one study and one version.
    ///
    /// # Errors
    /// [`MergeFault::Journal`], [`MergeFault::Other`].
    pub fn new(readers: Vec<Reader<R>>) -> Result<Self, MergeFault> {
        for (place, reader) in readers.iter().enumerate() {
            if let Some(why) = readers[0].header().differs(reader.header()) {
                return Err(MergeFault::Other { place, why });
            }
        }
        let mut merge = Self { heads: readers.iter().map(|_| None).collect(), readers };
        for place in 0..merge.readers.len() {
            merge.advance(place)?;
        }
        Ok(merge)
    }

    /// The header of the whole.
    pub fn header(&self) -> Option<Header> {
        self.readers.first().map(|reader| reader.header().whole())
    }

    fn advance(&mut self, place: usize) -> Result<(), MergeFault> {
        self.heads[place] = self.readers[place].next_row().map_err(|fault| MergeFault::Journal { place, fault })?;
        Ok(())
    }

    /// Hands over every variant once, in order, and says what is missing and what stands twice.
    ///
    /// # Errors
    /// [`MergeFault::Journal`] for a damaged line; [`MergeFault::Keep`] where `keep` says no.
    pub fn each(&mut self, mut keep: impl FnMut(Row) -> bool) -> Result<Incomplete, MergeFault> {
        let variants = self.header().map_or(0, |header| header.variants);
        let mut incomplete = Incomplete::default();
        let mut due = 0;
        loop {
            let lowest =
                self.heads.iter().enumerate().filter_map(|(place, head)| Some((head.as_ref()?.variant, place))).min();
            let Some((variant, place)) = lowest else { break };
            if variant < due {
                add(&mut incomplete.doubled, variant);
                self.advance(place)?;
                continue;
            }
            if variant > due {
                incomplete.missing.push((due, variant - 1));
            }
            due = variant + 1;
            if let Some(row) = self.heads[place].take()
                && !keep(row)
            {
                return Err(MergeFault::Keep);
            }
            self.advance(place)?;
        }
        if due < variants {
            incomplete.missing.push((due, variants - 1));
        }
        Ok(incomplete)
    }
}

/// Adds a variant to ascending ranges.
fn add(ranges: &mut Vec<(u64, u64)>, variant: u64) {
    match ranges.last_mut() {
        Some((_, last)) if *last == variant || *last + 1 == variant => *last = variant,
        _ => ranges.push((variant, variant)),
    }
}

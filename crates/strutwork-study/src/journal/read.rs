//! Reading a journal line by line: what is whole, where it ends, what is damaged.

use std::io::{self, BufRead};

use super::{FORMAT, Header, line};
use crate::outcome::Row;

/// The longest line that is read, bytes: a damaged file must not fill the memory.
const LONGEST: u64 = 16 << 20;

/// What is wrong with a journal.
#[derive(Debug, thiserror::Error)]
pub enum JournalFault {
    /// It holds no whole line: it was torn before the first, or is empty.
    #[error("it holds no whole line")]
    Empty,
    /// Its first line is not that of a journal that this program writes.
    #[error("it is no journal of a study, or of another format, or its first line is damaged")]
    NotAJournal,
    /// A line that is not the last is damaged.
    #[error("line {line} is damaged: {why}")]
    Damaged {
        /// Counted from 1.
        line: u64,
        /// What is wrong with it.
        why: String,
    },
    /// The system refused.
    #[error(transparent)]
    System(#[from] io::Error),
}

/// Reads a journal, one variant at a time.
pub struct Reader<R> {
    input: R,
    header: Header,
    /// Lines read, the header among them.
    lines: u64,
    /// Bytes of the whole lines read.
    whole: u64,
    /// The variant that the next line must hold.
    next: u64,
    torn: bool,
}

impl<R: BufRead> Reader<R> {
    /// Reads the first line.
    ///
    /// # Errors
    /// [`JournalFault::Empty`] where not even that is whole, [`JournalFault::NotAJournal`], [`JournalFault::System`].
    pub fn new(mut input: R) -> Result<Self, JournalFault> {
        let Some(first) = whole_line(&mut input)? else { return Err(JournalFault::Empty) };
        let header = std::str::from_utf8(&first)
            .ok()
            .and_then(|text| line::opened(text, ""))
            .and_then(|json| serde_json::from_str::<Header>(&json).ok())
            .filter(|header| header.journal == FORMAT)
            .ok_or(JournalFault::NotAJournal)?;
        let next = header.shard.range(header.variants).start;
        Ok(Self { input, header, lines: 1, whole: first.len() as u64 + 1, next, torn: false })
    }

    /// The first line.
    pub fn header(&self) -> &Header {
        &self.header
    }

    /// The next variant; `None` at the end of the whole lines.
    ///
    /// A damaged line that is the last counts as torn, and the journal ends before it.
    ///
    /// # Errors
    /// [`JournalFault::Damaged`] for a line in the middle; [`JournalFault::System`].
    pub fn next_row(&mut self) -> Result<Option<Row>, JournalFault> {
        if self.torn {
            return Ok(None);
        }
        let Some(text) = whole_line(&mut self.input)? else {
            // An end without a line end, or none: both are the end.
            self.torn = true;
            return Ok(None);
        };
        let end = self.header.shard.range(self.header.variants).end;
        let row = std::str::from_utf8(&text).ok().and_then(|text| line::row(text, &self.header.study));
        let why = match &row {
            None => Some("its checksum is wrong".to_owned()),
            Some(row) if row.variant != self.next || row.variant >= end => {
                Some(format!("it holds variant {}, and variant {} is due", row.variant, self.next))
            }
            Some(_) => None,
        };
        if let Some(why) = why {
            if self.input.fill_buf()?.is_empty() && row.is_none() {
                self.torn = true;
                return Ok(None);
            }
            return Err(JournalFault::Damaged { line: self.lines + 1, why });
        }
        self.lines += 1;
        self.whole += text.len() as u64 + 1;
        self.next += 1;
        Ok(row)
    }

    /// Reads to the end of the whole lines, and hands over each variant.
    ///
    /// # Errors
    /// As [`Self::next_row`].
    pub fn each(&mut self, mut take: impl FnMut(Row)) -> Result<(), JournalFault> {
        while let Some(row) = self.next_row()? {
            take(row);
        }
        Ok(())
    }

    /// Bytes of the whole lines read so far.
    pub const fn whole_bytes(&self) -> u64 {
        self.whole
    }

    /// The variant after the last one read.
    pub const fn next_variant(&self) -> u64 {
        self.next
    }

    /// Whether every variant of its shard was read.
    pub fn is_complete(&self) -> bool {
        self.next == self.header.shard.range(self.header.variants).end
    }
}

/// The next line without its end; `None` at the end, and for a last line without an end.
fn whole_line(input: &mut impl BufRead) -> io::Result<Option<Vec<u8>>> {
    let mut text = Vec::new();
    io::Read::take(&mut *input, LONGEST).read_until(b'\n', &mut text)?;
    Ok((text.pop() == Some(b'\n')).then_some(text))
}

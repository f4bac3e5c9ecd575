//! Pages as PDF: a document as data in, the bytes of a file out. Knows nothing of frames.
//!
//! A [`Document`] is a list of [`Block`]s: headings, paragraphs, lists, notes, tables, pictures, calculations. [`pdf`]
//! breaks them into lines and pages, and writes a tagged file with bookmarks, links and embedded faces of letters.
//!
//! ```
//! use strutwork_paper::{Block, Document, Heading, Text};
//! let mut document = Document::new("A shelf", "en-GB");
//! document.blocks.push(Block::from(Heading::new(1, "1", "What it bears")));
//! document.blocks.push(Block::from(Text::new().plain("A ").bold("plank").plain(" of 18 mm.")));
//! let bytes = strutwork_paper::pdf(&document)?;
//! assert!(bytes.starts_with(b"%PDF-1.5"));
//! # Ok::<(), strutwork_paper::PaperError>(())
//! ```
//!
//! [`blocks_of`] reads blocks from HTML of the plain kind, so that one page of words can serve a browser and paper.
//!
//! [`png()`] makes dots of a [`Drawing`], for whoever cannot take lines.
//!
//! # Order
//! `words` makes shapes of letters and lines of words; `lay` turns blocks into pieces that no page break divides;
//! `pages` puts pieces on pages; `write` draws them with the one library that knows PDF.
//!
//! # Units
//! Lengths are pt (1/72 in), x to the right, y downwards.
//!
//! # Assumes
//! Lines run from left to right. The same document gives the same bytes: there is no date, no random number and no
//! thread in here.

mod block;
mod document;
mod drawing;
mod error;
mod lay;
mod markup;
mod pages;
mod piece;
mod raster;
mod table;
mod text;
mod theme;
mod words;
mod write;
mod xml;

pub use block::{Block, Contents, Fact, Heading, List, Note, Picture, Share, Step, TitleBlock};
pub use document::{Document, Running, Sheet};
pub use drawing::{Anchor, Colour, Drawing, DrawingError, Line, Mark, Segment};
pub use error::PaperError;
pub use markup::{MarkupError, blocks_of};
pub use raster::png;
pub use table::{Align, Column, Row, RowKind, Table};
pub use text::{Ink, Rise, Span, Style, Text};

/// The bytes of a PDF file.
///
/// # Errors
/// A table whose rows do not fit its columns, or what the writing library refuses.
pub fn pdf(document: &Document) -> Result<Vec<u8>, PaperError> {
    let laid = lay::lay_out(document)?;
    let pages = pages::break_into_pages(&laid);
    write::write(document, laid, &pages)
}

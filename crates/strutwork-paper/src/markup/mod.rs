//! HTML of the plain kind, read into blocks: one page of words serves a browser and paper.
//!
//! What is read, by element and class:
//!
//! | element | becomes |
//! |---|---|
//! | `section`, `article`, `div`, `main`, `header` | what stands in it; with class `short` kept together, with `page` on one page |
//! | `header.sheet-head` | the head of the document: `p.kind`, `h1`, `p.lead`, `dl.block` |
//! | `.cautions`, `.remark` | a box: the first warns, and its first heading is its label |
//! | `div.pair` | its elements side by side, those of class `major` wider |
//! | `h2` to `h5` | headings of levels 1 to 4; `span.no` is the number |
//! | `nav` | the list of contents: headings with a number |
//! | `p` | a paragraph; soft with class `helps` or `nature`, small with `more` |
//! | `ul`, `ol`, `dl.conventions` | lists |
//! | `ul.given`, `ol.working` | calculations: `span.line`, its `span.side`s, `span.why` |
//! | `ol.steps` | a table of two steps a row, with what stands in `span.result` as their values |
//! | `dl` | facts; in `dl.form`, those of class `full` take the width, and `tall` ones leave room to write |
//! | `table` | a table: `caption`, `thead`, `tbody`; `.n` are numbers |
//! | `figure` | a picture: `svg`, `figcaption`; `wide` on a page on its side, `half` on less than half of the width |
//! | `hr` | a new page |
//!
//! Within a line: `b`, `strong`, `i`, `em`, `code`, `sub`, `sup`, `a` and `span`. An `id` names the place of a block, and
//! `href="#…"` leads there.

mod flow;
mod parts;
mod tree;
mod words;

use crate::block::Block;
use crate::drawing::DrawingError;
use crate::xml::Broken;

/// Why a text is no HTML that is read here.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum MarkupError {
    /// The text is not written as XML is.
    #[error("the page is not written as expected at byte {at}: {what}")]
    Written {
        /// Where, counted from 0.
        at: usize,
        /// What is wrong.
        what: &'static str,
    },
    /// An element that is not read where it stands.
    #[error("the page has an element <{element}> in a <{within}>, which is not known here")]
    Element {
        /// The element.
        element: String,
        /// What it stands in.
        within: String,
    },
    /// Elements within elements, deeper than any page needs.
    #[error("the page has elements within elements, more than {0} deep")]
    Deep(usize),
    /// A drawing that cannot be drawn.
    #[error(transparent)]
    Drawing(#[from] DrawingError),
}

impl From<Broken> for MarkupError {
    fn from(Broken { at, what }: Broken) -> Self {
        Self::Written { at, what }
    }
}

/// Blocks from HTML of the plain kind, closed as XML is.
///
/// # Errors
/// Anything else, named: what is not read is never left out in silence.
pub fn blocks_of(html: &str) -> Result<Vec<Block>, MarkupError> {
    flow::blocks(&tree::read(html)?, "page")
}

#[cfg(test)]
mod tests;

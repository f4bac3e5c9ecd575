//! What can go wrong on the way to a file.

use crate::markup::MarkupError;

/// Why there are no pages.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum PaperError {
    /// A row of a table has more or fewer cells than the table has columns.
    #[error("table \"{caption}\": row {row} has {cells} cells, and there are {columns} columns")]
    Cells {
        /// The table's caption.
        caption: String,
        /// The row, counted from 1.
        row: usize,
        /// Its cells.
        cells: usize,
        /// The table's columns.
        columns: usize,
    },
    /// A face of letters that is built in cannot be read.
    #[error("the built-in face of letters {0} cannot be read")]
    Face(&'static str),
    /// A page that is no HTML of the plain kind.
    #[error(transparent)]
    Page(#[from] MarkupError),
    /// A picture of dots cannot be made.
    #[error("the picture cannot be made: {0}")]
    Dots(String),
    /// The library that writes the file refuses.
    #[error("the PDF cannot be written: {0}")]
    Writing(String),
}

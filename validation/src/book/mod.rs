//! The book of published problems as data: what a page says, before it is written as HTML or PDF.
//!
//! ```text
//! Suite, CaseReports ──Book::of──▶ Book ──▶ html (book.html) · paper (book.pdf)
//! ```
//! - `front`: what the book is, contents, what is worst, what it does not hold;
//! - `page`: a case; `model`: its data in short; `sketch` and `part`: its pictures, the latter by `pen`;
//! - `coverage`: which capabilities rest on what.

mod coverage;
mod front;
mod html;
mod model;
mod page;
mod paper;
mod part;
mod pen;
mod sketch;

pub use html::MARK;
pub use paper::BookError;
use strutwork_report::figures::Figure;

use crate::case::Suite;
use crate::report::families;
use crate::run::CaseReport;

/// The book: the same for every writer.
#[derive(Debug, Clone, PartialEq)]
pub struct Book {
    /// Its title.
    pub title: String,
    /// The version of the program that it is of.
    pub version: String,
    /// What stands in front.
    pub front: Vec<Section>,
    /// The cases, family by family.
    pub families: Vec<Chapter>,
}

/// Cases of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Chapter {
    /// Its heading.
    pub name: String,
    /// Unique in the book.
    pub id: String,
    /// A page a case.
    pub pages: Vec<Section>,
}

/// A heading with what stands under it.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its heading.
    pub title: String,
    /// Unique in the book.
    pub id: String,
    /// What it says, in order.
    pub blocks: Vec<Block>,
}

/// A part of a section.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A paragraph.
    Text(String),
    /// Something that must not be overlooked.
    Warning(String),
    /// A heading within the section.
    Heading(String),
    /// A list.
    List(Vec<String>),
    /// Names with what they stand for.
    Facts(Vec<(String, String)>),
    /// A table.
    Table(Table),
    /// A picture.
    Figure(Figure),
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What it shows; empty for none.
    pub caption: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// As many cells as columns in each.
    pub rows: Vec<Row>,
}

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// Whether it holds numbers, which stand at the right.
    pub numbers: bool,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its cells.
    pub cells: Vec<Cell>,
    /// Whether it stands out, as a value that disagrees or a sum does.
    pub strong: bool,
}

/// A cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Its text.
    pub text: String,
    /// The section that it leads to, by its id.
    pub link: Option<String>,
}

impl Book {
    /// The book of a suite with what it gave; `reports` stand in the order of the suite's cases.
    pub fn of(suite: &Suite, reports: &[CaseReport], version: &str) -> Self {
        let mut cases = suite.cases.iter();
        let families = families(reports).map(|(name, group)| Chapter {
            name: heading(name),
            id: name.to_owned(),
            pages: group.iter().zip(&mut cases).map(|(report, case)| page::page(case, report)).collect(),
        });
        Self {
            title: "Published problems, re-solved".to_owned(),
            version: version.to_owned(),
            families: families.collect(),
            front: front::front(suite, reports, version),
        }
    }

    /// The book as one HTML file: no network, no script. It prints on A4, a page a case.
    pub fn html(&self) -> String {
        html::write(self)
    }

    /// The book as the bytes of a PDF file, with bookmarks.
    ///
    /// # Errors
    /// [`BookError`]: a fault of ours.
    pub fn pdf(&self) -> Result<Vec<u8>, BookError> {
        paper::write(self)
    }
}

impl Table {
    /// A table without rows; a column's head that starts with `#` is one of numbers.
    fn new(caption: &str, heads: &[&str]) -> Self {
        let column =
            |head: &&str| Column { head: head.trim_start_matches('#').to_owned(), numbers: head.starts_with('#') };
        Self { caption: caption.to_owned(), columns: heads.iter().map(column).collect(), rows: Vec::new() }
    }

    fn push(&mut self, cells: Vec<Cell>, strong: bool) {
        self.rows.push(Row { cells, strong });
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self { text, link: None }
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::from(text.to_owned())
    }
}

/// The id of a case's page.
fn id_of(report: &CaseReport) -> String {
    format!("{}-{}", report.family, report.name)
}

/// A family's name as a heading.
fn heading(family: &str) -> String {
    let mut letters = family.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A cell that leads to a section.
fn link(text: &str, id: String) -> Cell {
    Cell { text: text.to_owned(), link: Some(id) }
}

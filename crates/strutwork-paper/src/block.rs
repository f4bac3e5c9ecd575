//! What a document is made of.

use crate::drawing::Drawing;
use crate::table::Table;
use crate::text::Text;

/// A part of a document, from top to bottom.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Block {
    /// The head of the document: what it is, and the facts about it in a ruled field.
    Title(TitleBlock),
    /// Headings with their pages.
    Contents(Contents),
    /// A heading, which also is a bookmark.
    Heading(Heading),
    /// A paragraph, not wider than the eye follows.
    Paragraph(Text),
    /// A paragraph in small letters over the whole width: of what is secondary.
    Small(Text),
    /// A list.
    List(List),
    /// A box that stands off the text.
    Note(Note),
    /// A table.
    Table(Table),
    /// A drawing with its caption.
    Picture(Picture),
    /// Formulas with their numbers and results.
    Calculation(Vec<Step>),
    /// A number of facts, each with its name, in a ruled field.
    Facts(Vec<Fact>),
    /// Columns side by side, on one page; for tables and pictures of a few lines.
    Beside(Vec<Share>),
    /// What stands on one page where one page can hold it.
    Together(Vec<Block>),
    /// What stands on one page, a little smaller where it has to be; several on one where they are short.
    OnePage(Vec<Block>),
    /// What stands on pages turned on their side.
    Sideways(Vec<Block>),
    /// What follows starts on a page of its own.
    PageBreak,
    /// The name of the place where the next block stands, for links.
    Anchor(String),
}

/// Which headings the contents list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Contents {
    /// Levels up to this one.
    pub lowest: u8,
    /// Whether those without a number are left out.
    pub numbered: bool,
}

/// A column beside others.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// Its width, in the measure of the others'; not negative.
    pub share: f64,
    /// What stands in it.
    pub blocks: Vec<Block>,
}

/// The head of a document.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TitleBlock {
    /// What kind of document it is, in a word or two.
    pub kind: String,
    /// Its title.
    pub title: Text,
    /// What else is to be said at once; may be empty.
    pub subtitle: Text,
    /// Facts about it: model, revision, author, date.
    pub facts: Vec<Fact>,
}

/// Something with its name.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Fact {
    /// What it is.
    pub name: String,
    /// It.
    pub value: Text,
}

/// A heading.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Heading {
    /// 1 for a chapter; 4 is the lowest, and others are taken as the nearest.
    pub level: u8,
    /// Its number as it is printed; empty for none.
    pub number: String,
    /// Its text.
    pub text: Text,
}

/// A list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct List {
    /// Whether its items are counted.
    pub numbered: bool,
    /// Its items.
    pub items: Vec<Text>,
}

/// A box that stands off the text.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Note {
    /// Whether it warns. A warning also has a heavier edge.
    pub warns: bool,
    /// The word or line at its head: `Caution`, `Out of scope`.
    pub label: Text,
    /// What stands in it: paragraphs, lists and calculations; other blocks are set below it.
    pub blocks: Vec<Block>,
}

/// A drawing with its caption.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// The drawing; its label is what is read to those who do not see it.
    pub drawing: Drawing,
    /// What stands below it.
    pub caption: Text,
    /// Its width as a share of the text's; more than 1 is taken as 1.
    pub width: f64,
}

/// A line of a calculation.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Step {
    /// What is worked out; empty for a remark, which then stands in `note`.
    pub symbol: Text,
    /// What stands behind each equals sign, one below the other: formula, numbers put in, result.
    pub equals: Vec<Text>,
    /// What is said beside the last of them.
    pub note: Text,
}

impl Heading {
    /// A heading.
    pub fn new(level: u8, number: impl Into<String>, text: impl Into<Text>) -> Self {
        Self { level, number: number.into(), text: text.into() }
    }

    /// Its number and its letters.
    pub(crate) fn line(&self) -> String {
        let letters = self.text.letters();
        if self.number.is_empty() { letters } else { format!("{} {letters}", self.number) }
    }
}

impl Fact {
    /// A fact.
    pub fn new(name: impl Into<String>, value: impl Into<Text>) -> Self {
        Self { name: name.into(), value: value.into() }
    }
}

impl From<TitleBlock> for Block {
    fn from(block: TitleBlock) -> Self {
        Self::Title(block)
    }
}

impl From<Heading> for Block {
    fn from(heading: Heading) -> Self {
        Self::Heading(heading)
    }
}

impl From<Text> for Block {
    fn from(text: Text) -> Self {
        Self::Paragraph(text)
    }
}

impl From<&str> for Block {
    fn from(text: &str) -> Self {
        Self::Paragraph(text.into())
    }
}

impl From<String> for Block {
    fn from(text: String) -> Self {
        Self::Paragraph(text.into())
    }
}

impl From<List> for Block {
    fn from(list: List) -> Self {
        Self::List(list)
    }
}

impl From<Note> for Block {
    fn from(note: Note) -> Self {
        Self::Note(note)
    }
}

impl From<Table> for Block {
    fn from(table: Table) -> Self {
        Self::Table(table)
    }
}

impl From<Picture> for Block {
    fn from(picture: Picture) -> Self {
        Self::Picture(picture)
    }
}

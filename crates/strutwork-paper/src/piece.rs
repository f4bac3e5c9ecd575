//! Pieces that no page break divides, and the tree of what they mean.

use crate::drawing::{Colour, Drawing};
use crate::words::{Line, Shaper};

/// A laid document: pieces from top to bottom, not yet on pages.
pub(crate) struct Laid<'a> {
    /// Runs of pieces on upright pages or on pages turned on their side.
    pub flows: Vec<Flow<'a>>,
    /// Heads of tables, which stand again after a page break.
    pub heads: Vec<Vec<Piece<'a>>>,
    /// Headings in order.
    pub headings: Vec<Mark>,
    /// What the pieces mean, for readers who do not see them.
    pub nodes: Vec<Node>,
    /// What made the shapes of the letters.
    pub shaper: Shaper,
    /// Width and height of the upright paper, pt.
    pub paper: (f64, f64),
}

/// A run of pieces on pages of one orientation.
#[derive(Debug, Default)]
pub(crate) struct Flow<'a> {
    /// Whether its pages are turned on their side.
    pub sideways: bool,
    /// Its pieces.
    pub pieces: Vec<Piece<'a>>,
}

/// A heading, as bookmarks and contents need it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Mark {
    /// From 1 to 4.
    pub level: u8,
    /// Whether it has a number.
    pub numbered: bool,
    /// Its number and its letters.
    pub line: String,
}

/// A piece that no page break divides.
#[derive(Debug, Clone, Default)]
pub(crate) struct Piece<'a> {
    /// Space above it; none at the top of a page.
    pub before: f64,
    /// Its height.
    pub height: f64,
    /// How strongly it holds to the next piece.
    pub bond: Bond,
    /// Whether it starts a page.
    pub fresh: bool,
    /// The head that stands again above it where it starts a page.
    pub head: Option<usize>,
    /// The heading that starts here.
    pub heading: Option<usize>,
    /// Places with a name that are here, by the shaper's numbers.
    pub anchors: Vec<usize>,
    /// What is drawn, by meaning.
    pub parts: Vec<Part<'a>>,
}

/// How strongly a piece holds to the next one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(crate) enum Bond {
    /// A page may end between them.
    #[default]
    Free,
    /// They stand on one page where one page can hold all that is so bound.
    Wished,
    /// They stand on one page unless no page can hold them.
    Firm,
}

/// What is drawn of one meaning.
#[derive(Debug, Clone)]
pub(crate) struct Part<'a> {
    /// The node it belongs to; none for lines and grounds that mean nothing.
    pub node: Option<usize>,
    /// What is drawn.
    pub ops: Vec<Op<'a>>,
}

/// Something drawn; places are from the upper left corner of the piece.
#[derive(Debug, Clone)]
pub(crate) enum Op<'a> {
    /// Words on a base line.
    Words { x: f64, y: f64, line: Line },
    /// A straight line.
    Rule { from: (f64, f64), to: (f64, f64), width: f64, colour: Colour },
    /// An area.
    Ground { x: f64, y: f64, width: f64, height: f64, colour: Colour },
    /// A drawing, scaled.
    Drawing { x: f64, y: f64, scale: f64, drawing: &'a Drawing },
    /// The number of a heading's page, which ends at `right`.
    PageOf { right: f64, y: f64, heading: usize },
    /// A way to a heading.
    Link { x: f64, y: f64, width: f64, height: f64, heading: usize },
}

/// What something means.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Meaning {
    /// The root, and what holds others together without a meaning of its own.
    Group,
    /// The title of the document.
    Title,
    /// A heading of a level.
    Heading(u8, String),
    /// A paragraph.
    Paragraph,
    /// A list, counted or not.
    List(bool),
    /// An item of a list.
    Item,
    /// Its mark.
    Label,
    /// Its text.
    Body,
    /// A table.
    Table,
    /// Its head.
    TableHead,
    /// Its rows.
    TableBody,
    /// A row.
    Row,
    /// A cell that names its column, or its row.
    HeadCell { of_column: bool },
    /// A cell.
    Cell,
    /// What stands above a table or below a picture.
    Caption,
    /// A picture: what is said of it.
    Figure(String),
    /// The contents.
    Contents,
    /// A line of them.
    Entry,
    /// A way to somewhere else.
    Link,
}

/// A node of the tree of meanings.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Node {
    /// What it means.
    pub meaning: Meaning,
    /// The nodes in it, in the order of reading.
    pub children: Vec<usize>,
}

impl Op<'_> {
    /// Makes it smaller, and nearer to the corner of its piece.
    fn scale(&mut self, by: f64) {
        match self {
            Self::Words { x, y, line } => {
                (*x, *y) = (*x * by, *y * by);
                line.scale(by);
            }
            Self::Rule { from, to, width, .. } => {
                *from = (from.0 * by, from.1 * by);
                *to = (to.0 * by, to.1 * by);
                *width *= by;
            }
            Self::Ground { x, y, width, height, .. } | Self::Link { x, y, width, height, .. } => {
                for length in [x, y, width, height] {
                    *length *= by;
                }
            }
            Self::Drawing { x, y, scale, .. } => {
                for length in [x, y, scale] {
                    *length *= by;
                }
            }
            Self::PageOf { right, y, .. } => {
                *right *= by;
                *y *= by;
            }
        }
    }

    /// Moves it down.
    pub(crate) fn lower(&mut self, by: f64) {
        match self {
            Self::Words { y, .. }
            | Self::Ground { y, .. }
            | Self::Drawing { y, .. }
            | Self::PageOf { y, .. }
            | Self::Link { y, .. } => *y += by,
            Self::Rule { from, to, .. } => {
                from.1 += by;
                to.1 += by;
            }
        }
    }
}

impl Piece<'_> {
    /// Makes it and what is drawn of it smaller.
    pub(crate) fn scale(&mut self, by: f64) {
        self.before *= by;
        self.height *= by;
        self.parts.iter_mut().flat_map(|part| &mut part.ops).for_each(|op| op.scale(by));
    }
}

impl<'a> Part<'a> {
    /// A part with a meaning.
    pub(crate) const fn of(node: usize, ops: Vec<Op<'a>>) -> Self {
        Self { node: Some(node), ops }
    }

    /// A part that means nothing.
    pub(crate) const fn mute(ops: Vec<Op<'a>>) -> Self {
        Self { node: None, ops }
    }
}

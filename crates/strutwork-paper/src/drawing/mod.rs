//! Drawings as data: lines, areas and texts.

mod attributes;
mod path;
mod svg;

use crate::xml::Broken;

/// A drawing; lengths in units of its own, which are scaled to the width that it is given.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Its width.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// What it shows, in a sentence, for readers who do not see it.
    pub label: String,
    /// What is drawn, from back to front.
    pub marks: Vec<Mark>,
}

/// A red, a green and a blue share, each of 255.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Colour(pub u8, pub u8, pub u8);

/// What is drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A path.
    Path {
        /// Its parts.
        segments: Vec<Segment>,
        /// Colour of the inside and its opacity from 0 to 1.
        fill: Option<(Colour, f64)>,
        /// How its line is drawn.
        line: Option<Line>,
    },
    /// A line of text.
    Text {
        /// Where it is anchored, on its base line.
        at: (f64, f64),
        /// What of it stands there.
        anchor: Anchor,
        /// Turned about its anchor, degrees clockwise.
        turned: f64,
        /// Size of its letters.
        size: f64,
        /// Whether it is bold.
        bold: bool,
        /// Whether it is slanted.
        italic: bool,
        /// Its colour.
        colour: Colour,
        /// A white edge of this width around the letters, so that lines behind them do not disturb; 0 for none.
        halo: f64,
        /// Its letters.
        text: String,
    },
}

/// A part of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// Lifts the pen and sets it down here.
    Start((f64, f64)),
    /// A straight line to here.
    To((f64, f64)),
    /// A curve by two control points to here.
    Curve((f64, f64), (f64, f64), (f64, f64)),
    /// A straight line to the last start.
    Shut,
}

/// How a line is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its colour.
    pub colour: Colour,
    /// Its width.
    pub width: f64,
    /// Lengths of dashes and gaps in turn; empty for a line without gaps.
    pub dashes: Vec<f64>,
    /// Whether its ends and corners are round.
    pub round: bool,
}

/// What of a text stands at its anchor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Anchor {
    /// Its start.
    #[default]
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

impl Anchor {
    /// How far before its anchor a text of this width starts.
    pub(crate) fn back(self, width: f64) -> f64 {
        match self {
            Self::Start => 0.0,
            Self::Middle => width / 2.0,
            Self::End => width,
        }
    }
}

/// Why an SVG is none that can be drawn here.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum DrawingError {
    /// The text is no XML of the plain kind.
    #[error("the drawing is not written as expected at byte {at}: {what}")]
    Written {
        /// Where, counted from 0.
        at: usize,
        /// What is wrong.
        what: &'static str,
    },
    /// An element that is not read.
    #[error("the drawing has an element <{0}>, which is not known here")]
    Element(String),
    /// An attribute that is not read, or has a value that is not.
    #[error("the drawing has {name}=\"{value}\", which is not known here")]
    Attribute {
        /// Its name.
        name: String,
        /// Its value.
        value: String,
    },
    /// An attribute that an element needs.
    #[error("an element <{element}> of the drawing has no {name}")]
    Missing {
        /// The element.
        element: String,
        /// The attribute.
        name: &'static str,
    },
}

impl From<Broken> for DrawingError {
    fn from(Broken { at, what }: Broken) -> Self {
        Self::Written { at, what }
    }
}

impl Drawing {
    /// A drawing from SVG of the plain kind that charts are made of: `svg`, `g`, `path` (straight lines and cubic curves),
    /// `circle`, `ellipse`, `rect`, `line`, `polyline`, `polygon`, `text` and `title`, with colours as `#rrggbb`.
    ///
    /// # Errors
    /// Anything else, named: a part that is not drawn is never left out in silence.
    pub fn from_svg(svg: &str) -> Result<Self, DrawingError> {
        svg::read(svg)
    }
}

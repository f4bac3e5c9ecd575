//! What a model folder may say: every table file with its columns, every table of `model.toml` with its keys.
//!
//! Reading goes by these lists (a column or key that is not in them is refused) and `strutwork reference --files` prints
//! them, so that the page cannot differ from what is read.

mod bolts;
mod judging;
mod keys;
mod measured;
mod page;
mod screening;
mod tables;
mod welds;

pub use bolts::BOLT;
pub use judging::{BASIS, CHECK, GAMMA, MEMBERS};
pub use keys::{
    AXLE, CORNER, FACTOR, FIXING, KEY_TABLES, MATERIAL, OPTIONS, PLACE, REVISION, SECTION, SOFT_JOINTS, TOP, VEHICLE,
    WEIGHED, WEIGHED_CORNERS,
};
pub use measured::{RIG, RIG_SHEET, RIG_STATION, WEIGHED_PARTS};
pub use page::markdown;
pub use screening::{FATIGUE, FATIGUE_GROUP, FATIGUE_PAIR, LIMIT};
pub use tables::{
    BODIES, JOINTS, LOADS, MASSES, PANELS, SETTLEMENTS, SUPPORTS, SUSPENSION, TABLES, TEMPERATURES, TUBE_LOADS,
    TUBE_POINT_LOADS, TUBES,
};
pub use welds::{WELD_GROUP, WELDS};

/// A CSV file of the model folder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Table {
    /// Its name.
    pub file: &'static str,
    /// Whether there is no model without its rows.
    pub needed: bool,
    /// What one row is, and rules of the table as a whole.
    pub about: &'static str,
    /// Its columns; a file may hold them in any order.
    pub columns: &'static [Column],
    /// A few lines of it.
    pub example: &'static str,
}

/// A column of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Its name, which ends with the unit where there is one.
    pub name: &'static str,
    /// Whether the header must have it.
    pub required: bool,
    /// What a cell means, and what an empty one means where it may be empty.
    pub meaning: &'static str,
}

impl Table {
    /// The names of the columns that the header must have.
    pub fn required(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.columns.iter().filter(|column| column.required).map(|column| column.name)
    }

    /// The names of all columns.
    pub fn names(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.columns.iter().map(|column| column.name)
    }
}

/// A table of `model.toml`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct KeyTable {
    /// Its heading: `[options]`, `[sections.NAME]`; empty for the keys at the top of the file.
    pub heading: &'static str,
    /// What it says as a whole.
    pub about: &'static str,
    /// Its keys.
    pub keys: &'static [Key],
}

/// A key of a table of `model.toml`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Key {
    /// Its name, which ends with the unit where there is one.
    pub name: &'static str,
    /// What kind of value it takes.
    pub kind: Kind,
    /// What it means, and what holds where it is not given.
    pub meaning: &'static str,
}

/// Kinds of values in `model.toml`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A text in quotes.
    Text,
    /// A list of texts.
    Texts,
    /// A number.
    Number,
    /// `true` or `false`.
    Flag,
    /// A list of three numbers.
    Point,
    /// A text or a list of three numbers.
    Direction,
    /// Tables of their own, listed elsewhere.
    Tables,
}

impl Kind {
    /// For readers: `text`, `number`, ….
    pub const fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Texts => "list of texts",
            Self::Number => "number",
            Self::Flag => "true or false",
            Self::Point => "[x, y, z]",
            Self::Direction => "text or [x, y, z]",
            Self::Tables => "tables",
        }
    }
}

impl KeyTable {
    /// The names of its keys.
    pub fn names(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.keys.iter().map(|key| key.name)
    }
}

/// A column that the header must have.
const fn need(name: &'static str, meaning: &'static str) -> Column {
    Column { name, required: true, meaning }
}

/// A column that may be left out.
const fn may(name: &'static str, meaning: &'static str) -> Column {
    Column { name, required: false, meaning }
}

const fn key(name: &'static str, kind: Kind, meaning: &'static str) -> Key {
    Key { name, kind, meaning }
}

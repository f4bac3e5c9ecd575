//! Tables as data.

use crate::text::Text;

/// A table. It breaks between rows, and its head stands again on each page.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// What it shows; stands above it, and again with "continued" after a page break.
    pub caption: Text,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each with as many cells as there are columns.
    pub rows: Vec<Row>,
    /// Whether the first cell of each row names the row.
    pub names_rows: bool,
    /// Whether its letters are small however much room there is.
    pub fine: bool,
    /// Where several rows stand in one, after how many columns the next begins; 0 for one row in each.
    pub(crate) period: usize,
}

/// A column of a table. Its width comes from its content.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// What stands above it.
    pub head: Text,
    /// Its unit, which stands below its head; empty for none.
    pub unit: String,
    /// Where its cells stand.
    pub align: Align,
}

/// Where the cells of a column stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Align {
    /// At the left edge: text.
    #[default]
    Left,
    /// At the right edge: numbers with the same decimals.
    Right,
    /// In the middle: short marks.
    Centre,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// Its cells, one a column.
    pub cells: Vec<Text>,
    /// What kind of row it is.
    pub kind: RowKind,
}

/// What kind of row it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RowKind {
    /// One among others.
    #[default]
    Plain,
    /// A sum of those above it: bold, below a line.
    Sum,
}

impl Table {
    /// A table without rows.
    pub fn new(caption: impl Into<Text>, columns: Vec<Column>) -> Self {
        Self { caption: caption.into(), columns, rows: Vec::new(), names_rows: false, fine: false, period: 0 }
    }

    /// Whether every row has a cell for each column.
    pub(crate) fn is_whole(&self) -> bool {
        self.rows.iter().all(|row| row.cells.len() == self.columns.len())
    }

    /// Adds a plain row.
    pub fn push<T: Into<Text>>(&mut self, cells: impl IntoIterator<Item = T>) {
        self.rows.push(Row { cells: cells.into_iter().map(Into::into).collect(), kind: RowKind::Plain });
    }
}

impl Column {
    /// A column of text.
    pub fn text(head: impl Into<Text>) -> Self {
        Self { head: head.into(), unit: String::new(), align: Align::Left }
    }

    /// A column of numbers.
    pub fn number(head: impl Into<Text>, unit: impl Into<String>) -> Self {
        Self { head: head.into(), unit: unit.into(), align: Align::Right }
    }
}

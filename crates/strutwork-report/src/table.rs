//! A table as data: what stands in it, not how it looks.

use std::borrow::Cow;

use strutwork_checks::calculation::Unit;

use crate::number;

/// A table: columns with their units, and rows of cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Table<'a> {
    /// Its name; with `.csv` appended, its file.
    pub name: &'static str,
    /// What it shows, in a sentence without a full stop.
    pub caption: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each as long as `columns`.
    pub rows: Vec<Vec<Cell<'a>>>,
}

/// A column of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Its name in files, unit included: `ux_mm`.
    pub key: &'static str,
    /// Its heading for readers: `ux`.
    pub title: &'static str,
    /// Its unit for readers; empty for none.
    pub unit: &'static str,
    /// How its numbers are rounded for readers. Files are never rounded.
    pub digits: Digits,
}

/// How numbers are rounded for readers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Digits {
    /// The largest number among the columns of this unit shows this many significant digits, the others as many decimals.
    /// What is rounding noise beside its neighbours so becomes 0.
    Column(usize),
    /// Each number shows this many significant digits.
    Each(usize),
    /// Always this many decimals.
    Decimals(usize),
    /// As its author wrote it.
    Given,
    /// As a power of ten.
    Power,
    /// Value over limit: two decimals, and a mark above 1.
    Utilisation,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell<'a> {
    /// Text.
    Text(Cow<'a, str>),
    /// A number in the column's unit.
    Number(f64),
    /// The numbers that entered a check, written as `N_Ed=-12345 N; χ=0.87` only where the table is.
    Entered(&'a [(&'static str, f64, Unit)]),
    /// Nothing to say.
    Empty,
}

impl Column {
    /// A column of text.
    pub const fn text(key: &'static str, title: &'static str) -> Self {
        Self { key, title, unit: "", digits: Digits::Given }
    }

    /// A column of numbers.
    pub const fn number(key: &'static str, title: &'static str, unit: &'static str, digits: Digits) -> Self {
        Self { key, title, unit, digits }
    }
}

impl<'a> Cell<'a> {
    /// A cell that borrows its text.
    pub const fn text(text: &'a str) -> Self {
        Self::Text(Cow::Borrowed(text))
    }

    /// The number in it.
    pub const fn as_number(&self) -> Option<f64> {
        match self {
            Self::Number(value) => Some(*value),
            Self::Text(_) | Self::Entered(_) | Self::Empty => None,
        }
    }
}

impl<'a> From<&'a str> for Cell<'a> {
    fn from(text: &'a str) -> Self {
        Self::text(text)
    }
}

impl From<String> for Cell<'_> {
    fn from(text: String) -> Self {
        Self::Text(Cow::Owned(text))
    }
}

impl From<f64> for Cell<'_> {
    fn from(value: f64) -> Self {
        Self::Number(value)
    }
}

impl From<Option<f64>> for Cell<'_> {
    fn from(value: Option<f64>) -> Self {
        value.map_or(Self::Empty, Self::Number)
    }
}

/// The numbers that entered a check, at the end of a text: `N_Ed=-12345 N; M_y=12.3 N·m; χ=0.87`.
pub fn push_entered(text: &mut String, entered: &[(&'static str, f64, Unit)]) {
    for (place, (symbol, value, unit)) in entered.iter().enumerate() {
        if place > 0 {
            text.push_str("; ");
        }
        text.push_str(symbol);
        text.push('=');
        number::push_six(text, unit.of(*value));
        if !unit.name.is_empty() {
            text.push(' ');
            text.push_str(unit.name);
        }
    }
}

impl Table<'_> {
    /// The table without the columns of these keys.
    #[must_use]
    pub fn without(mut self, keys: &[&str]) -> Self {
        let kept: Vec<bool> = self.columns.iter().map(|column| !keys.contains(&column.key)).collect();
        self.columns.retain(|column| !keys.contains(&column.key));
        for row in &mut self.rows {
            let mut kept = kept.iter();
            row.retain(|_| kept.next().copied().unwrap_or(true));
        }
        self
    }

    /// Decimals in which each column's numbers are shown; [`Digits::Column`] looks at all columns of the same unit.
    pub fn decimals(&self) -> Vec<usize> {
        let shown = |column: &Column| match column.digits {
            Digits::Column(digits) => self.shared_decimals(column.unit, digits),
            Digits::Decimals(decimals) => decimals,
            Digits::Utilisation => 2,
            Digits::Each(_) | Digits::Given | Digits::Power => 0,
        };
        self.columns.iter().map(shown).collect()
    }

    fn shared_decimals(&self, unit: &str, digits: usize) -> usize {
        let mut largest = 0.0_f64;
        for (place, column) in self.columns.iter().enumerate() {
            if column.unit == unit && matches!(column.digits, Digits::Column(_)) {
                let numbers = self.rows.iter().filter_map(|row| row[place].as_number());
                largest = numbers.map(f64::abs).fold(largest, f64::max);
            }
        }
        number::sensible_decimals(largest, digits)
    }
}

impl Digits {
    /// A number as a reader sees it; `decimals` from [`Table::decimals`].
    pub fn show(self, value: f64, decimals: usize) -> String {
        match self {
            Self::Column(_) | Self::Decimals(_) | Self::Utilisation => number::fixed(value, decimals),
            Self::Each(digits) => number::significant(value, digits),
            Self::Given => number::as_given(value),
            Self::Power => number::power(value),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_of_one_unit_share_their_decimals() {
        let digits = Digits::Column(4);
        let table = Table {
            name: "t",
            caption: String::new(),
            columns: vec![
                Column::number("fx_n", "Fx", "N", digits),
                Column::number("fz_n", "Fz", "N", digits),
                Column::number("mx_nm", "Mx", "N·m", digits),
            ],
            rows: vec![vec![Cell::from(3e-12), Cell::from(1234.5), Cell::from(0.125)]],
        };
        assert_eq!(table.decimals(), [0, 0, 4]);
        assert_eq!(digits.show(-3e-12, 0), "0");
    }
}

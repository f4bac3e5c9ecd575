//! A table for readers: rounded, aligned, cut short where it would go on for pages.

use askama::Template;

use crate::table::{Cell, Digits, Table};

/// Longer tables are cut to [`SHOWN_ROWS`] and say where the rest stands.
const MOST_ROWS: usize = 300;
/// Rows that are shown of a table that is cut short.
const SHOWN_ROWS: usize = 60;

/// A table as HTML.
#[derive(Template)]
#[template(path = "table.html")]
pub(super) struct TableView {
    caption: String,
    class: &'static str,
    heads: Vec<Head>,
    rows: Vec<Vec<Shown>>,
    more: Option<More>,
}

struct Head {
    title: &'static str,
    unit: &'static str,
    number: bool,
}

struct Shown {
    text: String,
    class: &'static str,
}

struct More {
    rows: usize,
    place: String,
}

impl TableView {
    /// All rows, or the first of them and a note that the rest stands in `place`.
    pub(super) fn of(table: &Table<'_>, place: &str) -> Self {
        let shown = if table.rows.len() > MOST_ROWS { SHOWN_ROWS } else { table.rows.len() };
        Self::cut(table, shown, place)
    }

    /// The first `most` rows, and a note that the rest stands in `place`.
    pub(super) fn cut(table: &Table<'_>, most: usize, place: &str) -> Self {
        let decimals = table.decimals();
        let shown = table.rows.len().min(most);
        let hidden = table.rows.len() - shown;
        let is_number = |place: usize| table.rows.iter().any(|row| row[place].as_number().is_some());
        let heads: Vec<Head> = table
            .columns
            .iter()
            .enumerate()
            .map(|(place, column)| Head { title: column.title, unit: column.unit, number: is_number(place) })
            .collect();
        let rows = table.rows[..shown].iter().map(|row| {
            let columns = table.columns.iter().zip(&heads).zip(&decimals);
            row.iter()
                .zip(columns)
                .map(|(cell, ((column, head), decimals))| Shown {
                    text: text(cell, column.digits, *decimals),
                    class: class(cell, column.digits, head.number),
                })
                .collect()
        });
        let rows: Vec<Vec<Shown>> = rows.collect();
        Self {
            caption: table.caption.clone(),
            class: "",
            heads,
            rows,
            more: (hidden > 0).then(|| More { rows: hidden, place: place.to_owned() }),
        }
    }

    /// With a class of the style sheet.
    pub(super) const fn class(mut self, class: &'static str) -> Self {
        self.class = class;
        self
    }
}

fn text(cell: &Cell<'_>, digits: Digits, decimals: usize) -> String {
    match cell {
        Cell::Text(text) => text.clone().into_owned(),
        Cell::Empty => "–".into(),
        Cell::Number(value) => digits.show(*value, decimals),
    }
}

fn class(cell: &Cell<'_>, digits: Digits, in_number_column: bool) -> &'static str {
    match cell {
        Cell::Number(value) if digits == Digits::Utilisation && *value > 1.0 => "n over",
        _ if in_number_column => "n",
        _ => "",
    }
}

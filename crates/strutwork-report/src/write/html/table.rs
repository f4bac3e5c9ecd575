//! A table for readers: rounded, aligned, cut short where it would go on for pages.

use std::borrow::Cow;

use askama::Template;

use crate::table::{Cell, Digits, Table, push_entered};

/// Longer tables are cut to [`SHOWN_ROWS`] and say where the rest stands.
const MOST_ROWS: usize = 300;
/// Rows that are shown of a table that is cut short.
const SHOWN_ROWS: usize = 60;

/// A table with no more rows than this is kept on one page.
const KEPT_TOGETHER: usize = 18;

/// A table as HTML.
#[derive(Template)]
#[template(path = "table.html")]
pub(super) struct TableView {
    /// Its name on the page; empty for none.
    id: &'static str,
    caption: String,
    class: &'static str,
    heads: Vec<Head>,
    rows: Vec<Vec<Shown>>,
    more: Option<More>,
}

struct Head {
    title: Cow<'static, str>,
    unit: &'static str,
    number: bool,
}

struct Shown {
    text: String,
    class: &'static str,
    /// The place of the page that it leads to; empty for none.
    to: String,
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

    /// As [`TableView::of`]; nothing for a table without rows.
    pub(super) fn where_any(table: &Table<'_>, place: &str) -> Option<Self> {
        (!table.rows.is_empty()).then(|| Self::of(table, place))
    }

    /// The same, its rows' names leading to places of the page by the row's number.
    #[must_use]
    pub(super) fn leading(mut self, to: impl Fn(usize) -> String) -> Self {
        for (place, row) in self.rows.iter_mut().enumerate() {
            if let Some(name) = row.first_mut() {
                name.to = to(place);
            }
        }
        self
    }

    /// The first `most` rows, and a note that the rest stands in `place`. Columns in which nothing stands are left out.
    pub(super) fn cut(table: &Table<'_>, most: usize, place: &str) -> Self {
        let decimals = table.decimals();
        let shown = table.rows.len().min(most);
        let hidden = table.rows.len() - shown;
        let kept: Vec<Kept> = table
            .columns
            .iter()
            .enumerate()
            .filter(|(place, _)| table.rows.iter().any(|row| !is_empty(&row[*place])))
            .map(|(place, column)| Kept {
                place,
                digits: column.digits,
                decimals: decimals[place],
                number: table.rows.iter().any(|row| row[place].as_number().is_some()),
            })
            .collect();
        let head = |kept: &Kept| {
            let column = &table.columns[kept.place];
            Head { title: Cow::Borrowed(column.title), unit: column.unit, number: kept.number }
        };
        let row = |row: &Vec<Cell<'_>>| {
            kept.iter().enumerate().map(|(column, kept)| kept.show(&row[kept.place], column == 0)).collect()
        };
        Self {
            id: "",
            caption: table.caption.clone(),
            // A short table is kept on one page.
            class: if shown <= KEPT_TOGETHER { "short" } else { "" },
            heads: kept.iter().map(head).collect(),
            rows: table.rows[..shown].iter().map(row).collect(),
            more: (hidden > 0).then(|| More { rows: hidden, place: place.to_owned() }),
        }
    }
}

/// A column of a table whose columns only a user knows: its heading, its unit, whether it holds numbers.
pub(super) type Written = (String, &'static str, bool);

impl TableView {
    /// A table of texts that are finished; the first of each row is its head.
    pub(super) fn written(id: &'static str, caption: String, columns: Vec<Written>, rows: Vec<Vec<String>>) -> Self {
        let numbers: Vec<bool> = columns.iter().map(|column| column.2).collect();
        let shown = |(place, text): (usize, String)| {
            let class = match (numbers[place], place) {
                (true, 0) => "n",
                (true, _) | (false, 0) => "",
                (false, _) if is_short_name(&text) => "w",
                (false, _) => "t",
            };
            Shown { text, class, to: String::new() }
        };
        let rows: Vec<Vec<Shown>> =
            rows.into_iter().map(|row| row.into_iter().enumerate().map(shown).collect()).collect();
        let head = |(title, unit, number): Written| Head { title: Cow::Owned(title), unit, number };
        Self {
            id,
            caption,
            class: if rows.len() <= KEPT_TOGETHER { "short" } else { "" },
            heads: columns.into_iter().map(head).collect(),
            rows,
            more: None,
        }
    }
}

/// A column that is shown.
struct Kept {
    place: usize,
    digits: Digits,
    decimals: usize,
    number: bool,
}

impl Kept {
    /// Most cells hold numbers: in the body these are without a class, and words have one; the heads of rows the other way.
    fn show(&self, cell: &Cell<'_>, heads_row: bool) -> Shown {
        Shown {
            text: match cell {
                Cell::Text(text) => text.clone().into_owned(),
                Cell::Entered(entered) => {
                    let mut text = String::new();
                    push_entered(&mut text, entered);
                    text
                }
                Cell::Empty => "–".into(),
                Cell::Number(value) => self.digits.show(*value, self.decimals),
            },
            class: match cell {
                Cell::Number(value) if self.digits == Digits::Utilisation && *value > 1.0 => "n over",
                _ if self.number && heads_row => "n",
                _ if self.number => "",
                Cell::Text(text) if is_short_name(text) => "w",
                _ if heads_row => "",
                _ => "t",
            },
            to: String::new(),
        }
    }
}

/// A name that is better not broken at its hyphens.
fn is_short_name(text: &str) -> bool {
    text.contains('-') && text.len() <= 18 && !text.contains(char::is_whitespace)
}

fn is_empty(cell: &Cell<'_>) -> bool {
    match cell {
        Cell::Text(text) => text.is_empty(),
        Cell::Number(_) => false,
        Cell::Entered(entered) => entered.is_empty(),
        Cell::Empty => true,
    }
}

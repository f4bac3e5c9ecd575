//! One table of results: its rows by the names of its columns, every fault with its line.

use strutwork_model::{Code, Diagnostic, InputFiles, Place, Severity};

use crate::codes;
use crate::sheet::Sheet;

/// What to do about a broken table.
const AGAIN: &str = "run the model again: `strutwork run FOLDER`";

/// A table as read: header and rows of text.
pub(super) struct Table {
    file: String,
    header: Vec<String>,
    header_line: usize,
    /// Line and cells of each row, each as long as the header.
    rows: Vec<(usize, csv::StringRecord)>,
}

/// Faults met on the way. Only so many of one file are kept: a file in another encoding is wrong in every row.
#[derive(Default)]
pub(super) struct Met(pub(super) Vec<Diagnostic>);

impl Met {
    const MOST_OF_ONE_FILE: usize = 20;

    pub(super) fn error(&mut self, code: Code, file: &str, line: usize, message: String) {
        let of_file = |one: &&Diagnostic| one.place.as_ref().is_some_and(|place| place.file == file);
        if self.0.iter().filter(of_file).count() < Self::MOST_OF_ONE_FILE {
            let place = Some(Place::line(file, line));
            let help = AGAIN.to_owned();
            self.0.push(Diagnostic { code, severity: Severity::Error, place, subject: String::new(), message, help });
        }
    }

    pub(super) fn warning(&mut self, code: Code, file: &str, message: String, help: &str) {
        self.0.push(Diagnostic {
            code,
            severity: Severity::Warning,
            place: Some(Place::file(file)),
            subject: String::new(),
            message,
            help: help.to_owned(),
        });
    }
}

impl Table {
    /// Reads the file of this name; `None` where there is none, or where it is no text.
    pub(super) fn read(files: &InputFiles, file: &str, met: &mut Met) -> Option<Self> {
        let bytes = files.get(file)?;
        let Some(sheet) = Sheet::read(bytes) else {
            met.error(codes::NOT_TEXT, file, 0, format!("`{file}` is not UTF-8 text"));
            return None;
        };
        let Sheet { header, header_line, mut rows } = sheet;
        rows.retain(|(line, record)| {
            let fits = record.len() == header.len();
            if !fits {
                let message = format!("the row has {} cells, the header has {}", record.len(), header.len());
                met.error(codes::CELL_COUNT, file, *line, message);
            }
            fits
        });
        Some(Self { file: file.to_owned(), header, header_line, rows })
    }

    /// The place of a column; a fault where it is not there.
    pub(super) fn column(&self, name: &str, met: &mut Met) -> Option<usize> {
        let place = self.header.iter().position(|column| column == name);
        if place.is_none() {
            met.error(
                codes::NO_COLUMN,
                &self.file,
                self.header_line,
                format!("`{}` has no column `{name}`", self.file),
            );
        }
        place
    }

    /// The places of several columns; `None` where one is not there.
    pub(super) fn columns<const N: usize>(&self, names: [&str; N], met: &mut Met) -> Option<[usize; N]> {
        let found = names.map(|name| self.column(name, met));
        found.iter().all(Option::is_some).then(|| found.map(Option::unwrap_or_default))
    }

    /// The rows in order.
    pub(super) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|(line, cells)| Row { file: &self.file, header: &self.header, line: *line, cells })
    }
}

/// A row of a table.
#[derive(Clone, Copy)]
pub(super) struct Row<'t> {
    file: &'t str,
    header: &'t [String],
    line: usize,
    cells: &'t csv::StringRecord,
}

impl<'t> Row<'t> {
    pub(super) fn text(self, column: usize) -> &'t str {
        self.cells.get(column).unwrap_or_default()
    }

    /// The number of a cell; `None` for an empty one, and for one that is no finite number, which is a fault.
    pub(super) fn number(self, column: usize, met: &mut Met) -> Option<f64> {
        let text = self.text(column);
        if text.is_empty() {
            return None;
        }
        let number = text.trim().parse::<f64>().ok().filter(|value| value.is_finite());
        if number.is_none() {
            let name = self.header.get(column).map_or("", String::as_str);
            let shown =
                if text.chars().any(char::is_control) { text.escape_default().to_string() } else { text.to_owned() };
            met.error(
                codes::NOT_A_NUMBER,
                self.file,
                self.line,
                format!("`{shown}` in column `{name}` is not a number"),
            );
        }
        number
    }
}

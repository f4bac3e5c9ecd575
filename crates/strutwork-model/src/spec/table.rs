//! A CSV table with named columns: header checks, then rows whose cells are asked for by name.

use super::csv::{Cell, QuoteFault, Record, Records};
use super::number::{self, shown};
use super::unit_hint::other_unit;
use super::{Spot, Written};
use crate::codes;
use crate::diagnostic::Diagnostic;
use crate::nearest::did_you_mean;
use crate::reference::Table;

/// A row: its cells by the names of the columns.
pub(super) struct Row<'r, 't> {
    /// For each of the table's columns, its place in the file's rows.
    columns: &'r [(&'static str, Option<usize>)],
    cells: &'r [Cell<'t>],
    whole: Spot,
    faults: &'r mut Vec<Diagnostic>,
}

impl Table {
    /// Reads the table, calling `each` for every row that has cells.
    pub(super) fn read<T>(
        &self,
        text: &str,
        faults: &mut Vec<Diagnostic>,
        mut each: impl FnMut(&mut Row<'_, '_>) -> T,
    ) -> Vec<T> {
        let mut records = Records::new(self.file, text);
        let Some(header) = records.next() else {
            faults.push(self.empty("the file is empty"));
            return Vec::new();
        };
        let Some(columns) = self.header(&header, faults) else { return Vec::new() };
        let width = header.cells.len();
        let mut unnamed: Vec<usize> = (0..width).filter(|&place| header.cells[place].text.is_empty()).collect();
        let mut rows = Vec::new();
        let mut any = false;
        for record in records {
            any = true;
            if let Some(fault) = record.fault {
                faults.push(quote_fault(fault));
            } else if record.cells.iter().any(|cell| !cell.text.is_empty()) {
                let whole = Spot::line(self.file, record.line);
                let surplus = record.cells.iter().skip(width).any(|cell| !cell.text.is_empty());
                if record.cells.len() < width || surplus {
                    faults.push(cell_count(whole, width, &record));
                } else {
                    unnamed.retain(|&place| {
                        let empty = record.cells[place].text.is_empty();
                        if !empty {
                            faults.push(unnamed_column(&record.cells[place]));
                        }
                        empty
                    });
                }
                rows.push(each(&mut Row { columns: &columns, cells: &record.cells, whole, faults }));
            }
        }
        if !any {
            faults.push(self.empty("the file has a header and no rows"));
        }
        rows
    }

    fn empty(&self, message: &str) -> Diagnostic {
        let spot = Some(Spot::file(self.file));
        if self.needed {
            let help = format!("write the header `{}` and a row for each", self.header_needed());
            Diagnostic::error(codes::EMPTY_TABLE, spot, self.file, message, help)
        } else {
            let help = "fill it in, or take it out of the folder";
            Diagnostic::error(codes::EMPTY_TABLE, spot, self.file, message, help).into_warning()
        }
    }

    fn header_needed(&self) -> String {
        self.required().collect::<Vec<_>>().join(",")
    }

    /// Where each column stands; `None` where the rows cannot be read.
    fn header(&self, header: &Record<'_>, faults: &mut Vec<Diagnostic>) -> Option<Vec<(&'static str, Option<usize>)>> {
        let whole = Spot::line(self.file, header.line);
        if let Some(fault) = header.fault {
            faults.push(quote_fault(fault));
            return None;
        }
        if let [cell] = header.cells.as_slice()
            && let Some((sign, name)) =
                [(';', "semicolons"), ('\t', "tabs")].into_iter().find(|&(s, _)| cell.text.contains(s))
        {
            let message = format!("the cells are parted by {name}, not by commas");
            let help = format!(
                "save with commas between cells and points in numbers (a spreadsheet set to a language with decimal commas writes `{}`)",
                if sign == ';' { ";" } else { "tabs" }
            );
            faults.push(Diagnostic::error(codes::SEPARATOR, Some(whole), self.file, message, help));
            return None;
        }
        let mut columns: Vec<(&'static str, Option<usize>)> = self.names().map(|name| (name, None)).collect();
        let free: Vec<&'static str> =
            self.names().filter(|&known| header.cells.iter().all(|cell| cell.text.as_ref() != known)).collect();
        for (place, cell) in header.cells.iter().enumerate() {
            let name = cell.text.as_ref();
            match columns.iter_mut().find(|(known, _)| *known == name) {
                Some((_, at @ None)) => *at = Some(place),
                Some(_) => faults.push(Diagnostic::error(
                    codes::DUPLICATE_COLUMN,
                    Some(cell.spot),
                    name,
                    format!("the column `{name}` stands twice"),
                    "keep one of them",
                )),
                // Spreadsheets write commas for columns that were once used: without a name and, mostly, without cells.
                None if name.is_empty() => {}
                None => faults.push(self.unknown_column(cell, &free)),
            }
        }
        let before = faults.len();
        for name in self.required() {
            let other_unit_given = header.cells.iter().any(|cell| {
                other_unit(&cell.text, &[name]).is_some() && !self.names().any(|known| known == cell.text.as_ref())
            });
            if columns.iter().any(|&(known, at)| known == name && at.is_none()) && !other_unit_given {
                faults.push(Diagnostic::error(
                    codes::MISSING_COLUMN,
                    Some(whole),
                    name,
                    format!("the column `{name}` is not there"),
                    format!("a header with every column needed: `{}`", self.header_needed()),
                ));
            }
        }
        let complete = self.columns.iter().zip(&columns).all(|(column, (_, at))| at.is_some() || !column.required);
        (complete && faults.len() == before).then_some(columns)
    }

    fn unknown_column(&self, cell: &Cell<'_>, free: &[&'static str]) -> Diagnostic {
        let name = shown(&cell.text);
        if let Some(hint) = other_unit(&cell.text, free) {
            return Diagnostic::error(
                codes::WRONG_UNIT,
                Some(cell.spot),
                &name,
                format!("the column `{name}` is in another unit: `{}` in {} is wanted", hint.wanted, hint.unit),
                format!("{}, under the name `{}`", hint.how, hint.wanted),
            );
        }
        let help = did_you_mean(&cell.text, free.iter().copied())
            .or_else(|| did_you_mean(&cell.text, self.names()))
            .unwrap_or_else(|| {
                format!("the columns are {}; put remarks into `#` lines", self.names().collect::<Vec<_>>().join(", "))
            });
        let message = format!("the column `{name}` is not one of `{}`", self.file);
        Diagnostic::error(codes::UNKNOWN_COLUMN, Some(cell.spot), &name, message, help)
    }
}

impl Row<'_, '_> {
    /// The cell, empty where the column or the cell is not there.
    fn cell(&self, column: &str) -> (&str, Spot) {
        let place = self.columns.iter().find(|(name, _)| *name == column).and_then(|&(_, place)| place);
        match place.and_then(|place| self.cells.get(place)) {
            Some(cell) => (cell.text.as_ref(), cell.spot),
            None => ("", self.whole),
        }
    }

    /// The text of a cell; empty where it is blank or not there.
    pub(super) fn text(&self, column: &str) -> Written<String> {
        let (text, spot) = self.cell(column);
        Written::at(text.to_owned(), spot)
    }

    /// The number in a cell, NaN and a fault where there is none.
    pub(super) fn number(&mut self, column: &str) -> Written<f64> {
        self.optional_number(column).unwrap_or_else(|| {
            let spot = self.cell(column).1;
            if spot == self.whole {
                // The row is too short, which is said already.
                return Written::at(f64::NAN, spot);
            }
            self.faults.push(Diagnostic::error(
                codes::BLANK_CELL,
                Some(spot),
                column,
                format!("the cell of `{column}` is empty"),
                "write a number; 0 where nothing acts",
            ));
            Written::at(f64::NAN, spot)
        })
    }

    /// The number in a cell, `default` where it is blank, NaN and a fault where it is something else.
    pub(super) fn number_or(&mut self, column: &str, default: f64) -> Written<f64> {
        self.optional_number(column).unwrap_or_else(|| Written::at(default, self.cell(column).1))
    }

    /// The number in a cell, `None` where it is blank, NaN and a fault where it is something else.
    pub(super) fn optional_number(&mut self, column: &str) -> Option<Written<f64>> {
        let (text, spot) = self.cell(column);
        if text.is_empty() {
            return None;
        }
        let value = number::parse(text).unwrap_or_else(|fault| {
            self.faults.push(Diagnostic::error(fault.code, Some(spot), column, fault.message, fault.help));
            f64::NAN
        });
        Some(Written::at(value, spot))
    }

    /// The words of a cell that blanks part, each with its place.
    pub(super) fn words(&self, column: &str) -> Vec<Written<String>> {
        let (text, spot) = self.cell(column);
        let mut words = Vec::new();
        let mut column = spot.column;
        let quoted = u32::try_from(text.chars().count()).unwrap_or(u32::MAX) != spot.width;
        for part in text.split(' ') {
            let width = u32::try_from(part.chars().count()).unwrap_or(u32::MAX);
            if !part.is_empty() {
                // In a quoted cell the columns do not count one to one: show the cell.
                let at = if quoted || spot.column == 0 { spot } else { Spot { column, width, ..spot } };
                words.push(Written::at(part.to_owned(), at));
            }
            column = column.saturating_add(width + 1);
        }
        words
    }

    /// Adds a fault about a cell.
    pub(super) fn fault(
        &mut self,
        code: crate::Code,
        spot: Option<Spot>,
        subject: &str,
        message: String,
        help: String,
    ) {
        self.faults.push(Diagnostic::error(code, spot, subject, message, help));
    }
}

fn quote_fault(fault: QuoteFault) -> Diagnostic {
    let (spot, message, help) = match fault {
        QuoteFault::NotClosed(spot) => {
            (spot, "this quote is not closed", "close it, or leave it out: only a cell with a comma in it needs quotes")
        }
        QuoteFault::TextAfter(spot) => (
            spot,
            "text follows the closing quote of this cell",
            "put the whole cell in quotes and write a quote inside it twice",
        ),
    };
    Diagnostic::error(codes::QUOTES, Some(spot), "", message, help)
}

fn unnamed_column(cell: &Cell<'_>) -> Diagnostic {
    let message = format!("`{}` stands in a column without a name: nothing reads it", shown(&cell.text));
    let help = "give the column a name (`note` for remarks), or empty its cells";
    Diagnostic::error(codes::UNNAMED_COLUMN, Some(cell.spot), "", message, help)
}

fn cell_count(whole: Spot, width: usize, record: &Record<'_>) -> Diagnostic {
    let found = record.cells.len();
    let help = if found > width {
        "a decimal comma or a comma in a text parts one cell into two: write a point, or put the text in quotes"
    } else {
        "write a comma for every column of the header, also where the cell stays empty"
    };
    let message = format!("the row has {found} cells, the header has {width} columns");
    Diagnostic::error(codes::CELL_COUNT, Some(whole), "", message, help)
}

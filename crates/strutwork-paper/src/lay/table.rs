//! Tables: columns as wide as their content asks, rows as pieces, a head that stands again on each page.

use super::columns::{squeezed, widths};
use super::flowing::base;
use super::{Layer, Space, Strip};
use crate::error::PaperError;
use crate::piece::{Bond, Meaning, Op, Part, Piece};
use crate::table::{Align, Column, Row, RowKind, Table};
use crate::text::Text;
use crate::theme::{self, Setting};
use crate::words::{Line, Set, Shaper, Want};

/// From the edge of a column to its letters.
const PADDING: f64 = 4.0;
/// Above and below the letters of a row.
const LEAD: f64 = 1.2;
/// A row with more lines than this is cut, so that it always fits a page.
const CUT: usize = 30;

/// Where the columns stand, and how their letters are set.
struct Grid<'t> {
    columns: &'t [Column],
    /// Left edges, and the right edge of the last.
    edges: Vec<f64>,
    setting: Setting,
    period: usize,
}

impl<'a> Layer<'a> {
    pub(super) fn table(&mut self, table: &Table, strip: Strip) -> Result<(), PaperError> {
        let columns = table.columns.len();
        if let Some((row, wrong)) = table.rows.iter().enumerate().find(|(_, row)| row.cells.len() != columns) {
            let caption = table.caption.letters();
            return Err(PaperError::Cells { caption, row: row + 1, cells: wrong.cells.len(), columns });
        }
        if columns == 0 {
            return Ok(());
        }
        let folded = self.folded(table, strip.width);
        let table = folded.as_ref().unwrap_or(table);
        let grid = grid(&mut self.shaper, table, strip);
        let node = self.node(Meaning::Table);
        let outside = std::mem::replace(&mut self.parent, node);
        let above = self.above(theme::WIDE_GAP);
        self.caption(&table.caption, strip, above);
        let heads = self.node(Meaning::TableHead);
        let row = self.node_in(heads, Meaning::Row);
        let head = self.head(&grid, Some(row));
        let mut again = self.continued(&table.caption, strip);
        again.push(self.head(&grid, None));
        let before = if table.caption.is_empty() { above } else { 0.0 };
        self.push(Piece { before, ..head });
        self.bind_last();
        let place = self.heads.len();
        self.heads.push(again);
        let body = self.node(Meaning::TableBody);
        let count = table.rows.len();
        for (at, row) in table.rows.iter().enumerate() {
            let node = self.node_in(body, Meaning::Row);
            // The first two rows and the last two stand together: no row is alone on a page.
            let firm = count > 1 && (at == 0 || at + 2 == count);
            self.row(&grid, row, (node, table.names_rows), place, firm);
        }
        if let Some(last) = self.pieces.last_mut() {
            let (from, to) = ((grid.left(), last.height), (grid.right(), last.height));
            last.parts.push(Part::mute(vec![Op::Rule { from, to, width: 0.9, colour: theme::PLAIN }]));
            last.bond = Bond::Free;
        }
        self.parent = outside;
        self.space = Space::AtLeast(theme::WIDE_GAP);
        Ok(())
    }

    fn caption(&mut self, caption: &Text, strip: Strip, above: f64) {
        if caption.is_empty() {
            return;
        }
        let node = self.node(Meaning::Caption);
        let lines = self.shaper.lines(caption, Set::bold(theme::SMALL), strip.width);
        let start = self.pieces.len();
        self.lines(lines, strip.left, theme::SMALL, above, node);
        for piece in &mut self.pieces[start..] {
            piece.bond = Bond::Firm;
        }
        if let Some(last) = self.pieces.last_mut() {
            last.height += 2.5;
        }
    }

    /// What stands above the head on the pages that follow: the caption's first line and that it goes on.
    fn continued(&mut self, caption: &Text, strip: Strip) -> Vec<Piece<'a>> {
        if caption.is_empty() {
            return Vec::new();
        }
        let tail = self.shaper.line(&Text::from("… continued"), Set::soft(theme::SMALL));
        let gap = 4.0;
        let mut lines = self.shaper.lines(caption, Set::bold(theme::SMALL), strip.width - tail.width - gap);
        lines.truncate(1);
        let line = lines.pop().unwrap_or_default();
        let (y, x) = (base(theme::SMALL), strip.left + line.width + gap);
        let ops = vec![Op::Words { x: strip.left, y, line }, Op::Words { x, y, line: tail }];
        vec![Piece { height: theme::SMALL.leading + 2.5, parts: vec![Part::mute(ops)], ..Piece::default() }]
    }

    /// The head of the table; without a node it means nothing, for it was read before.
    fn head(&mut self, grid: &Grid<'_>, row: Option<usize>) -> Piece<'a> {
        let set = Set::bold(grid.setting);
        let cells: Vec<Vec<Line>> = grid
            .columns
            .iter()
            .enumerate()
            .map(|(at, column)| {
                let mut lines = self.shaper.lines(&column.head, set, grid.room(at));
                if !column.unit.is_empty() {
                    if let Some(last) = lines.last_mut() {
                        self.shaper.part_from_next(last);
                    }
                    let unit = Text::from(column.unit.as_str());
                    lines.extend(self.shaper.lines(&unit, Set::soft(grid.setting), grid.room(at)));
                }
                lines.truncate(CUT);
                lines
            })
            .collect();
        let tallest = cells.iter().map(Vec::len).max().unwrap_or(1);
        let height = tallest as f64 * grid.setting.leading + 2.0 * LEAD + 1.0;
        let (left, right) = (grid.left(), grid.right());
        let rule = |y: f64| Op::Rule { from: (left, y), to: (right, y), width: 0.9, colour: theme::PLAIN };
        let ground = Op::Ground { x: left, y: 0.0, width: right - left, height, colour: theme::TINT };
        let mut parts = vec![Part::mute(vec![ground, rule(0.0), rule(height)])];
        for (at, lines) in cells.into_iter().enumerate() {
            // Heads stand on the lower line.
            let top = LEAD + 0.5 + (tallest - lines.len()) as f64 * grid.setting.leading;
            let ops = grid.words(at, lines, top);
            let node = row.map(|row| self.node_in(row, Meaning::HeadCell { of_column: true }));
            parts.push(Part { node, ops });
        }
        Piece { height, bond: Bond::Firm, parts, ..Piece::default() }
    }

    fn row(&mut self, grid: &Grid<'_>, row: &Row, (node, named): (usize, bool), head: usize, firm: bool) {
        let sum = row.kind == RowKind::Sum;
        let cells: Vec<(usize, Vec<Line>)> = row
            .cells
            .iter()
            .enumerate()
            .map(|(at, cell)| {
                let name = named && grid.names(at) && !cell.is_empty();
                let set = if name || sum { Set::bold(grid.setting) } else { Set::plain(grid.setting) };
                let meaning = if name { Meaning::HeadCell { of_column: false } } else { Meaning::Cell };
                (self.node_in(node, meaning), self.shaper.lines(cell, set, grid.room(at)))
            })
            .collect();
        let tallest = cells.iter().map(|cell| cell.1.len()).max().unwrap_or(1);
        let cuts = tallest.div_ceil(CUT);
        let (left, right) = (grid.left(), grid.right());
        for cut in 0..cuts {
            let shown = (tallest - cut * CUT).min(CUT);
            let height = shown as f64 * grid.setting.leading + 2.0 * LEAD;
            let mut parts = Vec::with_capacity(cells.len() + 1);
            let (width, colour) = if sum { (0.9, theme::PLAIN) } else { (0.4, theme::RULE) };
            let rule = Op::Rule { from: (left, 0.0), to: (right, 0.0), width, colour };
            if cut == 0 {
                parts.push(Part::mute(vec![rule]));
            }
            for (at, (node, lines)) in cells.iter().enumerate() {
                let shown: Vec<Line> = lines.iter().skip(cut * CUT).take(CUT).cloned().collect();
                if !shown.is_empty() {
                    parts.push(Part::of(*node, grid.words(at, shown, LEAD)));
                }
            }
            let bond = if firm && cut + 1 == cuts { Bond::Firm } else { Bond::Free };
            self.push(Piece { height, bond, head: Some(head), parts, ..Piece::default() });
        }
    }
}

impl Grid<'_> {
    fn left(&self) -> f64 {
        self.edges.first().copied().unwrap_or(0.0)
    }

    fn right(&self) -> f64 {
        self.edges.last().copied().unwrap_or(0.0)
    }

    /// Whether a column names its row.
    fn names(&self, column: usize) -> bool {
        names(self.period, column)
    }

    /// Width of the letters in a column.
    fn room(&self, column: usize) -> f64 {
        self.edges[column + 1] - self.edges[column] - 2.0 * PADDING
    }

    fn words<'a>(&self, column: usize, lines: Vec<Line>, top: f64) -> Vec<Op<'a>> {
        let (left, room) = (self.edges[column] + PADDING, self.room(column));
        let place = |(at, line): (usize, Line)| {
            let spare = room - line.width;
            let x = match self.columns[column].align {
                Align::Left => left,
                Align::Right => left + spare,
                Align::Centre => left + spare / 2.0,
            };
            Op::Words { x, y: top + at as f64 * self.setting.leading + base(self.setting), line }
        };
        lines.into_iter().enumerate().map(place).collect()
    }
}

/// The largest setting in which the words of the table fit the strip; in the smallest, long words are divided.
fn grid<'t>(shaper: &mut Shaper, table: &'t Table, strip: Strip) -> Grid<'t> {
    let room = strip.width;
    let mut wanted = wants(shaper, table, theme::TABLES[0]);
    let mut found = None;
    for setting in theme::TABLES.into_iter().skip(if table.fine { 2 } else { 0 }) {
        // Letters scale, so what is wanted does: all but the padding.
        let scale = setting.size / theme::TABLES[0].size;
        let scaled = |width: f64| width * scale + 2.0 * PADDING;
        let wants: Vec<Want> =
            wanted.iter().map(|want| Want { line: scaled(want.line), word: scaled(want.word) }).collect();
        found = widths(&wants, room).map(|widths| (setting, widths));
        if found.is_some() {
            break;
        }
        if setting == theme::TABLES[theme::TABLES.len() - 1] {
            wanted = wants;
        }
    }
    let smallest = theme::TABLES[theme::TABLES.len() - 1];
    let (setting, widths) = found.unwrap_or_else(|| (smallest, squeezed(&wanted, room)));
    let mut edges = vec![strip.left];
    for width in widths {
        // Rounding of the scale must not break a word that fits.
        edges.push(edges[edges.len() - 1] + width + 1e-6);
    }
    Grid { columns: &table.columns, edges, setting, period: table.period }
}

/// Whether a column names its row, or its part of one.
const fn names(period: usize, column: usize) -> bool {
    column == 0 || (period > 0 && column.is_multiple_of(period))
}

/// What each column of a table wants in the letters that it is set in where there is room, padding included.
pub(super) fn wanted(shaper: &mut Shaper, table: &Table) -> Vec<Want> {
    let setting = theme::TABLES[if table.fine { 2 } else { 0 }];
    let padded = |want: Want| Want { line: want.line + 2.0 * PADDING, word: want.word + 2.0 * PADDING };
    wants(shaper, table, setting).into_iter().map(padded).collect()
}

/// What each column wants, without padding.
fn wants(shaper: &mut Shaper, table: &Table, setting: Setting) -> Vec<Want> {
    let mut wants: Vec<Want> = Vec::with_capacity(table.columns.len());
    for (at, column) in table.columns.iter().enumerate() {
        let head = shaper.want(&column.head, Set::bold(setting));
        let unit = shaper.want(&Text::from(column.unit.as_str()), Set::soft(setting));
        let mut want = Want::default();
        for row in &table.rows {
            let bold = row.kind == RowKind::Sum || (table.names_rows && names(table.period, at));
            let set = if bold { Set::bold(setting) } else { Set::plain(setting) };
            let cell = shaper.want(&row.cells[at], set);
            want = Want { line: want.line.max(cell.line), word: want.word.max(cell.word) };
        }
        // A head may take a few lines of a short column; its words stay whole.
        let head_line = head.line.min(72.0).max(head.word);
        let word = want.word.max(head.word).max(unit.word);
        wants.push(Want { line: want.line.max(head_line).max(unit.line), word });
    }
    wants
}

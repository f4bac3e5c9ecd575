//! Small tables that follow each other, side by side where they fit; a long narrow table folded into columns.

use super::beside::GUTTER;
use super::table::wanted;
use super::{Layer, Strip};
use crate::block::Block;
use crate::error::PaperError;
use crate::table::{Column, Row, RowKind, Table};
use crate::text::Text;

/// A table with more rows is not set beside another, and is folded where it is narrow.
const SHORT: usize = 20;
/// A table is folded at most into so many columns.
const FOLDS: usize = 3;
/// Caption of a narrow table: it may wrap, but not into a column of single words.
const LEAST: f64 = 130.0;

impl<'a> Layer<'a> {
    /// Blocks one below the other, but for small tables.
    pub(super) fn blocks(&mut self, blocks: &'a [Block], strip: Strip) -> Result<(), PaperError> {
        let mut at = 0;
        while at < blocks.len() {
            let widths = self.that_fit(&blocks[at..], strip.width);
            if widths.len() < 2 {
                self.block(&blocks[at], strip)?;
                at += 1;
                continue;
            }
            let spare = strip.width - widths.iter().sum::<f64>() - GUTTER * (widths.len() - 1) as f64;
            // What is left goes to captions, as far as they can use it.
            let each = (spare / widths.len() as f64).clamp(0.0, 60.0);
            let mut left = strip.left;
            let columns = widths.iter().enumerate().map(|(place, width)| {
                let own = Strip { left, width: width + each };
                left += own.width + GUTTER;
                (&blocks[at + place..=at + place], own)
            });
            let columns: Vec<(&'a [Block], Strip)> = columns.collect();
            self.side_by_side(&columns)?;
            at += widths.len();
        }
        Ok(())
    }

    /// Widths of the small tables that the blocks begin with, as many as fit beside each other.
    fn that_fit(&mut self, blocks: &[Block], room: f64) -> Vec<f64> {
        let mut widths: Vec<f64> = Vec::new();
        let mut taken = 0.0;
        for block in blocks {
            let Some(table) = small(block) else { break };
            let width = self.natural(table).max(LEAST);
            let gutter = if widths.is_empty() { 0.0 } else { GUTTER };
            if taken + gutter + width > room {
                break;
            }
            taken += gutter + width;
            widths.push(width);
        }
        widths
    }

    /// Width of a table in which no cell is broken.
    fn natural(&mut self, table: &Table) -> f64 {
        wanted(&mut self.shaper, table).iter().map(|want| want.line).sum()
    }

    /// The table folded into as many columns as fit; `None` where it is short or wide.
    pub(super) fn folded(&mut self, table: &Table, room: f64) -> Option<Table> {
        // A sum stands below what it is the sum of.
        let summed = table.rows.iter().any(|row| row.kind == RowKind::Sum);
        if table.rows.len() <= SHORT || summed {
            return None;
        }
        let width = self.natural(table);
        let folds = ((room + GUTTER) / (width + GUTTER)).floor();
        let folds = if folds >= 2.0 { (folds as usize).min(FOLDS) } else { return None };
        let own = table.columns.len();
        let mut whole = Table { columns: Vec::new(), rows: Vec::new(), period: own + 1, ..table.clone() };
        for fold in 0..folds {
            if fold > 0 {
                whole.columns.push(Column::text(""));
            }
            whole.columns.extend(table.columns.iter().cloned());
        }
        for rows in table.rows.chunks(folds) {
            let mut cells: Vec<Text> = Vec::with_capacity(whole.columns.len());
            for fold in 0..folds {
                if fold > 0 {
                    cells.push(Text::new());
                }
                match rows.get(fold) {
                    Some(row) => cells.extend(row.cells.iter().cloned()),
                    None => cells.extend(std::iter::repeat_n(Text::new(), own)),
                }
            }
            whole.rows.push(Row { cells, kind: RowKind::Plain });
        }
        Some(whole)
    }
}

/// A table of few rows that stands by itself.
fn small(block: &Block) -> Option<&Table> {
    match block {
        Block::Table(table) if table.rows.len() <= SHORT && !table.rows.is_empty() && table.is_whole() => Some(table),
        Block::Together(inside) => match inside.as_slice() {
            [one] => small(one),
            _ => None,
        },
        _ => None,
    }
}

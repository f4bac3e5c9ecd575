//! Columns side by side: one piece that no page break divides.

use super::{Layer, Space, Strip};
use crate::block::{Block, Share};
use crate::error::PaperError;
use crate::piece::Piece;
use crate::theme;

/// Between two columns.
pub(super) const GUTTER: f64 = 14.0;

impl<'a> Layer<'a> {
    pub(super) fn beside(&mut self, columns: &'a [Share], strip: Strip) -> Result<(), PaperError> {
        let room = strip.width - GUTTER * (columns.len().max(1) - 1) as f64;
        let all: f64 = columns.iter().map(|column| column.share).sum();
        let mut left = strip.left;
        let each = columns.iter().map(|column| {
            let width = room * column.share / all.max(f64::MIN_POSITIVE);
            let own = Strip { left, width };
            left += width + GUTTER;
            (column.blocks.as_slice(), own)
        });
        let each: Vec<(&'a [Block], Strip)> = each.collect();
        self.side_by_side(&each)
    }

    /// Blocks in strips beside each other.
    pub(super) fn side_by_side(&mut self, columns: &[(&'a [Block], Strip)]) -> Result<(), PaperError> {
        let before = self.above(theme::WIDE_GAP);
        let mut whole = Piece { before, ..Piece::default() };
        for (blocks, strip) in columns {
            let start = self.pieces.len();
            self.space = Space::Exactly(0.0);
            self.each(blocks, *strip)?;
            let mut y = 0.0;
            for mut piece in self.pieces.split_off(start) {
                y += piece.before;
                for op in piece.parts.iter_mut().flat_map(|part| &mut part.ops) {
                    op.lower(y);
                }
                y += piece.height;
                whole.fresh |= piece.fresh;
                whole.heading = whole.heading.or(piece.heading);
                whole.anchors.append(&mut piece.anchors);
                whole.parts.append(&mut piece.parts);
            }
            whole.height = whole.height.max(y);
        }
        self.push(whole);
        self.space = Space::AtLeast(theme::WIDE_GAP);
        Ok(())
    }
}

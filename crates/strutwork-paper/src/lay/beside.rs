//! Columns side by side: one piece that no page break divides.

use super::{Layer, Space, Strip};
use crate::block::Block;
use crate::error::PaperError;
use crate::piece::Piece;
use crate::theme;

/// Between two columns.
const GUTTER: f64 = 14.0;

impl<'a> Layer<'a> {
    pub(super) fn beside(&mut self, columns: &'a [Vec<Block>], strip: Strip) -> Result<(), PaperError> {
        let count = columns.len().max(1) as f64;
        let width = (strip.width - GUTTER * (count - 1.0)) / count;
        let before = self.above(theme::WIDE_GAP);
        let mut whole = Piece { before, ..Piece::default() };
        for (at, column) in columns.iter().enumerate() {
            let start = self.pieces.len();
            self.space = Space::Exactly(0.0);
            self.blocks(column, Strip { left: strip.left + at as f64 * (width + GUTTER), width })?;
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

//! What stands on one page: set a little smaller where that is what it takes.

use super::{Layer, Strip};
use crate::block::Block;
use crate::error::PaperError;
use crate::piece::{Bond, Piece};

/// Sizes that are tried, the largest first; where none is small enough, the page breaks as others do.
const SIZES: [f64; 6] = [1.0, 0.95, 0.9, 0.86, 0.82, 0.79];

impl<'a> Layer<'a> {
    pub(super) fn one_page(&mut self, blocks: &'a [Block], strip: Strip) -> Result<(), PaperError> {
        // A heading above it stands on the same page.
        let held = |piece: &&Piece<'_>| piece.bond == Bond::Firm;
        let above: f64 = self.pieces.iter().rev().take_while(held).map(|piece| piece.before + piece.height).sum();
        let room = if self.fresh { self.height } else { self.height - above };
        let start = self.pieces.len();
        let before = self.place();
        for size in SIZES {
            let wider = Strip { left: strip.left / size, width: strip.width / size };
            self.blocks(blocks, wider)?;
            let own = &self.pieces[start..];
            let first = own.first().map_or(0.0, |piece| if above > 0.0 { 0.0 } else { piece.before });
            let tall = own.iter().map(|piece| piece.before + piece.height).sum::<f64>() - first;
            if tall * size <= room {
                let end = self.pieces.len();
                for (at, piece) in self.pieces[start..].iter_mut().enumerate() {
                    piece.scale(size);
                    if start + at + 1 < end {
                        piece.bond = piece.bond.max(Bond::Wished);
                    }
                }
                return Ok(());
            }
            self.back_to(&before, start);
        }
        self.blocks(blocks, strip)
    }
}

//! Boxes that stand off the text.

use super::{Layer, Space, Strip};
use crate::block::Note;
use crate::error::PaperError;
use crate::piece::{Meaning, Op, Part};
use crate::text::Ink;
use crate::theme;
use crate::words::Set;

/// From the edge of the box to what is in it.
const PADDING: f64 = 6.0;

impl<'a> Layer<'a> {
    pub(super) fn note(&mut self, note: &'a Note, strip: Strip) -> Result<(), PaperError> {
        let gap = self.above(theme::GAP + 2.0);
        let start = self.pieces.len();
        let node = self.node(Meaning::Group);
        let outside = std::mem::replace(&mut self.parent, node);
        let inner = Strip { left: strip.left + 12.0, width: (strip.width - 12.0 - PADDING).max(0.0) };
        if !note.label.is_empty() {
            let ink = if note.warns { Ink::Red } else { Ink::Blue };
            let label = self.node(Meaning::Paragraph);
            self.words(&note.label, Set { setting: theme::BODY, bold: true, ink }, inner, 0.0, label);
            self.bind_last();
            self.space = Space::Exactly(2.0);
        }
        self.blocks(&note.blocks, inner)?;
        self.parent = outside;
        let last = self.pieces.len();
        for (at, piece) in self.pieces[start..].iter_mut().enumerate() {
            // The space between pieces belongs to the box, so that its ground has no gaps.
            let first = at == 0;
            let top = if first { PADDING } else { std::mem::take(&mut piece.before) };
            let bottom = if start + at + 1 == last { PADDING } else { 0.0 };
            for op in piece.parts.iter_mut().flat_map(|part| &mut part.ops) {
                op.lower(top);
            }
            piece.height += top + bottom;
            if first {
                piece.before = gap;
            }
            let (width, colour) = if note.warns { (4.5, theme::RED) } else { (2.5, theme::BLUE) };
            let (x, height) = (strip.left, piece.height);
            let ground = Op::Ground { x, y: 0.0, width: strip.width, height, colour: theme::TINT };
            let edge = Op::Ground { x, y: 0.0, width, height, colour };
            piece.parts.insert(0, Part::mute(vec![ground, edge]));
        }
        self.space = Space::AtLeast(theme::GAP + 3.0);
        Ok(())
    }
}

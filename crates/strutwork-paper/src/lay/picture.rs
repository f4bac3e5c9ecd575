//! Drawings with their captions.

use super::{Layer, Space, Strip};
use crate::block::Picture;
use crate::piece::{Bond, Meaning, Op, Part, Piece};
use crate::theme;
use crate::words::Set;

impl<'a> Layer<'a> {
    pub(super) fn picture(&mut self, picture: &'a Picture, strip: Strip) {
        let drawing = &picture.drawing;
        let share = if picture.width.is_finite() { picture.width.clamp(0.05, 1.0) } else { 1.0 };
        let caption = self.shaper.lines(&picture.caption, Set::soft(theme::SMALL), strip.width.min(theme::MEASURE));
        let below = if picture.caption.is_empty() { 0.0 } else { caption.len() as f64 * theme::SMALL.leading + 4.0 };
        // A heading and a line above it find room on the same page, a caption of a few lines always.
        let tallest = (self.height - below.min(self.height / 3.0) - 44.0).max(self.height / 3.0);
        let scale = (strip.width * share / drawing.width).min(tallest / drawing.height);
        let (width, height) = (drawing.width * scale, drawing.height * scale);
        let figure = self.node(Meaning::Figure(drawing.label.clone()));
        let above = self.above(theme::WIDE_GAP);
        let left = strip.left;
        let corners = [(left, 0.0), (left + width, 0.0), (left + width, height), (left, height), (left, 0.0)];
        let edge =
            corners.windows(2).map(|pair| Op::Rule { from: pair[0], to: pair[1], width: 0.5, colour: theme::RULE });
        self.push(Piece {
            before: above,
            height,
            bond: if picture.caption.is_empty() { Bond::Free } else { Bond::Firm },
            parts: vec![
                Part::of(figure, vec![Op::Drawing { x: left, y: 0.0, scale, drawing }]),
                Part::mute(edge.collect()),
            ],
            ..Piece::default()
        });
        if !picture.caption.is_empty() {
            let node = self.node(Meaning::Caption);
            self.lines(caption, left, theme::SMALL, 4.0, node);
        }
        self.space = Space::AtLeast(theme::WIDE_GAP);
    }
}

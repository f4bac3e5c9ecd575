//! The contents: headings with their pages, each a way to its place.

use super::flowing::base;
use super::{Layer, Space, Strip};
use crate::block::Contents;
use crate::piece::{Bond, Meaning, Op, Part, Piece};
use crate::text::Text;
use crate::theme::{self, Setting};
use crate::words::{Line, Set};

/// Room for the number of a page.
const NUMBER: f64 = 24.0;

impl Layer<'_> {
    pub(super) fn contents(&mut self, contents: Contents, strip: Strip) {
        let outer = self.node(Meaning::Contents);
        let mut gap = self.above(theme::GAP);
        let wanted: Vec<(usize, u8, String)> = self
            .headings
            .iter()
            .enumerate()
            .filter(|(_, mark)| mark.level <= contents.lowest && (mark.numbered || !contents.numbered))
            .map(|(at, mark)| (at, mark.level, mark.line.clone()))
            .collect();
        let last = wanted.len().saturating_sub(1);
        for (place, (heading, level, line)) in wanted.into_iter().enumerate() {
            let setting = if level == 1 { theme::BODY } else { theme::SMALL };
            let set = if level == 1 { Set::bold(setting) } else { Set::plain(setting) };
            let indent = f64::from(level - 1) * 14.0;
            let inner = Strip { left: strip.left + indent, width: strip.width - indent - NUMBER };
            let lines = self.shaper.lines(&Text::from(line), set, inner.width);
            let entry = self.node_in(outer, Meaning::Entry);
            let link = self.node_in(entry, Meaning::Link);
            let before = if place == 0 {
                std::mem::take(&mut gap)
            } else if level == 1 {
                4.0
            } else {
                0.5
            };
            // The first two and the last two stand together.
            let firm = last > 0 && (place == 0 || place + 1 == last);
            self.entry(lines, inner, setting, Target { heading, link, before, firm });
        }
        self.space = Space::AtLeast(theme::WIDE_GAP);
    }

    fn entry(&mut self, lines: Vec<Line>, strip: Strip, setting: Setting, target: Target) {
        let Target { heading, link, before, firm } = target;
        let count = lines.len();
        for (at, mut line) in lines.into_iter().enumerate() {
            self.shaper.part_from_next(&mut line);
            let (x, y, right) = (strip.left, base(setting), strip.left + strip.width + NUMBER);
            let filled = line.width;
            let mut ops = vec![Op::Words { x, y, line }];
            let mut dots = Vec::new();
            if at + 1 == count {
                dots = self.leader(x + filled + 4.0, strip.left + strip.width, y, setting);
                ops.push(Op::PageOf { right, y, heading });
            }
            ops.push(Op::Link { x, y: 0.0, width: right - x, height: setting.leading, heading });
            self.push(Piece {
                before: if at == 0 { before } else { 0.0 },
                height: setting.leading,
                bond: if at + 1 < count || firm { Bond::Firm } else { Bond::Free },
                parts: vec![Part::of(link, ops), Part::mute(dots)],
                ..Piece::default()
            });
        }
    }

    /// Dots from here to there, each below the one above it.
    fn leader<'a>(&mut self, from: f64, to: f64, y: f64, setting: Setting) -> Vec<Op<'a>> {
        const STEP: f64 = 5.0;
        let first = (from / STEP).ceil() as usize;
        let count = ((to / STEP).floor() as usize).saturating_sub(first);
        let mut line = self.shaper.line(&Text::from(".".repeat(count)), Set::soft(setting));
        for run in &mut line.runs {
            for glyph in &mut run.glyphs {
                glyph.advance = STEP / run.size;
            }
        }
        vec![Op::Words { x: first as f64 * STEP, y, line }]
    }
}

/// Where a line of the contents leads, and how it stands.
struct Target {
    heading: usize,
    link: usize,
    before: f64,
    firm: bool,
}

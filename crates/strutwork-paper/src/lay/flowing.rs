//! Text that flows: titles, headings, paragraphs, lists, and what is kept together.

use super::{Layer, Space, Strip, level};
use crate::block::{Block, Heading, List, TitleBlock};
use crate::error::PaperError;
use crate::piece::{Bond, Meaning, Op, Part, Piece};
use crate::text::{Ink, Style, Text};
use crate::theme::{self, Setting};
use crate::words::{Line, Set};

/// From the base line of letters to the lower edge of their line, as a share of the size.
const DESCENT: f64 = 0.27;

/// Where in a line of this setting the base line lies.
pub(super) fn base(setting: Setting) -> f64 {
    setting.leading - (setting.leading - setting.size) / 2.0 - setting.size * DESCENT * 0.9
}

impl<'a> Layer<'a> {
    /// Lines as pieces of one meaning, the first two and the last two of them held together.
    pub(super) fn lines(&mut self, lines: Vec<Line>, left: f64, setting: Setting, above: f64, node: usize) {
        let count = lines.len();
        for (at, line) in lines.into_iter().enumerate() {
            let firm = count > 1 && (at == 0 || at + 2 == count);
            self.push(Piece {
                before: if at == 0 { above } else { 0.0 },
                height: setting.leading,
                bond: if firm { Bond::Firm } else { Bond::Free },
                parts: vec![Part::of(node, vec![Op::Words { x: left, y: base(setting), line }])],
                ..Piece::default()
            });
        }
    }

    /// Holds the last piece to the next.
    pub(super) fn bind_last(&mut self) {
        if let Some(last) = self.pieces.last_mut() {
            last.bond = Bond::Firm;
        }
    }

    pub(super) fn title(&mut self, title: &'a TitleBlock, strip: Strip) {
        if !title.kind.is_empty() {
            let kind = Text::from(title.kind.to_uppercase());
            let set = Set { setting: theme::KIND, bold: true, ink: Ink::Blue };
            let (lines, above) = (self.shaper.lines(&kind, set, strip.width), self.above(0.0));
            let node = self.node(Meaning::Paragraph);
            self.lines(lines, strip.left, theme::KIND, above, node);
            self.bind_last();
        }
        let lines = self.shaper.lines(&title.title, Set::bold(theme::TITLE), strip.width);
        let (node, above) = (self.node(Meaning::Title), self.above(2.0));
        self.lines(lines, strip.left, theme::TITLE, above, node);
        self.bind_last();
        if !title.subtitle.is_empty() {
            let lines = self.shaper.lines(&title.subtitle, Set::soft(theme::SUBTITLE), strip.width);
            let node = self.node(Meaning::Paragraph);
            self.lines(lines, strip.left, theme::SUBTITLE, 3.0, node);
            self.bind_last();
        }
        self.space = Space::Exactly(10.0);
        self.facts(&title.facts, strip);
        self.space = Space::AtLeast(theme::WIDE_GAP);
    }

    pub(super) fn heading(&mut self, heading: &'a Heading, strip: Strip) {
        let level = level(heading);
        let place = usize::from(level - 1);
        let setting = theme::HEADINGS[place];
        let above = match self.space {
            // Below another heading: nearer than below text.
            Space::Exactly(space) => space.max(theme::ABOVE[place] * 0.5),
            Space::AtLeast(space) => theme::ABOVE[place].max(space),
            Space::Free => theme::ABOVE[place],
        };
        let number = Text::new().styled(heading.number.as_str(), Style { ink: Ink::Blue, ..Style::default() });
        let number = self.shaper.line(&number, Set::bold(setting));
        let indent = if heading.number.is_empty() { 0.0 } else { number.width + setting.size * 0.6 };
        let room = (strip.width - indent).max(strip.width / 3.0);
        let lines = self.shaper.lines(&heading.text, Set::bold(setting), room);
        let node = self.node(Meaning::Heading(level, heading.line()));
        let start = self.pieces.len();
        self.lines(lines, strip.left + indent, setting, above, node);
        if let Some(first) = self.pieces.get_mut(start) {
            first.heading = Some(self.next_heading);
            if !heading.number.is_empty()
                && let Some(part) = first.parts.first_mut()
            {
                part.ops.insert(0, Op::Words { x: strip.left, y: base(setting), line: number });
            }
        }
        self.next_heading += 1;
        for piece in &mut self.pieces[start..] {
            piece.bond = Bond::Firm;
        }
        let mut below = theme::BELOW[place];
        if level == 1
            && let Some(last) = self.pieces.last_mut()
        {
            let y = last.height + 3.0;
            let (from, to) = ((strip.left, y), (strip.left + strip.width, y));
            last.parts.push(Part::mute(vec![Op::Rule { from, to, width: 1.3, colour: theme::PLAIN }]));
            last.height += 4.0;
            below += 2.0;
        }
        self.space = Space::Exactly(below);
    }

    pub(super) fn paragraph(&mut self, text: &'a Text, strip: Strip) {
        let node = self.node(Meaning::Paragraph);
        self.words(text, Set::plain(theme::BODY), strip, theme::GAP, node);
    }

    pub(super) fn small(&mut self, text: &'a Text, strip: Strip) {
        let node = self.node(Meaning::Paragraph);
        let lines = self.shaper.lines(text, Set::soft(theme::SMALL), strip.width);
        let above = self.above(theme::GAP - 2.0);
        self.lines(lines, strip.left, theme::SMALL, above, node);
    }

    /// A paragraph in a setting, no wider than the eye follows.
    pub(super) fn words(&mut self, text: &Text, set: Set, strip: Strip, gap: f64, node: usize) {
        let measure = theme::MEASURE * (set.setting.size / theme::BODY.size).max(1.0);
        let lines = self.shaper.lines(text, set, strip.width.min(measure));
        let above = self.above(gap);
        self.lines(lines, strip.left, set.setting, above, node);
    }

    pub(super) fn list(&mut self, list: &'a List, strip: Strip) {
        let set = Set::plain(theme::BODY);
        let outer = self.node(Meaning::List(list.numbered));
        let marks: Vec<Line> = (1..=list.items.len())
            .map(|number| if list.numbered { format!("{number}.") } else { "•".to_owned() })
            .map(|mark| self.shaper.line(&Text::from(mark), Set { ink: Ink::Blue, bold: list.numbered, ..set }))
            .collect();
        let widest = marks.iter().map(|mark| mark.width).fold(0.0, f64::max);
        let indent = 4.0 + widest + 6.0;
        let inner = Strip { left: strip.left + indent, width: (strip.width - indent).max(0.0) };
        for (at, (item, mark)) in list.items.iter().zip(marks).enumerate() {
            let row = self.node_in(outer, Meaning::Item);
            let (label, body) = (self.node_in(row, Meaning::Label), self.node_in(row, Meaning::Body));
            let start = self.pieces.len();
            self.words(item, set, inner, if at == 0 { theme::GAP } else { 1.6 }, body);
            if let Some(first) = self.pieces.get_mut(start) {
                let x = strip.left + 4.0 + widest - mark.width;
                first.parts.insert(0, Part::of(label, vec![Op::Words { x, y: base(set.setting), line: mark }]));
            }
        }
    }

    pub(super) fn together(&mut self, blocks: &'a [Block], strip: Strip) -> Result<(), PaperError> {
        let start = self.pieces.len();
        self.blocks(blocks, strip)?;
        let end = self.pieces.len().saturating_sub(1).max(start);
        for piece in &mut self.pieces[start..end] {
            piece.bond = piece.bond.max(Bond::Wished);
        }
        Ok(())
    }
}

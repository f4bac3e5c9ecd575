//! Calculations: inputs two side by side, steps on as few lines as they need, notes beside the results.

use super::flowing::base;
use super::{Layer, Strip};
use crate::block::Step;
use crate::piece::{Bond, Meaning, Op, Part, Piece};
use crate::text::{Ink, Text};
use crate::theme::{self, Setting};
use crate::words::{Line, Set};

/// Letters of symbols, formulas and numbers.
const SETTING: Setting = theme::TABLES[0];
/// Between symbol, sign and formula.
const SPACE: f64 = 4.0;
/// Between a formula and its note, and between two columns of inputs.
const APART: f64 = 14.0;
/// Rounding of sums of widths must not break a line that fits.
const SLACK: f64 = 1e-6;
/// Share of the room that formulas may take where notes stand beside them.
const FORMULA: f64 = 0.7;
/// More inputs than this stand in two columns.
const FEW: usize = 3;

impl<'a> Layer<'a> {
    pub(super) fn calculation(&mut self, steps: &'a [Step], strip: Strip) {
        let strip = Strip { left: strip.left + 6.0, width: (strip.width - 6.0).max(0.0) };
        let inputs = steps.iter().all(|step| step.equals.len() == 1 && !step.symbol.is_empty());
        if inputs && steps.len() > FEW {
            self.inputs(steps, strip);
            return;
        }
        let places = self.places(steps, strip, FORMULA);
        for (at, step) in steps.iter().enumerate() {
            let gap = self.above(if at == 0 { theme::GAP } else { 2.0 });
            if step.symbol.is_empty() && step.equals.is_empty() {
                let node = self.node(Meaning::Paragraph);
                let set = Set { ink: Ink::Soft, ..Set::plain(theme::SMALL) };
                let lines = self.shaper.lines(&step.note, set, strip.width);
                self.lines(lines, strip.left, theme::SMALL, gap + 1.0, node);
                self.bind_last();
                continue;
            }
            let rows = self.step(step, places);
            let count = rows.len();
            for (at, part) in rows.into_iter().enumerate() {
                self.push(Piece {
                    before: if at == 0 { gap } else { 0.0 },
                    height: SETTING.leading,
                    bond: if at + 1 < count { Bond::Firm } else { Bond::Free },
                    parts: vec![part],
                    ..Piece::default()
                });
            }
        }
    }

    /// Inputs in two columns, read from left to right.
    fn inputs(&mut self, steps: &'a [Step], strip: Strip) {
        let width = ((strip.width - APART) / 2.0).max(0.0);
        let columns = [strip.left, strip.left + width + APART].map(|left| Strip { left, width });
        let of = |column: usize| steps.iter().skip(column).step_by(2).cloned().collect::<Vec<Step>>();
        let places = [0, 1].map(|column| self.places(&of(column), columns[column], 0.5));
        for (at, pair) in steps.chunks(2).enumerate() {
            let gap = self.above(if at == 0 { theme::GAP } else { 0.5 });
            let both: Vec<Vec<Part<'a>>> =
                pair.iter().zip(places).map(|(step, places)| self.step(step, places)).collect();
            let tallest = both.iter().map(Vec::len).max().unwrap_or(1);
            let mut piece = Piece { before: gap, height: tallest as f64 * SETTING.leading, ..Piece::default() };
            for part in both {
                for (line, mut part) in part.into_iter().enumerate() {
                    part.ops.iter_mut().for_each(|op| op.lower(line as f64 * SETTING.leading));
                    piece.parts.push(part);
                }
            }
            self.push(piece);
        }
    }

    /// Where the columns of some steps stand; formulas take at most `share` of the room where there are notes.
    fn places(&mut self, steps: &[Step], strip: Strip, share: f64) -> Places {
        let set = Set::plain(SETTING);
        let symbols = steps.iter().map(|step| self.shaper.line(&step.symbol, set).width);
        let widest = symbols.fold(24.0, f64::max).min(strip.width * 0.3);
        let sign = self.shaper.line(&Text::from("="), set).width;
        let formula_left = strip.left + widest + SPACE + sign + SPACE;
        let rest = (strip.left + strip.width - formula_left).max(0.0);
        let notes = steps.iter().any(|step| !step.note.is_empty() && !step.symbol.is_empty());
        let longest = steps.iter().map(|step| self.shaper.line(&joined(&step.equals), set).width);
        // Notes stand as near as the longest formula lets them, but not so near that they are taken for a part of it.
        let formula = if notes { longest.fold(rest * 0.2, f64::max).min(rest * share) } else { rest };
        let note_left = formula_left + formula + APART;
        Places { left: strip.left, widest, formula_left, formula, note_left, right: strip.left + strip.width }
    }

    /// The lines of a step, each a part of one meaning.
    fn step(&mut self, step: &Step, places: Places) -> Vec<Part<'a>> {
        let set = Set::plain(SETTING);
        let node = self.node(Meaning::Paragraph);
        let y = base(SETTING);
        let symbol = self.shaper.line(&step.symbol, set);
        let sign = self.shaper.line(&Text::from("="), set);
        // Each line with whether an equals sign stands before it. What fits beside the notes stands there; longer formulas
        // take the whole room, and the note stands below their last line.
        let room = places.right - places.formula_left;
        let whole = joined(&step.equals);
        let whole = self.shaper.line(&whole, set).width;
        let width = if whole <= places.formula || step.note.is_empty() && whole <= room { whole } else { room };
        let mut rows: Vec<(bool, Option<Line>)> = Vec::new();
        for text in self.packed(&step.equals, width + SLACK) {
            let lines = self.shaper.lines(&text, set, width + SLACK);
            rows.extend(lines.into_iter().enumerate().map(|(at, line)| (at == 0, Some(line))));
        }
        let last = rows.last().and_then(|row| row.1.as_ref()).map_or(0.0, |line| line.width);
        let beside = last <= places.formula + SLACK;
        let note_from = if beside { rows.len().saturating_sub(1) } else { rows.len() };
        let width = (places.right - places.note_left).max(40.0);
        let note = if step.note.is_empty() {
            Vec::new()
        } else {
            self.shaper.lines(&step.note, Set::soft(theme::SMALL), width)
        };
        while rows.len() < (note_from + note.len()).max(1) {
            rows.push((false, None));
        }
        let of_row = |(at, (signed, line)): (usize, (bool, Option<Line>))| {
            let mut ops = Vec::new();
            if at == 0 {
                // A symbol wider than its column reaches into the sign's room rather than off the page.
                let x = (places.left + places.widest - symbol.width).max(places.left);
                ops.push(Op::Words { x, y, line: symbol.clone() });
            }
            if signed {
                ops.push(Op::Words { x: places.left + places.widest + SPACE, y, line: sign.clone() });
            }
            ops.extend(line.map(|line| Op::Words { x: places.formula_left, y, line }));
            if let Some(line) = at.checked_sub(note_from).and_then(|at| note.get(at)) {
                ops.push(Op::Words { x: places.note_left, y, line: line.clone() });
            }
            Part::of(node, ops)
        };
        rows.into_iter().enumerate().map(of_row).collect()
    }

    /// What is equal, several on one line as long as they fit.
    fn packed(&mut self, equals: &[Text], width: f64) -> Vec<Text> {
        let mut packed: Vec<Text> = Vec::new();
        for text in equals {
            if let Some(last) = packed.last_mut() {
                let both = last.clone().plain(" = ").then(text.clone());
                if self.shaper.line(&both, Set::plain(SETTING)).width <= width {
                    *last = both;
                    continue;
                }
            }
            packed.push(text.clone());
        }
        packed
    }
}

/// All that is equal, on one line.
fn joined(equals: &[Text]) -> Text {
    equals.iter().enumerate().fold(Text::new(), |line, (at, text)| {
        let line = if at == 0 { line } else { line.plain(" = ") };
        line.then(text.clone())
    })
}

/// Where the columns of a calculation stand.
#[derive(Debug, Clone, Copy)]
struct Places {
    left: f64,
    /// Width of the symbols.
    widest: f64,
    /// Where formulas start.
    formula_left: f64,
    /// How wide they may be.
    formula: f64,
    /// Where notes start.
    note_left: f64,
    right: f64,
}

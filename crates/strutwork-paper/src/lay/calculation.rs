//! Calculations: symbols, equals signs below each other, notes beside the results.

use super::flowing::base;
use super::{Layer, Strip};
use crate::block::Step;
use crate::piece::{Bond, Meaning, Op, Part, Piece};
use crate::text::{Ink, Text};
use crate::theme;
use crate::words::{Line, Set};

/// Between symbol, sign and formula.
const SPACE: f64 = 4.0;

impl<'a> Layer<'a> {
    pub(super) fn calculation(&mut self, steps: &'a [Step], strip: Strip) {
        let set = Set::plain(theme::BODY);
        let strip = Strip { left: strip.left + 6.0, width: (strip.width - 6.0).max(0.0) };
        let symbols: Vec<Line> = steps.iter().map(|step| self.shaper.line(&step.symbol, set)).collect();
        let widest = symbols.iter().map(|line| line.width).fold(24.0, f64::max).min(strip.width * 0.25);
        let sign = self.shaper.line(&Text::from("="), set);
        let formula_left = strip.left + widest + SPACE + sign.width + SPACE;
        let rest = (strip.left + strip.width - formula_left).max(0.0);
        let notes = steps.iter().any(|step| !step.note.is_empty() && !step.symbol.is_empty());
        // Notes stand as near as the longest formula lets them, but not so near that they are taken for a part of it.
        let longest = steps.iter().flat_map(|step| &step.equals).map(|text| self.shaper.want(text, set).line);
        let formula = if notes { longest.fold(rest * 0.3, f64::max).min(rest * 0.64) } else { rest };
        let places = Places { widest, formula_left, formula, note_left: formula_left + formula + 16.0 };
        for (at, (step, symbol)) in steps.iter().zip(symbols).enumerate() {
            let gap = self.above(if at == 0 { theme::GAP } else { 3.5 });
            if step.symbol.is_empty() && step.equals.is_empty() {
                let node = self.node(Meaning::Paragraph);
                let lines = self.shaper.lines(&step.note, Set { ink: Ink::Soft, ..set }, strip.width);
                self.lines(lines, strip.left, set.setting, gap + 1.0, node);
                self.bind_last();
            } else {
                self.step(step, (symbol, sign.clone()), strip, places, gap);
            }
        }
    }

    fn step(&mut self, step: &Step, (symbol, sign): (Line, Line), strip: Strip, places: Places, gap: f64) {
        let set = Set::plain(theme::BODY);
        let node = self.node(Meaning::Paragraph);
        let y = base(set.setting);
        // Each line with whether an equals sign stands before it.
        let mut rows: Vec<(bool, Option<Line>)> = Vec::new();
        for text in &step.equals {
            let lines = self.shaper.lines(text, set, places.formula);
            rows.extend(lines.into_iter().enumerate().map(|(at, line)| (at == 0, Some(line))));
        }
        let note_from = rows.iter().rposition(|row| row.0).unwrap_or(0);
        let width = (strip.left + strip.width - places.note_left).max(40.0);
        let note = if step.note.is_empty() {
            Vec::new()
        } else {
            self.shaper.lines(&step.note, Set::soft(theme::SMALL), width)
        };
        while rows.len() < (note_from + note.len()).max(1) {
            rows.push((false, None));
        }
        let count = rows.len();
        for (at, (signed, line)) in rows.into_iter().enumerate() {
            let mut ops = Vec::new();
            if at == 0 {
                // A symbol wider than its column reaches into the sign's room rather than off the page.
                let x = (strip.left + places.widest - symbol.width).max(strip.left);
                ops.push(Op::Words { x, y, line: symbol.clone() });
            }
            if signed {
                ops.push(Op::Words { x: strip.left + places.widest + SPACE, y, line: sign.clone() });
            }
            ops.extend(line.map(|line| Op::Words { x: places.formula_left, y, line }));
            if let Some(line) = at.checked_sub(note_from).and_then(|at| note.get(at)) {
                ops.push(Op::Words { x: places.note_left, y, line: line.clone() });
            }
            self.push(Piece {
                before: if at == 0 { gap } else { 0.0 },
                height: set.setting.leading,
                bond: if at + 1 < count { Bond::Firm } else { Bond::Free },
                parts: vec![Part::of(node, ops)],
                ..Piece::default()
            });
        }
    }
}

/// Where the columns of a calculation stand.
#[derive(Debug, Clone, Copy)]
struct Places {
    /// Width of the symbols.
    widest: f64,
    /// Where formulas start.
    formula_left: f64,
    /// How wide they may be.
    formula: f64,
    /// Where notes start.
    note_left: f64,
}

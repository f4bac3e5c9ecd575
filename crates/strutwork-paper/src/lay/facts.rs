//! Facts in a ruled field, each with its name above it.

use super::flowing::base;
use super::{Layer, Space, Strip};
use crate::block::Fact;
use crate::piece::{Bond, Meaning, Op, Part, Piece};
use crate::text::Text;
use crate::theme;
use crate::words::{Line, Set};

/// From the lines of the field to the letters.
const PADDING: f64 = 5.0;
/// A field is cut after so many lines, so that it always fits a page.
const CUT: usize = 24;

impl<'a> Layer<'a> {
    pub(super) fn facts(&mut self, facts: &'a [Fact], strip: Strip) {
        if facts.is_empty() {
            return;
        }
        let widest = facts.iter().map(|fact| self.shaper.want(&fact.value, Set::plain(theme::BODY)).line);
        let widest = widest.fold(0.0, f64::max) + 2.0 * PADDING;
        let columns = if facts.len() <= 2 {
            facts.len()
        } else if facts.len() == 5 {
            5
        } else if matches!(facts.len(), 4 | 7..) || widest <= strip.width / 4.0 && !facts.len().is_multiple_of(3) {
            4
        } else if widest <= strip.width / 3.0 {
            3
        } else {
            2
        };
        let outer = self.node(Meaning::List(false));
        let width = strip.width / columns as f64;
        let count = facts.len().div_ceil(columns);
        for (row, some) in facts.chunks(columns).enumerate() {
            let cells: Vec<(Vec<Line>, Vec<Line>, usize, usize)> =
                some.iter().map(|fact| self.fact(fact, width - 2.0 * PADDING, outer)).collect();
            let above = if row == 0 { self.above(theme::WIDE_GAP) } else { 0.0 };
            self.field(cells, strip, columns, above);
            if row + 1 < count
                && let Some(last) = self.pieces.last_mut()
            {
                last.bond = Bond::Wished;
            }
        }
        self.space = Space::AtLeast(theme::WIDE_GAP);
    }

    /// Lines of the name and of the value, and the nodes that they belong to.
    fn fact(&mut self, fact: &Fact, width: f64, outer: usize) -> (Vec<Line>, Vec<Line>, usize, usize) {
        let name = self.shaper.lines(&Text::from(fact.name.as_str()), Set::soft(theme::RUNNING), width);
        let value = self.shaper.lines(&fact.value, Set::plain(theme::BODY), width);
        let item = self.node_in(outer, Meaning::Item);
        (name, value, self.node_in(item, Meaning::Label), self.node_in(item, Meaning::Body))
    }

    /// A row of the field, cut where it is too tall.
    fn field(&mut self, cells: Vec<(Vec<Line>, Vec<Line>, usize, usize)>, strip: Strip, columns: usize, above: f64) {
        let width = strip.width / columns as f64;
        let names = cells.iter().map(|cell| cell.0.len()).max().unwrap_or(0).min(CUT);
        let tallest = cells.iter().map(|cell| cell.1.len()).max().unwrap_or(0).max(1);
        let cuts = tallest.div_ceil(CUT);
        for cut in 0..cuts {
            let head = if cut == 0 { names as f64 * theme::RUNNING.leading + PADDING - 1.0 } else { 0.0 };
            let shown = (tallest - cut * CUT).min(CUT);
            let foot = if cut + 1 == cuts { PADDING - 1.0 } else { 0.0 };
            let height = head + shown as f64 * theme::BODY.leading + foot;
            let mut parts = vec![Part::mute(edges(strip, columns, cells.len(), height, cut == 0, cut + 1 == cuts))];
            for (at, (name, value, label, body)) in cells.iter().enumerate() {
                let x = strip.left + at as f64 * width + PADDING;
                if cut == 0 {
                    let placed = name.iter().take(CUT).enumerate().map(|(line_at, line)| {
                        let y = PADDING - 1.0 + line_at as f64 * theme::RUNNING.leading + base(theme::RUNNING);
                        Op::Words { x, y, line: line.clone() }
                    });
                    parts.push(Part::of(*label, placed.collect()));
                }
                let placed = value.iter().skip(cut * CUT).take(CUT).enumerate().map(|(line_at, line)| {
                    let y = head + line_at as f64 * theme::BODY.leading + base(theme::BODY);
                    Op::Words { x, y, line: line.clone() }
                });
                parts.push(Part::of(*body, placed.collect()));
            }
            let before = if cut == 0 { above } else { 0.0 };
            self.push(Piece { before, height, parts, ..Piece::default() });
        }
    }
}

/// The lines of a row of the field.
fn edges<'a>(strip: Strip, columns: usize, cells: usize, height: f64, top: bool, bottom: bool) -> Vec<Op<'a>> {
    let width = strip.width / columns as f64;
    let right = strip.left + strip.width;
    let rule = |from: (f64, f64), to: (f64, f64)| Op::Rule { from, to, width: 0.7, colour: theme::PLAIN };
    let mut ops: Vec<Op<'a>> = (1..columns.min(cells + 1))
        .map(|at| strip.left + at as f64 * width)
        .map(|x| rule((x, 0.0), (x, height)))
        .collect();
    ops.push(rule((strip.left, 0.0), (strip.left, height)));
    ops.push(rule((right, 0.0), (right, height)));
    if top {
        ops.push(rule((strip.left, 0.0), (right, 0.0)));
    }
    if bottom {
        ops.push(rule((strip.left, height), (right, height)));
    }
    ops
}

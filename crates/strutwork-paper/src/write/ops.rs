//! Words, lines, areas and links on a page.

use std::ops::Range;

use krilla::Data;
use krilla::annotation::{Annotation, LinkAnnotation, Target};
use krilla::color::rgb;
use krilla::destination::{Destination, XyzDestination};
use krilla::geom::{PathBuilder, Point, Rect};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, Stroke};
use krilla::surface::{Location, Surface};
use krilla::text::{Font, Glyph as Placed, GlyphId};

use super::Spot;
use super::tags::Home;
use crate::drawing::Colour;
use crate::error::PaperError;
use crate::piece::Op;
use crate::text::Text;
use crate::theme;
use crate::words::{FaceId, Glyph, Line, Run, Set, Shaper, bytes};

/// What draws on a page.
pub(super) struct Pen<'s, 'p> {
    pub surface: &'s mut Surface<'p>,
    pub faces: &'s [Font],
    pub shaper: &'s mut Shaper,
    pub spots: &'s [Spot],
}

/// A way to another place of the document.
pub(super) struct Link {
    /// What it belongs to.
    pub home: Home,
    /// Where it leads.
    pub to: Spot,
    /// What is read of it aloud.
    pub said: String,
    pub corner: (f64, f64),
    pub size: (f64, f64),
}

/// The built-in faces as the library reads them.
pub(super) fn faces() -> Result<Vec<Font>, PaperError> {
    let read = |face: FaceId| Font::new(Data::from(bytes(face)), 0).ok_or(PaperError::Face(face.file()));
    FaceId::ALL.into_iter().map(read).collect()
}

/// The link as the library wants it.
pub(super) fn annotation(link: &Link) -> Annotation {
    let (page, y) = link.to;
    let there = XyzDestination::new(page, Point::from_xy(0.0, (y - 8.0).max(0.0) as f32));
    let target = Target::Destination(Destination::Xyz(there));
    let (left, top) = (link.corner.0 as f32, link.corner.1 as f32);
    let size = (link.size.0.max(1.0) as f32, link.size.1.max(1.0) as f32);
    let area = Rect::from_xywh(left, top, size.0, size.1);
    // Only numbers that are none have no area, and there are none on a page.
    let area = area.or_else(|| Rect::from_xywh(0.0, 0.0, 1.0, 1.0));
    Annotation::new_link(
        LinkAnnotation::new(area.expect("a unit square"), target),
        Some(super::tags::clean(&link.said)),
    )
}

impl Pen<'_, '_> {
    /// Draws an op of a piece whose corner stands here.
    pub(super) fn draw(&mut self, op: &Op<'_>, at: (f64, f64)) {
        match op {
            Op::Words { x, y, line } => self.line((at.0 + x, at.1 + y), line),
            Op::Rule { from, to, width, colour } => {
                self.rule((at.0 + from.0, at.1 + from.1), (at.0 + to.0, at.1 + to.1), *width, *colour);
            }
            Op::Ground { x, y, width, height, colour } => {
                self.ground((at.0 + x, at.1 + y), (*width, *height), *colour);
            }
            Op::Drawing { x, y, scale, drawing } => self.drawing(drawing, (at.0 + x, at.1 + y), *scale),
            Op::PageOf { right, y, heading } => {
                let page = self.spots[*heading].0 + 1;
                self.right((at.0 + right, at.1 + y), &Text::from(page.to_string()), Set::plain(theme::SMALL));
            }
            // What is not drawn: its area is told beside the page.
            Op::Link { .. } => {}
        }
    }

    /// A line of words whose base line starts here.
    pub(super) fn line(&mut self, at: (f64, f64), line: &Line) {
        for run in line.runs.iter().filter(|run| !run.unseen) {
            self.run(at, run);
        }
    }

    /// A line of words that ends here.
    pub(super) fn right(&mut self, at: (f64, f64), text: &Text, set: Set) {
        let line = self.shaper.line(text, set);
        self.line((at.0 - line.width, at.1), &line);
    }

    /// A part of a line.
    pub(super) fn run(&mut self, at: (f64, f64), run: &Run) {
        self.surface.set_fill(Some(fill(run.colour, 1.0)));
        self.surface.set_stroke(None);
        self.glyphs((at.0 + run.x, at.1 - run.rise), &run.glyphs, run.face, &run.text, run.size);
    }

    /// Shapes of letters in the fill and the stroke that are set.
    pub(super) fn glyphs(&mut self, at: (f64, f64), glyphs: &[Glyph], face: FaceId, text: &str, size: f64) {
        let font = self.faces[face.place()].clone();
        self.surface.draw_glyphs(point(at), glyphs, font, text, size as f32, false);
    }

    pub(super) fn rule(&mut self, from: (f64, f64), to: (f64, f64), width: f64, colour: Colour) {
        let mut path = PathBuilder::new();
        path.move_to(from.0 as f32, from.1 as f32);
        path.line_to(to.0 as f32, to.1 as f32);
        if let Some(path) = path.finish() {
            self.surface.set_fill(None);
            let stroke = Stroke { paint: paint(colour).into(), width: width as f32, ..Stroke::default() };
            self.surface.set_stroke(Some(stroke));
            self.surface.draw_path(&path);
        }
    }

    fn ground(&mut self, corner: (f64, f64), size: (f64, f64), colour: Colour) {
        let area = Rect::from_xywh(corner.0 as f32, corner.1 as f32, size.0 as f32, size.1 as f32);
        let mut path = PathBuilder::new();
        if let Some(area) = area {
            path.push_rect(area);
        }
        if let Some(path) = path.finish() {
            self.surface.set_stroke(None);
            self.surface.set_fill(Some(fill(colour, 1.0)));
            self.surface.draw_path(&path);
        }
    }
}

pub(super) fn point(at: (f64, f64)) -> Point {
    Point::from_xy(at.0 as f32, at.1 as f32)
}

pub(super) fn paint(colour: Colour) -> rgb::Color {
    rgb::Color::new(colour.0, colour.1, colour.2)
}

pub(super) fn fill(colour: Colour, opacity: f64) -> Fill {
    let opacity = NormalizedF32::new(opacity as f32).unwrap_or(NormalizedF32::ONE);
    Fill { paint: paint(colour).into(), opacity, rule: FillRule::NonZero }
}

impl Placed for Glyph {
    fn glyph_id(&self) -> GlyphId {
        GlyphId::new(self.id)
    }

    fn text_range(&self) -> Range<usize> {
        self.start..self.end
    }

    fn x_advance(&self, size: f32) -> f32 {
        self.advance as f32 * size
    }

    fn x_offset(&self, size: f32) -> f32 {
        self.shift.0 as f32 * size
    }

    fn y_offset(&self, size: f32) -> f32 {
        self.shift.1 as f32 * size
    }

    fn y_advance(&self, _: f32) -> f32 {
        0.0
    }

    fn location(&self) -> Option<Location> {
        None
    }
}

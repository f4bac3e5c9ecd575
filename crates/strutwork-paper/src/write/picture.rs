//! Drawings on a page.

use krilla::geom::{Path, PathBuilder, Transform};
use krilla::paint::{LineCap, LineJoin, Stroke, StrokeDash};

use super::ops::{Pen, fill, paint, point};
use crate::drawing::{Anchor, Colour, Drawing, Line, Mark, Segment};
use crate::words::FaceId;

impl Pen<'_, '_> {
    /// A drawing whose upper left corner stands here.
    pub(super) fn drawing(&mut self, drawing: &Drawing, at: (f64, f64), scale: f64) {
        let scaled = scale as f32;
        self.surface.push_transform(&Transform::from_row(scaled, 0.0, 0.0, scaled, at.0 as f32, at.1 as f32));
        // What reaches out of the sheet stays off the text around it.
        let edge = [
            Segment::Start((0.0, 0.0)),
            Segment::To((drawing.width, 0.0)),
            Segment::To((drawing.width, drawing.height)),
            Segment::To((0.0, drawing.height)),
            Segment::Shut,
        ];
        let clip = path(&edge);
        if let Some(clip) = &clip {
            self.surface.push_clip_path(clip, &krilla::paint::FillRule::NonZero);
        }
        for mark in &drawing.marks {
            self.mark(mark);
        }
        if clip.is_some() {
            self.surface.pop();
        }
        self.surface.pop();
    }

    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Path { segments, fill: inside, line } => {
                if let Some(path) = path(segments) {
                    self.surface.set_fill(inside.map(|(colour, opacity)| fill(colour, opacity)));
                    self.surface.set_stroke(line.as_ref().map(stroke));
                    self.surface.draw_path(&path);
                }
            }
            Mark::Text { at, anchor, turned, size, bold, italic, colour, halo, text } => {
                let face = FaceId::of(*bold, *italic);
                let words = Words { at: *at, size: *size, face, turned: *turned, anchor: *anchor };
                self.words(&words, text, *colour, *halo);
            }
        }
    }

    fn words(&mut self, words: &Words, text: &str, colour: Colour, halo: f64) {
        let text: String = text.chars().filter(|letter| !letter.is_control()).collect();
        let parts = self.shaper.word(words.face, text.trim());
        let width = parts.iter().map(|part| part.advance).sum::<f64>() * words.size;
        let back = words.anchor.back(width);
        let (sine, cosine) = words.turned.to_radians().sin_cos();
        let turn = Transform::from_row(
            cosine as f32,
            sine as f32,
            -sine as f32,
            cosine as f32,
            words.at.0 as f32,
            words.at.1 as f32,
        );
        self.surface.push_transform(&turn);
        // First the white edge of all letters, then the letters, as one text: the edge is drawn as outlines.
        for edge in [true, false] {
            if edge && halo <= 0.0 {
                continue;
            }
            let mut x = -back;
            for part in parts.iter() {
                if edge {
                    self.surface.set_fill(None);
                    self.surface.set_stroke(Some(stroke(&Line {
                        colour: Colour(255, 255, 255),
                        width: halo,
                        dashes: Vec::new(),
                        round: true,
                    })));
                    let font = self.faces[part.face.place()].clone();
                    let start = point((x, 0.0));
                    self.surface.draw_glyphs(start, &part.glyphs, font, &part.text, words.size as f32, true);
                } else {
                    self.surface.set_stroke(None);
                    self.surface.set_fill(Some(fill(colour, 1.0)));
                    self.glyphs((x, 0.0), &part.glyphs, part.face, &part.text, words.size);
                }
                x += part.advance * words.size;
            }
        }
        self.surface.pop();
    }
}

/// Where and how words of a drawing stand.
struct Words {
    at: (f64, f64),
    size: f64,
    face: FaceId,
    turned: f64,
    anchor: Anchor,
}

fn path(segments: &[Segment]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for segment in segments {
        match segment {
            Segment::Start(at) => path.move_to(at.0 as f32, at.1 as f32),
            Segment::To(at) => path.line_to(at.0 as f32, at.1 as f32),
            Segment::Curve(one, two, at) => {
                path.cubic_to(one.0 as f32, one.1 as f32, two.0 as f32, two.1 as f32, at.0 as f32, at.1 as f32);
            }
            Segment::Shut => path.close(),
        }
    }
    path.finish()
}

fn stroke(line: &Line) -> Stroke {
    let dashes: Vec<f32> = line.dashes.iter().map(|length| *length as f32).collect();
    let real = dashes.iter().all(|length| length.is_finite() && *length >= 0.0) && dashes.iter().sum::<f32>() > 0.0;
    Stroke {
        paint: paint(line.colour).into(),
        width: line.width as f32,
        line_cap: if line.round { LineCap::Round } else { LineCap::Butt },
        line_join: if line.round { LineJoin::Round } else { LineJoin::Miter },
        dash: real.then_some(StrokeDash { array: dashes, offset: 0.0 }),
        ..Stroke::default()
    }
}

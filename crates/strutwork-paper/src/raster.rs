//! Drawings as pictures of dots, for whoever cannot take lines: the same marks and faces of letters as on pages.

use tiny_skia::{FillRule, LineCap, LineJoin, Paint, Path, PathBuilder, Pixmap, Stroke, StrokeDash, Transform};

use crate::drawing::{Colour, Drawing, Line, Mark, Segment};
use crate::error::PaperError;
use crate::words::{FaceId, OutlineBuilder, Shaper};

/// Dots of a picture, at most: what is larger is drawn smaller.
const MOST_DOTS: f64 = 24e6;

/// The bytes of a PNG file of a drawing on white paper, so many dots for each unit of the drawing.
///
/// # Errors
/// A drawing without a size, and what the writing library refuses.
pub fn png(drawing: &Drawing, scale: f64) -> Result<Vec<u8>, PaperError> {
    let refused = |what: &dyn std::fmt::Display| PaperError::Dots(what.to_string());
    let scale = scale.min((MOST_DOTS / (drawing.width * drawing.height)).sqrt());
    let dots = |length: f64| (length * scale).round() as u32;
    let mut sheet = Pixmap::new(dots(drawing.width), dots(drawing.height)).ok_or_else(|| refused(&"it has no size"))?;
    sheet.fill(tiny_skia::Color::WHITE);
    let mut brush = Brush { sheet, scaled: Transform::from_scale(scale as f32, scale as f32), shaper: Shaper::new()? };
    for mark in &drawing.marks {
        brush.mark(mark);
    }
    let mut bytes = Vec::new();
    let mut file = png::Encoder::new(&mut bytes, brush.sheet.width(), brush.sheet.height());
    file.set_color(png::ColorType::Rgb);
    file.set_depth(png::BitDepth::Eight);
    let mut writer = file.write_header().map_err(|cause| refused(&cause))?;
    // White paper lies behind everything: no dot is seen through.
    let rows: Vec<u8> = brush.sheet.pixels().iter().flat_map(|dot| [dot.red(), dot.green(), dot.blue()]).collect();
    writer.write_image_data(&rows).map_err(|cause| refused(&cause))?;
    writer.finish().map_err(|cause| refused(&cause))?;
    Ok(bytes)
}

struct Brush {
    sheet: Pixmap,
    scaled: Transform,
    shaper: Shaper,
}

impl Brush {
    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Path { segments, fill, line } => {
                let Some(path) = path(segments) else { return };
                if let Some((colour, opacity)) = fill {
                    self.fill(&path, *colour, *opacity, self.scaled);
                }
                if let Some(line) = line {
                    self.stroke(&path, line, self.scaled);
                }
            }
            Mark::Text { at, anchor, turned, size, bold, italic, colour, halo, text } => {
                let letters: String = text.chars().filter(|letter| !letter.is_control()).collect();
                let Some((path, width)) = self.outline(FaceId::of(*bold, *italic), letters.trim(), *size) else {
                    return;
                };
                let placed = self
                    .scaled
                    .pre_translate(at.0 as f32, at.1 as f32)
                    .pre_rotate(*turned as f32)
                    .pre_translate(-anchor.back(width) as f32, 0.0);
                if *halo > 0.0 {
                    let edge = Line { colour: Colour(255, 255, 255), width: *halo, dashes: Vec::new(), round: true };
                    self.stroke(&path, &edge, placed);
                }
                self.fill(&path, *colour, 1.0, placed);
            }
        }
    }

    /// The outlines of letters on a base line from 0 to the right, and how far they reach.
    fn outline(&mut self, face: FaceId, text: &str, size: f64) -> Option<(Path, f64)> {
        let mut pen = Outline { path: PathBuilder::new(), at: (0.0, 0.0), scale: 1.0 };
        let mut x = 0.0;
        for part in self.shaper.word(face, text).iter() {
            for glyph in &part.glyphs {
                pen.at = ((x + glyph.shift.0 * size) as f32, (-glyph.shift.1 * size) as f32);
                pen.scale = (size / self.shaper.units(part.face)) as f32;
                self.shaper.outline(part.face, glyph.id, &mut pen);
                x += glyph.advance * size;
            }
        }
        Some((pen.path.finish()?, x))
    }

    fn fill(&mut self, path: &Path, colour: Colour, opacity: f64, placed: Transform) {
        self.sheet.fill_path(path, &paint(colour, opacity), FillRule::Winding, placed, None);
    }

    fn stroke(&mut self, path: &Path, line: &Line, placed: Transform) {
        let dashes = line.dashes.iter().map(|length| *length as f32).collect();
        let stroke = Stroke {
            width: line.width as f32,
            line_cap: if line.round { LineCap::Round } else { LineCap::Butt },
            line_join: if line.round { LineJoin::Round } else { LineJoin::Miter },
            // Dashes of no length are none.
            dash: StrokeDash::new(dashes, 0.0),
            ..Stroke::default()
        };
        self.sheet.stroke_path(path, &paint(line.colour, 1.0), &stroke, placed, None);
    }
}

fn paint(Colour(red, green, blue): Colour, opacity: f64) -> Paint<'static> {
    let mut paint = Paint { anti_alias: true, ..Paint::default() };
    paint.set_color_rgba8(red, green, blue, (opacity * 255.0).round() as u8);
    paint
}

fn path(segments: &[Segment]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for segment in segments {
        match *segment {
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

/// Takes the outline of a letter, whose y runs up, onto paper, whose y runs down.
struct Outline {
    path: PathBuilder,
    at: (f32, f32),
    scale: f32,
}

impl Outline {
    fn placed(&self, x: f32, y: f32) -> (f32, f32) {
        (self.at.0 + x * self.scale, self.at.1 - y * self.scale)
    }
}

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.placed(x, y);
        self.path.move_to(x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.placed(x, y);
        self.path.line_to(x, y);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let ((x1, y1), (x, y)) = (self.placed(x1, y1), self.placed(x, y));
        self.path.quad_to(x1, y1, x, y);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let ((x1, y1), (x2, y2), (x, y)) = (self.placed(x1, y1), self.placed(x2, y2), self.placed(x, y));
        self.path.cubic_to(x1, y1, x2, y2, x, y);
    }

    fn close(&mut self) {
        self.path.close();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SVG: &str = "<svg viewBox=\"0 0 100 50\"><g fill=\"#a3210f\"><rect x=\"10\" y=\"10\" width=\"20\" height=\"20\"/></g>\
        <g fill=\"#16202a\" font-size=\"20\"><text x=\"60\" y=\"40\">H</text></g></svg>";

    fn dots(scale: f64) -> (u32, u32, Vec<u8>) {
        let bytes = png(&Drawing::from_svg(SVG).unwrap(), scale).unwrap();
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
        let mut rows = vec![0; reader.output_buffer_size().unwrap()];
        let about = reader.next_frame(&mut rows).unwrap();
        (about.width, about.height, rows)
    }

    #[test]
    fn areas_and_letters_stand_where_the_drawing_has_them() {
        let (width, height, rows) = dots(2.0);
        assert_eq!((width, height), (200, 100));
        let at = |x: usize, y: usize| <[u8; 3]>::try_from(&rows[3 * (y * 200 + x)..][..3]).unwrap();
        assert_eq!(at(40, 40), [0xa3, 0x21, 0x0f], "inside the square");
        assert_eq!(at(5, 5), [255; 3], "paper");
        // The left leg of the H stands on the base line, to the right of its anchor, and nothing below it.
        assert!((120..130).any(|x| at(x, 75) == [0x16, 0x20, 0x2a]));
        assert!((110..160).all(|x| at(x, 84) == [255; 3]));
    }

    #[test]
    fn the_same_drawing_gives_the_same_bytes_and_a_huge_one_is_made_smaller() {
        let drawing = Drawing::from_svg(SVG).unwrap();
        assert_eq!(png(&drawing, 3.0).unwrap(), png(&drawing, 3.0).unwrap());
        let (width, height, _) = dots(1e4);
        assert!(f64::from(width) * f64::from(height) < 1.01 * MOST_DOTS);
        let none = Drawing { width: 0.0, ..drawing };
        assert!(matches!(png(&none, 1.0), Err(PaperError::Dots(_))));
    }
}

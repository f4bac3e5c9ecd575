//! SVG of the plain kind, read into a drawing.

use super::attributes::Looks;
use super::{Drawing, DrawingError, Mark, Segment, path};
use crate::xml::{Event, events};

/// Attributes that say nothing about the picture.
const SAYS_NOTHING: [&str; 8] = ["class", "xmlns", "role", "id", "aria-hidden", "aria-label", "tabindex", "viewBox"];

/// A drawing from the text of an `svg` element.
pub(super) fn read(text: &str) -> Result<Drawing, DrawingError> {
    let mut drawing: Option<Drawing> = None;
    let mut looks = vec![Looks::start()];
    // The text element that is open: where its letters go.
    let mut words: Option<(Element<'_>, String)> = None;
    let mut silent = 0_usize;
    for event in events(text.trim(), "")? {
        match event {
            Event::Text(letters) => {
                if let (Some((_, said)), 0) = (&mut words, silent) {
                    said.push_str(&letters);
                }
            }
            Event::Close => {
                if silent > 0 {
                    silent -= 1;
                    continue;
                }
                looks.pop();
                if let (Some((element, said)), Some(drawing)) = (words.take(), &mut drawing) {
                    drawing.marks.push(element.words(said)?);
                }
            }
            Event::Whole(_) => {}
            // A title is for pointers; what hangs below it says nothing on paper.
            Event::Open { name: "title" | "desc", .. } => silent += 1,
            Event::Open { .. } if silent > 0 => silent += 1,
            Event::Open { name, attributes } => {
                let element = Element::of(name, attributes, looks.last().unwrap_or(&Looks::start()))?;
                looks.push(element.looks.clone());
                match (&mut drawing, name) {
                    (None, "svg") => drawing = Some(element.sheet()?),
                    (None, _) | (_, "svg") => return Err(DrawingError::Element(name.to_owned())),
                    (_, "g") => {}
                    (_, "text") => words = Some((element, String::new())),
                    (Some(drawing), _) => drawing.marks.extend(element.path()?),
                }
            }
        }
    }
    drawing.ok_or(DrawingError::Written { at: 0, what: "no svg element" })
}

struct Element<'a> {
    name: &'a str,
    own: Vec<(&'a str, String)>,
    looks: Looks,
}

impl<'a> Element<'a> {
    fn of(name: &'a str, attributes: Vec<(&'a str, String)>, above: &Looks) -> Result<Self, DrawingError> {
        let mut looks = above.clone();
        let mut own = Vec::new();
        for (key, value) in attributes {
            if !looks.take(key, &value)? {
                own.push((key, value));
            }
        }
        let known = known(name).ok_or_else(|| DrawingError::Element(name.to_owned()))?;
        let stray = own
            .iter()
            .find(|(key, _)| !known.contains(key) && !SAYS_NOTHING.contains(key) && !key.starts_with("data-"));
        match stray {
            Some((key, value)) => Err(DrawingError::Attribute { name: (*key).to_owned(), value: value.clone() }),
            None => Ok(Self { name, own, looks }),
        }
    }

    fn value(&self, name: &'static str) -> Result<&str, DrawingError> {
        let found = self.own.iter().find(|(key, _)| *key == name).map(|(_, value)| value.as_str());
        found.ok_or_else(|| DrawingError::Missing { element: self.name.to_owned(), name })
    }

    fn numbers(&self, name: &'static str) -> Result<Vec<f64>, DrawingError> {
        let value = self.value(name)?;
        path::numbers(value).ok_or_else(|| unread(name, value))
    }

    fn number(&self, name: &'static str) -> Result<f64, DrawingError> {
        match self.numbers(name)?.as_slice() {
            [number] => Ok(*number),
            _ => Err(unread(name, self.value(name)?)),
        }
    }

    fn number_or(&self, name: &'static str, else_: f64) -> Result<f64, DrawingError> {
        if self.own.iter().any(|(key, _)| *key == name) { self.number(name) } else { Ok(else_) }
    }

    fn sheet(&self) -> Result<Drawing, DrawingError> {
        let label = self.value("aria-label").map(str::to_owned).unwrap_or_default();
        match self.numbers("viewBox")?.as_slice() {
            [left, top, width, height] if (*left, *top) == (0.0, 0.0) && *width > 0.0 && *height > 0.0 => {
                Ok(Drawing { width: *width, height: *height, label, marks: Vec::new() })
            }
            _ => Err(unread("viewBox", self.value("viewBox")?)),
        }
    }

    fn path(&self) -> Result<Option<Mark>, DrawingError> {
        let segments = match self.name {
            "path" => {
                let d = self.value("d")?;
                path::read(d).ok_or_else(|| unread("d", d))?
            }
            "circle" => {
                let r = self.number("r")?;
                path::ellipse((self.number("cx")?, self.number("cy")?), r, r)
            }
            "ellipse" => {
                path::ellipse((self.number("cx")?, self.number("cy")?), self.number("rx")?, self.number("ry")?)
            }
            "rect" => path::rectangle(
                (self.number_or("x", 0.0)?, self.number_or("y", 0.0)?),
                (self.number("width")?, self.number("height")?),
                self.number_or("rx", 0.0)?,
            ),
            "line" => vec![
                Segment::Start((self.number("x1")?, self.number("y1")?)),
                Segment::To((self.number("x2")?, self.number("y2")?)),
            ],
            _ => self.points()?,
        };
        let (fill, line) = (self.looks.inside(), self.looks.line());
        let seen = !segments.is_empty() && (fill.is_some() || line.is_some());
        Ok(seen.then(|| Mark::Path {
            segments: segments.into_iter().map(|part| self.moved(part)).collect(),
            fill,
            line,
        }))
    }

    /// The points of a polyline or a polygon.
    fn points(&self) -> Result<Vec<Segment>, DrawingError> {
        let numbers = self.numbers("points")?;
        if !numbers.len().is_multiple_of(2) {
            return Err(unread("points", self.value("points")?));
        }
        let mut segments: Vec<Segment> = numbers.chunks_exact(2).map(|pair| Segment::To((pair[0], pair[1]))).collect();
        if let Some(Segment::To(first)) = segments.first().copied() {
            segments[0] = Segment::Start(first);
            if self.name == "polygon" {
                segments.push(Segment::Shut);
            }
        }
        Ok(segments)
    }

    fn moved(&self, segment: Segment) -> Segment {
        let to = |at: (f64, f64)| self.placed(at);
        match segment {
            Segment::Start(at) => Segment::Start(to(at)),
            Segment::To(at) => Segment::To(to(at)),
            Segment::Curve(one, two, at) => Segment::Curve(to(one), to(two), to(at)),
            Segment::Shut => Segment::Shut,
        }
    }

    /// A point after its group's turn and move.
    fn placed(&self, at: (f64, f64)) -> (f64, f64) {
        let (sine, cosine) = self.looks.turned.to_radians().sin_cos();
        let moved = self.looks.moved;
        (moved.0 + at.0 * cosine - at.1 * sine, moved.1 + at.0 * sine + at.1 * cosine)
    }

    fn words(&self, text: String) -> Result<Mark, DrawingError> {
        let at = self.placed((self.number_or("x", 0.0)?, self.number_or("y", 0.0)?));
        let looks = &self.looks;
        Ok(Mark::Text {
            at,
            anchor: looks.anchor,
            turned: looks.turned,
            size: looks.size,
            bold: looks.bold,
            italic: looks.italic,
            colour: looks.fill.unwrap_or(super::Colour(0, 0, 0)),
            halo: looks.halo,
            text,
        })
    }
}

/// The attributes of an element that are its own; `None` where the element is not read.
fn known(element: &str) -> Option<&'static [&'static str]> {
    match element {
        "svg" => Some(&["width", "height"]),
        "g" => Some(&[]),
        "path" => Some(&["d"]),
        "circle" => Some(&["cx", "cy", "r"]),
        "ellipse" => Some(&["cx", "cy", "rx", "ry"]),
        "rect" => Some(&["x", "y", "width", "height", "rx"]),
        "line" => Some(&["x1", "y1", "x2", "y2"]),
        "polyline" | "polygon" => Some(&["points"]),
        "text" => Some(&["x", "y"]),
        _ => None,
    }
}

fn unread(name: &str, value: &str) -> DrawingError {
    DrawingError::Attribute { name: name.to_owned(), value: value.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Anchor, Colour, Line};

    const HEAD: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"figure\" viewBox=\"0 0 100 50\" role=\"img\" \
                        aria-label=\"a &quot;b&quot;\">";

    fn drawing(inside: &str) -> Result<Drawing, DrawingError> {
        Drawing::from_svg(&format!("{HEAD}{inside}</svg>"))
    }

    #[test]
    fn a_group_hands_its_looks_down_and_takes_them_back() {
        let read = drawing(
            "<g fill=\"none\" stroke=\"#102030\" stroke-width=\"2\"><path d=\"M0 0l1 1\" stroke-dasharray=\"6 2\"/></g>\
             <circle cx=\"5\" cy=\"5\" r=\"2\" fill=\"#fff\"/>",
        )
        .expect("plain");
        assert_eq!((read.width, read.height, read.label.as_str()), (100.0, 50.0, "a \"b\""));
        let line = Line { colour: Colour(0x10, 0x20, 0x30), width: 2.0, dashes: vec![6.0, 2.0], round: false };
        let segments = vec![Segment::Start((0.0, 0.0)), Segment::To((1.0, 1.0))];
        assert_eq!(read.marks[0], Mark::Path { segments, fill: None, line: Some(line) });
        let Mark::Path { fill, line, .. } = &read.marks[1] else { panic!("a circle is a path") };
        assert_eq!((fill.is_some(), line.is_none()), (true, true));
    }

    #[test]
    fn text_keeps_its_letters_its_anchor_and_its_turn() {
        let read = drawing(
            "<g class=\"names\" fill=\"#a3210f\" font-size=\"9.5\"><text x=\"1\" y=\"2\" text-anchor=\"end\">&lt;T1&gt;\
             <title>no</title></text><text transform=\"translate(3 4)rotate(-90)\" text-anchor=\"middle\">up</text></g>",
        )
        .expect("plain");
        let Mark::Text { at, anchor, size, halo, text, .. } = &read.marks[0] else { panic!("a text") };
        assert_eq!((*at, *anchor, *size, text.as_str()), ((1.0, 2.0), Anchor::End, 9.5, "<T1>"));
        assert!(*halo > 0.0);
        let Mark::Text { at, turned, .. } = &read.marks[1] else { panic!("a text") };
        assert_eq!((*at, *turned), ((3.0, 4.0), -90.0));
    }

    #[test]
    fn what_is_not_read_is_named() {
        assert_eq!(drawing("<image/>"), Err(DrawingError::Element("image".to_owned())));
        let opacity = DrawingError::Attribute { name: "opacity".to_owned(), value: ".5".to_owned() };
        assert_eq!(drawing("<path d=\"M0 0\" opacity=\".5\"/>"), Err(opacity));
        assert!(matches!(drawing("<circle cx=\"1\" cy=\"1\"/>"), Err(DrawingError::Missing { name: "r", .. })));
        assert!(matches!(Drawing::from_svg("<g/>"), Err(DrawingError::Element(_))));
        assert!(matches!(Drawing::from_svg(""), Err(DrawingError::Written { .. })));
    }
}

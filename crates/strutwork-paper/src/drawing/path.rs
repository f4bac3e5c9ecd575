//! Paths: the `d` of SVG with straight lines and cubic curves, and the round shapes as paths.

use super::Segment;

/// Length of a control point's arm for a quarter of a circle of radius 1.
const ARM: f64 = 0.552_284_749_830_793_4;

/// The segments of a path's `d`; `None` where it holds anything but M, L, H, V, C and Z.
pub(super) fn read(d: &str) -> Option<Vec<Segment>> {
    let mut numbers = Numbers { rest: d };
    let mut segments = Vec::new();
    let (mut pen, mut start) = ((0.0, 0.0), (0.0, 0.0));
    let mut command = None;
    loop {
        let next = numbers.command();
        if next.is_none() && numbers.is_done() {
            return Some(segments);
        }
        // Numbers without a letter repeat the last command; after a start they are lines.
        let letter = match (next, command) {
            (Some(letter), _) => letter,
            (None, Some('M')) => 'L',
            (None, Some('m')) => 'l',
            (None, Some(letter)) if !matches!(letter, 'Z' | 'z') => letter,
            _ => return None,
        };
        let base = if letter.is_ascii_lowercase() { pen } else { (0.0, 0.0) };
        match letter.to_ascii_uppercase() {
            'M' => {
                pen = numbers.pair(base)?;
                start = pen;
                segments.push(Segment::Start(pen));
            }
            'L' => {
                pen = numbers.pair(base)?;
                segments.push(Segment::To(pen));
            }
            'H' => {
                pen = (base.0 + numbers.number()?, pen.1);
                segments.push(Segment::To(pen));
            }
            'V' => {
                pen = (pen.0, base.1 + numbers.number()?);
                segments.push(Segment::To(pen));
            }
            'C' => {
                let (one, two) = (numbers.pair(base)?, numbers.pair(base)?);
                pen = numbers.pair(base)?;
                segments.push(Segment::Curve(one, two, pen));
            }
            'Z' => {
                pen = start;
                segments.push(Segment::Shut);
            }
            _ => return None,
        }
        command = Some(letter);
    }
}

/// Numbers separated by spaces or commas; `None` where there is anything else.
pub(super) fn numbers(text: &str) -> Option<Vec<f64>> {
    let mut numbers = Numbers { rest: text };
    let mut found = Vec::new();
    while !numbers.is_done() {
        found.push(numbers.number()?);
    }
    Some(found)
}

/// An ellipse as four curves.
pub(super) fn ellipse(at: (f64, f64), rx: f64, ry: f64) -> Vec<Segment> {
    let to = |x: f64, y: f64| (at.0 + x * rx, at.1 + y * ry);
    vec![
        Segment::Start(to(1.0, 0.0)),
        Segment::Curve(to(1.0, ARM), to(ARM, 1.0), to(0.0, 1.0)),
        Segment::Curve(to(-ARM, 1.0), to(-1.0, ARM), to(-1.0, 0.0)),
        Segment::Curve(to(-1.0, -ARM), to(-ARM, -1.0), to(0.0, -1.0)),
        Segment::Curve(to(ARM, -1.0), to(1.0, -ARM), to(1.0, 0.0)),
        Segment::Shut,
    ]
}

/// An upright rectangle, its corners rounded by this radius.
pub(super) fn rectangle(corner: (f64, f64), size: (f64, f64), radius: f64) -> Vec<Segment> {
    let (left, top) = corner;
    let (right, bottom) = (left + size.0, top + size.1);
    let r = radius.clamp(0.0, size.0.min(size.1).max(0.0) / 2.0);
    if r == 0.0 {
        let corners = [(right, top), (right, bottom), (left, bottom)];
        return [Segment::Start((left, top))]
            .into_iter()
            .chain(corners.map(Segment::To))
            .chain([Segment::Shut])
            .collect();
    }
    let k = r * (1.0 - ARM);
    vec![
        Segment::Start((left + r, top)),
        Segment::To((right - r, top)),
        Segment::Curve((right - k, top), (right, top + k), (right, top + r)),
        Segment::To((right, bottom - r)),
        Segment::Curve((right, bottom - k), (right - k, bottom), (right - r, bottom)),
        Segment::To((left + r, bottom)),
        Segment::Curve((left + k, bottom), (left, bottom - k), (left, bottom - r)),
        Segment::To((left, top + r)),
        Segment::Curve((left, top + k), (left + k, top), (left + r, top)),
        Segment::Shut,
    ]
}

struct Numbers<'a> {
    rest: &'a str,
}

impl Numbers<'_> {
    fn skip(&mut self) {
        self.rest = self.rest.trim_start_matches(|c: char| c.is_ascii_whitespace() || c == ',');
    }

    fn is_done(&mut self) -> bool {
        self.skip();
        self.rest.is_empty()
    }

    fn command(&mut self) -> Option<char> {
        self.skip();
        let letter = self.rest.chars().next().filter(char::is_ascii_alphabetic)?;
        self.rest = &self.rest[1..];
        Some(letter)
    }

    fn pair(&mut self, base: (f64, f64)) -> Option<(f64, f64)> {
        Some((base.0 + self.number()?, base.1 + self.number()?))
    }

    /// A number ends where its letters do: at a space, a comma, a second point or a sign that is no exponent's.
    fn number(&mut self) -> Option<f64> {
        self.skip();
        let mut pointed = false;
        let mut before = ' ';
        let ends = |c: char| {
            let inside = match c {
                '0'..='9' => true,
                '.' => !std::mem::replace(&mut pointed, true),
                'e' | 'E' => before.is_ascii_digit() || before == '.',
                '+' | '-' => before == ' ' || matches!(before, 'e' | 'E'),
                _ => false,
            };
            before = c;
            !inside
        };
        let end = self.rest.find(ends).unwrap_or(self.rest.len());
        let value: f64 = self.rest[..end].parse().ok()?;
        self.rest = &self.rest[end..];
        value.is_finite().then_some(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_steps_are_read_as_they_are_written() {
        let wanted = [
            Segment::Start((1.0, 2.0)),
            Segment::To((1.5, 1.5)),
            Segment::To((1.75, 1.0)),
            Segment::Shut,
            Segment::Start((0.0, 0.0)),
            Segment::To((4.0, 0.0)),
            Segment::To((4.0, 3.0)),
        ];
        assert_eq!(read("M1 2l.5-.5.25-.5zM0,0H4v3").as_deref(), Some(&wanted[..]));
        assert_eq!(read(""), Some(Vec::new()));
        assert_eq!(numbers("6 2,1e-1"), Some(vec![6.0, 2.0, 0.1]));
    }

    #[test]
    fn what_is_no_path_is_none() {
        for wrong in ["M1", "L1 x", "M0 0A1 1 0 0 0 2 2", "1 2", "M0 0z1 1", "Mnan 0", "é"] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn round_shapes_touch_their_box() {
        let circle = ellipse((5.0, 5.0), 2.0, 2.0);
        assert_eq!(circle[0], Segment::Start((7.0, 5.0)));
        assert_eq!(rectangle((0.0, 0.0), (4.0, 2.0), 0.0).len(), 5);
        assert_eq!(rectangle((0.0, 0.0), (4.0, 2.0), 9.0)[1], Segment::To((3.0, 0.0)));
    }
}

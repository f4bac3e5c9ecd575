//! A small writer of SVG: everything that comes from a model is escaped here and nowhere else.

use std::fmt::Write;

/// Where a text is anchored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// The text starts at the point.
    Start,
    /// The text is centred on the point.
    Middle,
    /// The text ends at the point.
    End,
}

impl Anchor {
    const fn word(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// A drawing under construction; lengths in px of its own view box.
#[derive(Debug, Clone)]
pub struct Svg {
    text: String,
    width: f64,
    height: f64,
}

impl Svg {
    /// An empty drawing. `label` says in a sentence what it shows, for readers who do not see it.
    pub fn new(width: f64, height: f64, class: &'static str, label: &str) -> Self {
        let mut text = String::with_capacity(4096);
        let label = escape(label);
        // Writing to a String cannot fail.
        let _ = write!(
            text,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{class}\" viewBox=\"0 0 {} {}\" role=\"img\" \
             aria-label=\"{label}\">",
            short(width),
            short(height),
        );
        Self { text, width, height }
    }

    /// Width of the view box, px.
    pub const fn width(&self) -> f64 {
        self.width
    }

    /// Height of the view box, px.
    pub const fn height(&self) -> f64 {
        self.height
    }

    /// Opens a group whose attributes are ours, never a model's.
    pub fn open(&mut self, attributes: &str) {
        let _ = write!(self.text, "<g {attributes}>");
    }

    /// Opens a group that carries what it shows as data, so that a reader of the file finds the numbers again: the values are
    /// escaped.
    pub fn open_data(&mut self, attributes: &str, data: &[(&'static str, String)]) {
        self.text.push_str("<g");
        if !attributes.is_empty() {
            let _ = write!(self.text, " {attributes}");
        }
        for (name, value) in data {
            let _ = write!(self.text, " data-{name}=\"{}\"", escape(value));
        }
        self.text.push('>');
    }

    /// Closes the last group.
    pub fn close(&mut self) {
        self.text.push_str("</g>");
    }

    /// A straight line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64)) {
        let mut path = Path::new();
        path.start(from);
        path.to(to);
        self.path(&path, "");
    }

    /// A path; attributes are ours, never a model's.
    pub fn path(&mut self, path: &Path, attributes: &str) {
        if !path.text.is_empty() {
            let space = if attributes.is_empty() { "" } else { " " };
            let _ = write!(self.text, "<path d=\"{}\"{space}{attributes}/>", path.text);
        }
    }

    /// What stands elsewhere on the page under a name of ours, once more.
    pub fn again(&mut self, name: &'static str) {
        let _ = write!(self.text, "<use href=\"#{name}\"/>");
    }

    /// A circle.
    pub fn circle(&mut self, at: (f64, f64), radius: f64) {
        let _ = write!(self.text, "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>", short(at.0), short(at.1), short(radius));
    }

    /// An upright rectangle; attributes are ours, never a model's.
    pub fn rectangle(&mut self, corner: (f64, f64), size: (f64, f64), attributes: &str) {
        let space = if attributes.is_empty() { "" } else { " " };
        let _ = write!(
            self.text,
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{space}{attributes}/>",
            short(corner.0),
            short(corner.1),
            short(size.0),
            short(size.1)
        );
    }

    /// Text, escaped.
    pub fn text(&mut self, at: (f64, f64), anchor: Anchor, text: &str) {
        let _ = write!(self.text, "<text x=\"{}\" y=\"{}\"", short(at.0), short(at.1));
        if anchor != Anchor::Start {
            let _ = write!(self.text, " text-anchor=\"{}\"", anchor.word());
        }
        let _ = write!(self.text, ">{}</text>", escape(text));
    }

    /// Text turned about its anchor by `degrees` clockwise, centred, escaped.
    pub fn turned_text(&mut self, at: (f64, f64), degrees: f64, text: &str) {
        let (x, y, turn) = (short(at.0), short(at.1), short(degrees));
        let text = escape(text);
        let _ = write!(
            self.text,
            "<text transform=\"translate({x} {y})rotate({turn})\" text-anchor=\"middle\">{text}</text>"
        );
    }

    /// The finished drawing.
    pub fn finish(mut self) -> String {
        self.text.push_str("</svg>");
        self.text
    }
}

/// The points of a path, to a tenth of a px, each after the first written as a step: half the size of absolute points.
#[derive(Debug, Clone, Default)]
pub struct Path {
    text: String,
    /// Where the pen stands, in tenths of a px as written, so that rounding does not add up.
    pen: (i64, i64),
    steps: bool,
}

impl Path {
    /// A path without points.
    pub fn new() -> Self {
        Self::default()
    }

    /// Whether nothing was drawn.
    pub fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// Lifts the pen and sets it down.
    pub fn start(&mut self, at: (f64, f64)) {
        let (x, y) = (tenths(at.0), tenths(at.1));
        self.text.push('M');
        self.push_pair(x, y);
        self.pen = (x, y);
        self.steps = false;
    }

    /// Draws a straight line.
    pub fn to(&mut self, at: (f64, f64)) {
        let (x, y) = (tenths(at.0), tenths(at.1));
        if (x, y) == self.pen {
            return;
        }
        if self.steps {
            // A minus sign separates by itself.
            if x >= self.pen.0 {
                self.text.push(' ');
            }
        } else {
            self.text.push('l');
            self.steps = true;
        }
        self.push_pair(x - self.pen.0, y - self.pen.1);
        self.pen = (x, y);
    }

    /// Draws a cubic curve by its two inner corners and its end; also where nothing is to be seen of it, so that paths of
    /// the same parts stay alike.
    pub fn curve(&mut self, near: (f64, f64), far: (f64, f64), end: (f64, f64)) {
        self.text.push('c');
        for (place, corner) in [near, far, end].into_iter().enumerate() {
            let (x, y) = (tenths(corner.0), tenths(corner.1));
            // A minus sign separates by itself.
            if place > 0 && x >= self.pen.0 {
                self.text.push(' ');
            }
            self.push_pair(x - self.pen.0, y - self.pen.1);
        }
        self.pen = (tenths(end.0), tenths(end.1));
        self.steps = false;
    }

    /// The path as the attribute `d` has it: letters, digits, spaces, points and signs.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Joins the end to the start.
    pub fn shut(&mut self) {
        self.text.push('z');
        self.steps = false;
    }

    fn push_pair(&mut self, x: i64, y: i64) {
        push_tenths(&mut self.text, x);
        if y >= 0 {
            self.text.push(' ');
        }
        push_tenths(&mut self.text, y);
    }
}

fn tenths(value: f64) -> i64 {
    // A drawing is a few thousand px wide; the cast saturates beyond that and turns NaN into 0.
    (value * 10.0).round() as i64
}

fn push_tenths(text: &mut String, tenths: i64) {
    if tenths < 0 {
        text.push('-');
    }
    let size = tenths.unsigned_abs();
    let (whole, tenth) = (size / 10, size % 10);
    if whole > 0 || tenth == 0 {
        let _ = write!(text, "{whole}");
    }
    if tenth > 0 {
        let _ = write!(text, ".{tenth}");
    }
}

fn short(value: f64) -> String {
    let mut text = String::new();
    push_tenths(&mut text, tenths(value));
    text
}

/// Text made safe for an element or a quoted attribute; characters that XML forbids are dropped.
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_and_labels_are_escaped() {
        let mut svg = Svg::new(10.0, 10.0, "figure", "a \"b\" <c>");
        svg.text((1.0, 2.0), Anchor::Middle, "<script>alert(1)</script> & 'x'\u{1}");
        let out = svg.finish();
        assert!(out.contains("aria-label=\"a &quot;b&quot; &lt;c&gt;\""), "{out}");
        assert!(out.contains(">&lt;script&gt;alert(1)&lt;/script&gt; &amp; &#39;x&#39;</text>"), "{out}");
    }

    #[test]
    fn data_of_a_group_is_escaped() {
        let mut svg = Svg::new(10.0, 10.0, "figure", "");
        svg.open_data("fill=\"none\"", &[("name", "\"><script>".to_owned())]);
        svg.close();
        assert!(svg.finish().contains("<g fill=\"none\" data-name=\"&quot;&gt;&lt;script&gt;\"></g>"));
    }

    #[test]
    fn paths_are_short_and_do_not_drift() {
        let mut path = Path::new();
        path.start((0.0, 0.0));
        for step in 1..=30 {
            path.to((f64::from(step) * 0.04, 0.0));
        }
        path.to((1.2, -3.5));
        // 30 steps of 0.04 px are 1.2 px: twelve steps of a tenth, then the last one.
        assert_eq!(path.text, format!("M0 0l.1 0{} 0-3.5", " .1 0".repeat(11)));
    }

    #[test]
    fn a_curve_is_written_even_where_nothing_bends() {
        let mut path = Path::new();
        path.start((1.0, 2.0));
        path.curve((1.5, 2.0), (2.0, 1.0), (1.0, 2.0));
        path.curve((1.0, 2.0), (1.0, 2.0), (1.0, 2.0));
        assert_eq!(path.text(), "M1 2c.5 0 1-1 0 0c0 0 0 0 0 0");
    }

    #[test]
    fn a_number_that_is_none_draws_at_zero() {
        assert_eq!(short(f64::NAN), "0");
        assert_eq!(short(-0.04), "0");
        assert_eq!(short(-0.5), "-.5");
        assert_eq!(short(720.0), "720");
    }
}

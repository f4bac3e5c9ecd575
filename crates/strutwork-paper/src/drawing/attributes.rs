//! What a group hands down to what is in it: colours, lines, letters.

use super::{Anchor, Colour, DrawingError, Line, path};

/// The white edge around names where an element is of class `names`, in the drawing's units.
const HALO: f64 = 2.6;

/// How marks look at some place in a drawing.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Looks {
    pub fill: Option<Colour>,
    pub fill_opacity: f64,
    pub stroke: Option<Colour>,
    pub width: f64,
    pub dashes: Vec<f64>,
    pub round: bool,
    pub size: f64,
    pub bold: bool,
    pub italic: bool,
    pub anchor: Anchor,
    pub halo: f64,
    pub moved: (f64, f64),
    pub turned: f64,
}

impl Looks {
    /// How an SVG starts.
    pub(super) const fn start() -> Self {
        Self {
            fill: Some(Colour(0, 0, 0)),
            fill_opacity: 1.0,
            stroke: None,
            width: 1.0,
            dashes: Vec::new(),
            round: false,
            size: 16.0,
            bold: false,
            italic: false,
            anchor: Anchor::Start,
            halo: 0.0,
            moved: (0.0, 0.0),
            turned: 0.0,
        }
    }

    /// Takes in an attribute; `false` where it is none of looks.
    pub(super) fn take(&mut self, name: &str, value: &str) -> Result<bool, DrawingError> {
        let unknown = || DrawingError::Attribute { name: name.to_owned(), value: value.to_owned() };
        let number = || value.parse::<f64>().ok().filter(|number| number.is_finite()).ok_or_else(unknown);
        match name {
            "fill" => self.fill = colour(value).ok_or_else(unknown)?,
            "fill-opacity" => self.fill_opacity = number()?.clamp(0.0, 1.0),
            "stroke" => self.stroke = colour(value).ok_or_else(unknown)?,
            "stroke-width" => self.width = number()?,
            "stroke-dasharray" if value == "none" => self.dashes.clear(),
            "stroke-dasharray" => self.dashes = path::numbers(value).ok_or_else(unknown)?,
            "stroke-linecap" | "stroke-linejoin" => self.round = value == "round",
            "font-size" => self.size = number()?,
            "font-weight" => self.bold = is_bold(value).ok_or_else(unknown)?,
            "font-style" => self.italic = value == "italic",
            "text-anchor" => self.anchor = anchor(value).ok_or_else(unknown)?,
            "transform" => {
                let (moved, turned) = transform(value).ok_or_else(unknown)?;
                self.moved = (self.moved.0 + moved.0, self.moved.1 + moved.1);
                self.turned += turned;
            }
            "class" if value.split_ascii_whitespace().any(|class| class == "names") => self.halo = HALO,
            _ => return Ok(false),
        }
        Ok(true)
    }

    /// The inside of a path.
    pub(super) fn inside(&self) -> Option<(Colour, f64)> {
        self.fill.map(|colour| (colour, self.fill_opacity))
    }

    /// The line of a path; none where it has no width.
    pub(super) fn line(&self) -> Option<Line> {
        let colour = self.stroke.filter(|_| self.width > 0.0)?;
        Some(Line { colour, width: self.width, dashes: self.dashes.clone(), round: self.round })
    }
}

/// A colour, or that there is none; `None` where it is neither.
fn colour(value: &str) -> Option<Option<Colour>> {
    match value {
        "none" => return Some(None),
        "black" => return Some(Some(Colour(0, 0, 0))),
        "white" => return Some(Some(Colour(255, 255, 255))),
        _ => {}
    }
    let digits = value.strip_prefix('#')?;
    let doubled: String = match digits.len() {
        3 => digits.chars().flat_map(|digit| [digit, digit]).collect(),
        6 => digits.to_owned(),
        _ => return None,
    };
    let share = |at: usize| u8::from_str_radix(doubled.get(at..at + 2)?, 16).ok();
    Some(Some(Colour(share(0)?, share(2)?, share(4)?)))
}

fn is_bold(value: &str) -> Option<bool> {
    match value {
        "bold" => Some(true),
        "normal" => Some(false),
        _ => value.parse::<u32>().ok().map(|weight| weight >= 600),
    }
}

fn anchor(value: &str) -> Option<Anchor> {
    match value {
        "start" => Some(Anchor::Start),
        "middle" => Some(Anchor::Middle),
        "end" => Some(Anchor::End),
        _ => None,
    }
}

/// `translate(x y)`, `rotate(degrees)` or the first and then the second.
fn transform(value: &str) -> Option<((f64, f64), f64)> {
    let (mut moved, mut turned) = ((0.0, 0.0), 0.0);
    let mut rest = value.trim();
    while !rest.is_empty() {
        let (name, after) = rest.split_once('(')?;
        let (inside, after) = after.split_once(')')?;
        let numbers = path::numbers(inside)?;
        match (name.trim(), numbers.as_slice(), turned == 0.0) {
            ("translate", [x, y], true) => moved = (moved.0 + x, moved.1 + y),
            ("rotate", [degrees], true) => turned = *degrees,
            _ => return None,
        }
        rest = after.trim_start();
    }
    Some((moved, turned))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_are_read_in_both_lengths() {
        assert_eq!(colour("#1f5582"), Some(Some(Colour(0x1f, 0x55, 0x82))));
        assert_eq!(colour("#fff"), Some(Some(Colour(255, 255, 255))));
        assert_eq!(colour("none"), Some(None));
        for wrong in ["red", "#12", "#é1234", "url(#a)"] {
            assert_eq!(colour(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn a_move_and_a_turn_are_read_and_nothing_else() {
        assert_eq!(transform("translate(3 4)rotate(-90)"), Some(((3.0, 4.0), -90.0)));
        for wrong in ["scale(2)", "rotate(1)translate(2 3)", "translate(1)", "rotate(9"] {
            assert_eq!(transform(wrong), None, "{wrong}");
        }
    }
}

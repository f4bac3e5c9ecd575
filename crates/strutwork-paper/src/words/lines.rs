//! Words to lines.

use super::atoms::{Atom, Lead, Look, atoms, divided};
use super::faces::FaceId;
use super::shape::{Glyph, Shaped, Shaper};
use crate::drawing::Colour;
use crate::text::{Ink, Text};
use crate::theme::Setting;

/// How a text is set where its spans do not say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Set {
    /// Size and distance of lines.
    pub setting: Setting,
    /// Whether all of it is bold.
    pub bold: bool,
    /// Its colour.
    pub ink: Ink,
}

/// Letters in one face, size and colour on one line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Run {
    /// From the start of the line, pt.
    pub x: f64,
    /// Above the line, pt.
    pub rise: f64,
    /// Size of the letters, pt.
    pub size: f64,
    /// Their face.
    pub face: FaceId,
    /// Their colour.
    pub colour: Colour,
    /// Them.
    pub text: String,
    /// Their shapes.
    pub glyphs: Vec<Glyph>,
    /// Their width, pt.
    pub width: f64,
    /// The place that they lead to, by the shaper's numbers.
    pub to: Option<usize>,
    /// Whether they are not drawn, but read before what follows.
    pub unseen: bool,
}

/// A line of words.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Line {
    /// Its parts, from left to right.
    pub runs: Vec<Run>,
    /// Its width, pt.
    pub width: f64,
}

/// What a text wants of a column.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Want {
    /// Width of its longest line where none is broken, pt.
    pub line: f64,
    /// Width of its longest word, pt.
    pub word: f64,
}

/// Rounding of sums of widths must not break a line that fits.
const SLACK: f64 = 1e-6;

impl Set {
    /// Plain text of this size.
    pub(crate) const fn plain(setting: Setting) -> Self {
        Self { setting, bold: false, ink: Ink::Plain }
    }

    /// Bold text of this size.
    pub(crate) const fn bold(setting: Setting) -> Self {
        Self { setting, bold: true, ink: Ink::Plain }
    }

    /// Text of what is secondary.
    pub(crate) const fn soft(setting: Setting) -> Self {
        Self { setting, bold: false, ink: Ink::Soft }
    }
}

impl Shaper {
    /// The lines of a text that are at most `width` wide; at least one.
    pub(crate) fn lines(&mut self, text: &Text, set: Set, width: f64) -> Vec<Line> {
        let mut lines: Vec<Line> = Vec::new();
        for atom in atoms(self, text, set.setting.size, set.bold, set.ink) {
            if atom.width > width + SLACK {
                for piece in divided(self, &atom) {
                    self.place(&mut lines, &piece, width);
                }
            } else {
                self.place(&mut lines, &atom, width);
            }
        }
        lines
    }

    /// The whole text on one line.
    pub(crate) fn line(&mut self, text: &Text, set: Set) -> Line {
        let mut lines = self.lines(text, set, f64::INFINITY);
        lines.truncate(1);
        lines.pop().unwrap_or_default()
    }

    /// What a text wants of a column.
    pub(crate) fn want(&mut self, text: &Text, set: Set) -> Want {
        let (mut want, mut line) = (Want::default(), 0.0);
        for atom in atoms(self, text, set.setting.size, set.bold, set.ink) {
            line = match atom.lead {
                Lead::Start => 0.0,
                Lead::Nothing => line,
                Lead::Space(look) => line + self.space(look),
            } + atom.width;
            want = Want { line: want.line.max(line), word: want.word.max(atom.width) };
        }
        want
    }

    /// Ends a line with a space that takes no room, so that what is read aloud or copied does not join its last word to the
    /// first of what follows.
    pub(crate) fn part_from_next(&mut self, line: &mut Line) {
        if let Some(run) = line.runs.last_mut() {
            for space in self.word(run.face, " ").iter() {
                let before = run.text.len();
                let moved = |glyph: &Glyph| Glyph { start: glyph.start + before, end: glyph.end + before, ..*glyph };
                run.glyphs.extend(space.glyphs.iter().map(moved));
                run.text.push_str(&space.text);
            }
        }
    }

    fn space(&mut self, look: Look) -> f64 {
        self.advance(look.face, " ") * look.size
    }

    fn place(&mut self, lines: &mut Vec<Line>, atom: &Atom, width: f64) {
        let lead = match atom.lead {
            Lead::Space(look) => self.space(look),
            Lead::Start | Lead::Nothing => 0.0,
        };
        let fits = lines.last().is_some_and(|line| line.width + lead + atom.width <= width + SLACK);
        if lines.is_empty() || atom.lead == Lead::Start || !fits {
            if let (Lead::Space(_), Some(last)) = (atom.lead, lines.last_mut()) {
                self.part_from_next(last);
            }
            lines.push(Line::default());
        }
        let Some(line) = lines.last_mut() else { return };
        if let (Lead::Space(look), false) = (atom.lead, line.runs.is_empty()) {
            let space = self.word(look.face, " ");
            line.add(look, &space);
        }
        for (look, shaped) in &atom.parts {
            line.add(*look, shaped);
        }
    }
}

impl Line {
    /// Makes its letters smaller.
    pub(crate) fn scale(&mut self, by: f64) {
        self.width *= by;
        for run in &mut self.runs {
            run.x *= by;
            run.rise *= by;
            run.size *= by;
            run.width *= by;
        }
    }

    fn add(&mut self, look: Look, parts: &[Shaped]) {
        for part in parts {
            let joins = self.runs.last().is_some_and(|run| {
                (run.face, run.size, run.rise, run.colour, run.to, run.unseen)
                    == (part.face, look.size, look.rise, look.colour, look.to, look.unseen)
            });
            if !joins {
                self.runs.push(Run {
                    x: self.width,
                    rise: look.rise,
                    size: look.size,
                    face: part.face,
                    colour: look.colour,
                    text: String::new(),
                    glyphs: Vec::new(),
                    width: 0.0,
                    to: look.to,
                    unseen: look.unseen,
                });
            }
            let width = part.advance * look.size;
            if let Some(run) = self.runs.last_mut() {
                let before = run.text.len();
                let moved = |glyph: &Glyph| Glyph { start: glyph.start + before, end: glyph.end + before, ..*glyph };
                run.glyphs.extend(part.glyphs.iter().map(moved));
                run.text.push_str(&part.text);
                run.width += width;
            }
            self.width += width;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theme;

    fn set() -> Set {
        Set::plain(theme::BODY)
    }

    fn shaper() -> Shaper {
        Shaper::new().expect("faces are built in")
    }

    fn letters(lines: &[Line]) -> Vec<String> {
        lines.iter().map(|line| line.runs.iter().map(|run| run.text.as_str()).collect()).collect()
    }

    #[test]
    fn lines_are_as_full_as_their_width_allows() {
        let mut shaper = shaper();
        let text: Text = "one two three four five six seven".into();
        let width = shaper.line(&"one two three".into(), set()).width;
        let lines = shaper.lines(&text, set(), width);
        assert_eq!(letters(&lines), ["one two three ", "four five six ", "seven"]);
        assert!(lines.iter().all(|line| line.width <= width + SLACK));
    }

    #[test]
    fn a_word_wider_than_a_line_is_divided_and_keeps_its_letters() {
        let mut shaper = shaper();
        let long = "0123456789abcdef".repeat(8);
        let lines = shaper.lines(&Text::new().mono(long.as_str()), set(), 100.0);
        assert!(lines.len() > 4);
        assert!(lines.iter().all(|line| line.width <= 100.0 + SLACK));
        assert_eq!(letters(&lines).concat(), long);
    }

    #[test]
    fn a_width_of_nothing_still_ends() {
        let lines = shaper().lines(&"abc d".into(), set(), 0.0);
        assert_eq!(letters(&lines), ["a", "b", "c ", "d"]);
    }

    #[test]
    fn styles_share_a_line_and_runs_stand_one_after_the_other() {
        let text = Text::new().plain("N").low("Ed").plain(" = ").bold("12");
        let line = shaper().line(&text, set());
        assert_eq!(line.runs.len(), 4);
        assert!(line.runs[1].rise < 0.0 && line.runs[1].size < line.runs[0].size);
        for pair in line.runs.windows(2) {
            assert!((pair[0].x + pair[0].width - pair[1].x).abs() < 1e-9);
        }
    }

    #[test]
    fn what_a_text_wants_is_what_its_lines_take() {
        let mut shaper = shaper();
        let text: Text = "a longer word\nx".into();
        let want = shaper.want(&text, set());
        assert!((want.line - shaper.line(&"a longer word".into(), set()).width).abs() < 1e-9);
        assert!((want.word - shaper.line(&"longer".into(), set()).width).abs() < 1e-9);
    }
}

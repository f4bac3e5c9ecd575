//! Words that no line divides, and where a line may break.

use std::rc::Rc;

use super::faces::FaceId;
use super::shape::{Shaped, Shaper, is_mark};
use crate::drawing::Colour;
use crate::text::{Ink, Rise, Style, Text};
use crate::theme;

/// How a part of a word looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Look {
    pub face: FaceId,
    pub size: f64,
    /// Above the line, pt.
    pub rise: f64,
    pub colour: Colour,
    /// The place that it leads to.
    pub to: Option<usize>,
    /// Whether it is for those who read or copy the text alone.
    pub unseen: bool,
}

/// What stands before a word.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Lead {
    /// Nothing; the line may break.
    Nothing,
    /// A space; the line may break.
    Space(Look),
    /// The start of a line.
    Start,
}

/// A word that no line divides.
#[derive(Debug, Clone)]
pub(super) struct Atom {
    pub lead: Lead,
    pub parts: Vec<(Look, Rc<[Shaped]>)>,
    /// Its letters, part by part, for when it is wider than a line after all.
    pub letters: Vec<(Look, String)>,
    pub width: f64,
}

/// Units that are not parted from the number before them.
const UNITS: [&str; 22] = [
    "mm", "m", "mm²", "mm³", "mm⁴", "kg", "N", "kN", "N·m", "kN·m", "MPa", "GPa", "deg", "°", "g", "Hz", "s", "%", "K",
    "°C", "N·m/deg", "kg·m²",
];

/// The words of a text. A text without words is one empty word.
pub(super) fn atoms(shaper: &mut Shaper, text: &Text, size: f64, bold: bool, ink: Ink) -> Vec<Atom> {
    let mut gathered = Gathered { atoms: Vec::new(), lead: Lead::Start, open: false };
    for span in &text.spans {
        let look = Look { to: shaper.place_named(&span.to), ..look(span.style, size, bold, ink) };
        let letters: Vec<char> = span.text.chars().filter(|letter| !is_dropped(*letter)).collect();
        let mut word = String::new();
        for (at, letter) in letters.iter().copied().enumerate() {
            match letter {
                '\n' => {
                    gathered.add(look, &mut word);
                    if gathered.lead == Lead::Start {
                        gathered.empty();
                    }
                    gathered.lead(Lead::Start);
                }
                '\u{200b}' => {
                    gathered.add(look, &mut word);
                    gathered.lead(Lead::Nothing);
                }
                ' ' | '\t' if stays_with_its_number(&letters, at) => word.push('\u{a0}'),
                '\u{a0}' | '\u{202f}' => word.push(letter),
                letter if letter.is_whitespace() => {
                    gathered.add(look, &mut word);
                    gathered.lead(Lead::Space(look));
                }
                letter => {
                    word.push(letter);
                    if breaks_after(&letters, at) {
                        gathered.add(look, &mut word);
                        gathered.lead(Lead::Nothing);
                    }
                }
            }
        }
        gathered.add(look, &mut word);
    }
    if gathered.atoms.is_empty() {
        gathered.empty();
    }
    let mut atoms = gathered.atoms;
    for atom in &mut atoms {
        for (look, letters) in &atom.letters {
            let shaped = shaper.word(look.face, letters);
            atom.width += shaped.iter().map(|part| part.advance).sum::<f64>() * look.size;
            atom.parts.push((*look, shaped));
        }
    }
    atoms
}

/// The letters of a word, each a word of its own, accents with theirs.
pub(super) fn divided(shaper: &mut Shaper, atom: &Atom) -> Vec<Atom> {
    let mut pieces: Vec<Atom> = Vec::new();
    for (look, letters) in &atom.letters {
        let mut groups: Vec<String> = Vec::new();
        for letter in letters.chars() {
            match groups.last_mut() {
                Some(group) if is_mark(letter) => group.push(letter),
                _ => groups.push(letter.to_string()),
            }
        }
        for group in groups {
            let shaped = shaper.word(look.face, &group);
            let width = shaped.iter().map(|part| part.advance).sum::<f64>() * look.size;
            let lead = if pieces.is_empty() { atom.lead } else { Lead::Nothing };
            pieces.push(Atom { lead, parts: vec![(*look, shaped)], letters: vec![(*look, group)], width });
        }
    }
    pieces
}

struct Gathered {
    atoms: Vec<Atom>,
    lead: Lead,
    /// Whether the last word may still grow.
    open: bool,
}

impl Gathered {
    fn add(&mut self, look: Look, word: &mut String) {
        if word.is_empty() {
            return;
        }
        let letters = (look, std::mem::take(word));
        match self.atoms.last_mut() {
            Some(last) if self.open => last.letters.push(letters),
            _ => self.atoms.push(Atom { lead: self.lead, parts: Vec::new(), letters: vec![letters], width: 0.0 }),
        }
        self.open = true;
        self.lead = Lead::Nothing;
    }

    fn empty(&mut self) {
        self.atoms.push(Atom { lead: Lead::Start, parts: Vec::new(), letters: Vec::new(), width: 0.0 });
    }

    fn lead(&mut self, lead: Lead) {
        // A line feed beside spaces is a line feed; spaces at the start of a line are none.
        if lead == Lead::Start || self.lead != Lead::Start || self.open {
            self.lead = lead;
        }
        self.open = false;
    }
}

fn look(style: Style, size: f64, bold: bool, ink: Ink) -> Look {
    let face = match (style.mono, style.bold || bold, style.italic) {
        (true, ..) => FaceId::Mono,
        (_, true, _) => FaceId::Bold,
        (_, _, true) => FaceId::Italic,
        _ => FaceId::Text,
    };
    // Typewriter letters are wide: set a little smaller they look alike.
    let size = if style.mono { size * 0.88 } else { size };
    let (size, rise) = match style.rise {
        Rise::Line => (size, 0.0),
        Rise::Sub => (size * 0.7, -size * 0.16),
        Rise::Super => (size * 0.7, size * 0.36),
        // Not drawn: it takes no room.
        Rise::Unseen => (0.0, 0.0),
    };
    let ink = if style.ink == Ink::Inherit { ink } else { style.ink };
    Look { face, size, rise, colour: theme::colour(ink), to: None, unseen: style.rise == Rise::Unseen }
}

/// Control characters, marks of order and of byte order: they are no letters, and may change how a text reads.
fn is_dropped(letter: char) -> bool {
    (letter.is_control() && letter != '\n' && letter != '\t')
        || matches!(letter, '\u{ad}' | '\u{200c}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}')
        || matches!(letter, '\u{feff}' | '\u{fff0}'..='\u{ffff}' | '\u{e000}'..='\u{f8ff}')
}

/// Whether a space stands between a number and its unit.
fn stays_with_its_number(letters: &[char], space: usize) -> bool {
    let before = space.checked_sub(1).and_then(|at| letters.get(at));
    if !before.is_some_and(char::is_ascii_digit) {
        return false;
    }
    let rest = &letters[space + 1..];
    let ends = |letter: &&char| letter.is_whitespace() || matches!(letter, ',' | '.' | ';' | ':' | ')' | '?' | '!');
    let longest = UNITS.iter().map(|unit| unit.chars().count()).max().unwrap_or(0);
    let word: String = rest.iter().take(longest + 1).take_while(|letter| !ends(letter)).collect();
    UNITS.contains(&word.as_str())
}

/// Whether a line may break after this letter although no space stands there.
fn breaks_after(letters: &[char], at: usize) -> bool {
    let Some(next) = letters.get(at + 1) else { return false };
    let before = at.checked_sub(1).map_or(' ', |at| letters[at]);
    match letters[at] {
        '-' => before.is_alphabetic() && next.is_alphabetic(),
        '/' => before.is_alphanumeric() && next.is_alphabetic() && at > 3,
        '\u{2014}' => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(text: Text) -> Vec<String> {
        let mut shaper = Shaper::new().expect("faces are built in");
        let atoms = atoms(&mut shaper, &text, 10.0, false, Ink::Plain);
        atoms.iter().map(|atom| atom.letters.iter().map(|(_, letters)| letters.as_str()).collect()).collect()
    }

    #[test]
    fn spaces_part_words_and_spans_do_not() {
        let text = Text::new().plain("the force N").low("Ed").plain(" acts");
        assert_eq!(words(text), ["the", "force", "NEd", "acts"]);
    }

    #[test]
    fn a_number_keeps_its_unit() {
        assert_eq!(words("a wall of 2 mm, 3 pieces".into()), ["a", "wall", "of", "2\u{a0}mm,", "3", "pieces"]);
    }

    #[test]
    fn long_compounds_break_and_signs_do_not() {
        assert_eq!(words("cold-formed -5 x-7".into()), ["cold-", "formed", "-5", "x-7"]);
    }

    #[test]
    fn line_feeds_stay_and_other_control_characters_go() {
        let text: Text = "a\u{7}\u{202e}b\n\nc".into();
        assert_eq!(words(text), ["ab", "", "c"]);
        assert_eq!(words("".into()), [""]);
    }
}

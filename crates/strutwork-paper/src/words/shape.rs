//! Letters to placed shapes, word by word; each word of a face is shaped once.

use std::collections::BTreeMap;
use std::rc::Rc;

use rustybuzz::ttf_parser::{GlyphId, OutlineBuilder};
use rustybuzz::{Direction, Face, Script, ShapePlan, UnicodeBuffer};

use super::faces::{self, FaceId};
use crate::error::PaperError;

/// Stands for a letter that no face has.
const NO_SUCH_LETTER: char = '\u{25a1}';

/// The shape of a letter, or of several joined ones.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Glyph {
    /// Its number in the face.
    pub id: u32,
    /// From it to the next, in sizes of the letters.
    pub advance: f64,
    /// Moved by this from its place, in sizes of the letters.
    pub shift: (f64, f64),
    /// The bytes of the text that it shows.
    pub start: usize,
    /// Where they end.
    pub end: usize,
}

/// A text in one face.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shaped {
    /// Its face.
    pub face: FaceId,
    /// Its letters.
    pub text: String,
    /// Its shapes.
    pub glyphs: Vec<Glyph>,
    /// Its width, in sizes of the letters.
    pub advance: f64,
}

/// Makes shapes of letters, and remembers them.
pub(crate) struct Shaper {
    faces: Vec<Face<'static>>,
    plans: Vec<(FaceId, Script, Direction, Rc<ShapePlan>)>,
    known: [BTreeMap<String, Rc<[Shaped]>>; FaceId::ALL.len()],
    buffer: UnicodeBuffer,
    places: BTreeMap<String, usize>,
}

impl Shaper {
    /// A shaper that knows no word yet.
    ///
    /// # Errors
    /// A built-in face that cannot be read.
    pub(crate) fn new() -> Result<Self, PaperError> {
        let faces = FaceId::ALL.into_iter().map(faces::read).collect::<Result<_, _>>()?;
        Ok(Self {
            faces,
            plans: Vec::new(),
            known: Default::default(),
            buffer: UnicodeBuffer::new(),
            places: BTreeMap::new(),
        })
    }

    /// The number of a place that words lead to; `None` for no name.
    pub(crate) fn place_named(&mut self, name: &str) -> Option<usize> {
        if name.is_empty() {
            return None;
        }
        let next = self.places.len();
        Some(self.places.get(name).copied().unwrap_or_else(|| *self.places.entry(name.to_owned()).or_insert(next)))
    }

    /// How many places have a number.
    pub(crate) fn places(&self) -> usize {
        self.places.len()
    }

    /// The parts of a word, each in a face that has its letters.
    pub(crate) fn word(&mut self, face: FaceId, text: &str) -> Rc<[Shaped]> {
        if let Some(known) = self.known[face.place()].get(text) {
            return Rc::clone(known);
        }
        let parts: Rc<[Shaped]> =
            self.by_face(face, text).into_iter().map(|(face, part)| self.shape(face, part)).collect();
        self.known[face.place()].insert(text.to_owned(), Rc::clone(&parts));
        parts
    }

    /// How many units of a face are the size of its letters.
    pub(crate) fn units(&self, face: FaceId) -> f64 {
        f64::from(self.faces[face.place()].units_per_em())
    }

    /// Draws the outline of a shape, in units of its face; nothing for a blank.
    pub(crate) fn outline(&self, face: FaceId, glyph: u32, pen: &mut dyn OutlineBuilder) {
        // Numbers of shapes come from the face itself: they have 16 bits.
        if let Ok(glyph) = u16::try_from(glyph) {
            let _box = self.faces[face.place()].outline_glyph(GlyphId(glyph), pen);
        }
    }

    /// Width of a text in one line, in sizes of its letters.
    pub(crate) fn advance(&mut self, face: FaceId, text: &str) -> f64 {
        self.word(face, text).iter().map(|part| part.advance).sum()
    }

    /// Parts of a text that one face can show: the wanted one, else the spare one.
    fn by_face(&self, wanted: FaceId, text: &str) -> Vec<(FaceId, String)> {
        let mut parts: Vec<(FaceId, String)> = Vec::new();
        for letter in text.chars() {
            let has = |face: FaceId| self.faces[face.place()].glyph_index(letter).is_some();
            let mark = is_mark(letter);
            let (face, letter) = match parts.last() {
                // A mark stays with its letter, or has nothing to stand on.
                Some((last, _)) if mark && has(*last) => (*last, letter),
                _ if has(wanted) => (wanted, letter),
                _ if has(FaceId::Spare) => (FaceId::Spare, letter),
                _ => (wanted, NO_SUCH_LETTER),
            };
            match parts.last_mut() {
                Some((last, part)) if *last == face => part.push(letter),
                _ => parts.push((face, letter.to_string())),
            }
        }
        parts
    }

    fn shape(&mut self, id: FaceId, text: String) -> Shaped {
        let mut buffer = std::mem::take(&mut self.buffer);
        buffer.push_str(&text);
        buffer.guess_segment_properties();
        let (script, direction) = (buffer.script(), buffer.direction());
        let face = &self.faces[id.place()];
        let known = self.plans.iter().find(|plan| (plan.0, plan.1, plan.2) == (id, script, direction));
        let plan = match known {
            Some((.., plan)) => Rc::clone(plan),
            None => {
                let plan = Rc::new(ShapePlan::new(face, direction, Some(script), None, &[]));
                self.plans.push((id, script, direction, Rc::clone(&plan)));
                plan
            }
        };
        let shaped = rustybuzz::shape_with_plan(face, &plan, buffer);
        let em = f64::from(face.units_per_em());
        let mut starts: Vec<usize> = shaped.glyph_infos().iter().map(|info| info.cluster as usize).collect();
        starts.sort_unstable();
        starts.dedup();
        let end_of = |start: usize| {
            let next = starts.partition_point(|other| *other <= start);
            starts.get(next).copied().unwrap_or(text.len())
        };
        let both = shaped.glyph_infos().iter().zip(shaped.glyph_positions());
        let glyphs: Vec<Glyph> = both
            .map(|(info, position)| Glyph {
                id: info.glyph_id,
                advance: f64::from(position.x_advance) / em,
                shift: (f64::from(position.x_offset) / em, f64::from(position.y_offset) / em),
                start: info.cluster as usize,
                end: end_of(info.cluster as usize),
            })
            .collect();
        self.buffer = shaped.clear();
        let advance = glyphs.iter().map(|glyph| glyph.advance).sum();
        Shaped { face: id, text, glyphs, advance }
    }
}

/// Whether a letter is an accent that stands on the one before it.
pub(super) fn is_mark(letter: char) -> bool {
    matches!(letter, '\u{300}'..='\u{36f}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}' | '\u{20d0}'..='\u{20ff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shaper() -> Shaper {
        Shaper::new().expect("faces are built in")
    }

    #[test]
    fn figures_and_the_minus_sign_are_of_one_width() {
        let mut shaper = shaper();
        let one = shaper.advance(FaceId::Text, "1");
        for sign in ["0", "4", "9", "\u{2212}"] {
            assert!((shaper.advance(FaceId::Text, sign) - one).abs() < 1e-12, "{sign}");
        }
        assert!((one - 0.497).abs() < 1e-12);
    }

    #[test]
    fn an_accent_takes_no_width_and_stays_with_its_letter() {
        let mut shaper = shaper();
        let plain = shaper.advance(FaceId::Text, "λ");
        let word = shaper.word(FaceId::Text, "λ\u{304}");
        assert_eq!(word.len(), 1);
        assert!((word[0].advance - plain).abs() < 1e-12);
        assert_eq!((word[0].glyphs[0].start, word[0].glyphs[0].end), (0, word[0].text.len()));
    }

    #[test]
    fn signs_that_a_face_lacks_come_from_the_spare_one_and_unknown_letters_are_told() {
        let mut shaper = shaper();
        let faces: Vec<FaceId> = shaper.word(FaceId::Text, "a⊥b").iter().map(|part| part.face).collect();
        assert_eq!(faces, [FaceId::Text, FaceId::Spare, FaceId::Text]);
        assert_eq!(shaper.word(FaceId::Text, "梁")[0].text, NO_SUCH_LETTER.to_string());
    }

    #[test]
    fn letters_that_a_calculation_needs_are_in_the_face_of_text() {
        let mut shaper = shaper();
        for letter in "λγστχφΔαμβεθψηρνωΣΩ²³·−×÷√≤≥°→←✓≈±∞½ᵀ₀₁₂⁴⁻′″".chars()
        {
            let word = shaper.word(FaceId::Text, &letter.to_string());
            assert_eq!((word[0].face, word[0].text.as_str()), (FaceId::Text, letter.to_string().as_str()));
        }
    }
}

//! Which quantities are kept: patterns over their names.

use std::fmt;

use wildmatch::WildMatch;

use super::quantity::Key;

/// The word for the usual choice.
pub const USUAL: &str = "usual";

/// A pattern `KIND:CASE:SUBJECT:QUANTITY`. `*` stands for any text, `?` for one sign; a part that is empty or not there is
/// `*`. The word `usual` alone is the usual choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    text: String,
    parts: Option<[WildMatch; 4]>,
}

/// Why a text is no pattern.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PatternFault {
    /// Nothing stands there.
    #[error("a pattern must say something: KIND:CASE:SUBJECT:QUANTITY, such as mount::drive*:axial_n, or `usual`")]
    Empty,
    /// More than four parts.
    #[error(
        "`{0}` has more than the four parts KIND:CASE:SUBJECT:QUANTITY; where a name holds a colon, write ? for it"
    )]
    TooManyParts(String),
}

impl Pattern {
    /// Reads a pattern.
    ///
    /// # Errors
    /// [`PatternFault`] where it is empty or has more than four parts.
    pub fn new(text: &str) -> Result<Self, PatternFault> {
        let text = text.trim();
        if text.is_empty() {
            return Err(PatternFault::Empty);
        }
        if text == USUAL {
            return Ok(Self::usual());
        }
        let given: Vec<&str> = text.split(':').collect();
        if given.len() > 4 {
            return Err(PatternFault::TooManyParts(text.to_owned()));
        }
        let part = |place: usize| match given.get(place) {
            None | Some(&"") => WildMatch::new("*"),
            Some(part) => WildMatch::new(part),
        };
        Ok(Self { text: text.to_owned(), parts: Some([part(0), part(1), part(2), part(3)]) })
    }

    /// The usual choice.
    pub fn usual() -> Self {
        Self { text: USUAL.to_owned(), parts: None }
    }

    /// Whether it is the usual choice.
    pub const fn is_usual(&self) -> bool {
        self.parts.is_none()
    }

    /// Whether a quantity is meant; none by the usual choice, which is no pattern of names.
    pub fn means(&self, key: &Key) -> bool {
        let Some(parts) = &self.parts else { return false };
        parts.iter().zip(key.parts()).all(|(pattern, part)| pattern.matches(part))
    }
}

impl fmt::Display for Pattern {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::results::Kind;

    fn means(pattern: &str, key: [&str; 4]) -> bool {
        let [kind, case, subject, quantity] = key;
        let kind = Kind::from_word(kind).unwrap();
        Pattern::new(pattern).unwrap().means(&Key::new(kind, case, subject, quantity))
    }

    #[test]
    fn parts_that_are_not_there_mean_anything() {
        let key = ["joint", "kerb", "front:left", "uz_mm"];
        for pattern in ["joint", "joint::front?left", "*::*left:u?_mm", "j*:kerb"] {
            assert!(means(pattern, key), "{pattern}");
        }
        for pattern in ["reaction", "joint:jack", ":::ux_mm", "join"] {
            assert!(!means(pattern, key), "{pattern}");
        }
    }

    #[test]
    fn what_is_no_pattern_is_told() {
        assert_eq!(Pattern::new("  "), Err(PatternFault::Empty));
        assert!(matches!(Pattern::new("a:b:c:d:e"), Err(PatternFault::TooManyParts(_))));
        assert!(Pattern::new(" usual ").unwrap().is_usual());
    }
}

//! The faces of letters that are built in. Their licences stand beside them in `fonts/`.

use rustybuzz::Face;

use crate::error::PaperError;

/// A built-in face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum FaceId {
    /// Plain text; its figures are all of one width.
    Text,
    /// Bold text.
    Bold,
    /// Slanted text.
    Italic,
    /// Typewriter letters.
    Mono,
    /// Plain, and for signs and scripts that the others do not have.
    Spare,
}

impl FaceId {
    /// All of them, in the order of their numbers.
    pub(crate) const ALL: [Self; 5] = [Self::Text, Self::Bold, Self::Italic, Self::Mono, Self::Spare];

    /// That of text which is bold or slanted.
    pub(crate) const fn of(bold: bool, italic: bool) -> Self {
        match (bold, italic) {
            (true, _) => Self::Bold,
            (_, true) => Self::Italic,
            _ => Self::Text,
        }
    }

    /// Its place in [`Self::ALL`].
    pub(crate) const fn place(self) -> usize {
        self as usize
    }

    /// Its file, for messages.
    pub(crate) const fn file(self) -> &'static str {
        match self {
            Self::Text => "SourceSans3-Regular.ttf",
            Self::Bold => "SourceSans3-Semibold.ttf",
            Self::Italic => "SourceSans3-It.ttf",
            Self::Mono => "SourceCodePro-Regular.ttf",
            Self::Spare => "DejaVuSans.ttf",
        }
    }
}

/// The file of a face.
pub(crate) const fn bytes(face: FaceId) -> &'static [u8] {
    match face {
        FaceId::Text => include_bytes!("../../fonts/SourceSans3-Regular.ttf"),
        FaceId::Bold => include_bytes!("../../fonts/SourceSans3-Semibold.ttf"),
        FaceId::Italic => include_bytes!("../../fonts/SourceSans3-It.ttf"),
        FaceId::Mono => include_bytes!("../../fonts/SourceCodePro-Regular.ttf"),
        FaceId::Spare => include_bytes!("../../fonts/DejaVuSans.ttf"),
    }
}

/// A face as the shaper reads it.
///
/// # Errors
/// A file that is no face.
pub(crate) fn read(face: FaceId) -> Result<Face<'static>, PaperError> {
    Face::from_slice(bytes(face), 0).ok_or(PaperError::Face(face.file()))
}

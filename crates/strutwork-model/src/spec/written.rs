//! A value as the user wrote it, and where.

use std::ops::{Deref, DerefMut};

use crate::diagnostic::Place;

/// Where a value is written: a [`Place`] in a known file, small enough to keep one for every cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// File name within the model folder.
    pub file: &'static str,
    /// Line, counted from 1; 0 for the file as a whole.
    pub line: u32,
    /// First column, counted from 1 in characters; 0 for the whole line.
    pub column: u32,
    /// How many characters; 0 for the whole line.
    pub width: u32,
}

impl Spot {
    /// The file as a whole.
    pub const fn file(file: &'static str) -> Self {
        Self { file, line: 0, column: 0, width: 0 }
    }

    /// A whole line.
    pub const fn line(file: &'static str, line: u32) -> Self {
        Self { file, line, column: 0, width: 0 }
    }

    /// The place for a diagnostic.
    pub fn place(self) -> Place {
        Place {
            file: self.file.to_owned(),
            line: self.line as usize,
            column: self.column as usize,
            width: self.width as usize,
        }
    }
}

/// A value as the user wrote it; `spot` is `None` where it came from a script.
///
/// Compared and serialised by its value alone. `.into()` makes one without a place.
#[derive(Debug, Clone, Copy, Default)]
pub struct Written<T> {
    /// The value, in door units.
    pub value: T,
    /// Where it is written.
    pub spot: Option<Spot>,
}

impl<T> Written<T> {
    /// A value with its place.
    pub const fn at(value: T, spot: Spot) -> Self {
        Self { value, spot: Some(spot) }
    }
}

impl<T> From<T> for Written<T> {
    fn from(value: T) -> Self {
        Self { value, spot: None }
    }
}

impl From<&str> for Written<String> {
    fn from(value: &str) -> Self {
        value.to_owned().into()
    }
}

impl<T: PartialEq> PartialEq for Written<T> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}

impl<T> Deref for Written<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T> DerefMut for Written<T> {
    fn deref_mut(&mut self) -> &mut T {
        &mut self.value
    }
}

impl<T: serde::Serialize> serde::Serialize for Written<T> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.value.serialize(serializer)
    }
}

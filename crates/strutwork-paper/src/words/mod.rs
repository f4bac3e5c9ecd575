//! From letters to lines: faces, shapes, words that no line divides, lines.

mod atoms;
mod faces;
mod lines;
mod shape;

pub(crate) use faces::{FaceId, bytes};
pub(crate) use lines::{Line, Run, Set, Want};
pub(crate) use rustybuzz::ttf_parser::OutlineBuilder;
pub(crate) use shape::{Glyph, Shaper};

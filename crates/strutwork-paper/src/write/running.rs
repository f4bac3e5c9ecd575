//! What stands at the head and at the foot of each page.

use krilla::tagging::{Artifact, ArtifactType, ContentTag};

use super::ops::Pen;
use crate::document::Running;
use crate::text::{Ink, Text};
use crate::theme;
use crate::words::Set;

/// Draws the head and the foot of a page; `number` from 0 and how many there are.
pub(super) fn draw(pen: &mut Pen<'_, '_>, running: &Running, page: (f64, f64), (number, of): (usize, usize)) {
    let (left, right) = (theme::SIDE, page.0 - theme::SIDE);
    let head = theme::TOP - 24.0;
    let foot = page.1 - theme::BOTTOM + 28.0;
    let set = Set::soft(theme::RUNNING);
    pen.surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Header)));
    ends(pen, (left, right, head), (&running.head, Set { bold: true, ink: Ink::Plain, ..set }), &running.head_right);
    pen.rule((left, head + 5.0), (right, head + 5.0), 0.6, theme::PLAIN);
    pen.surface.end_tagged();
    pen.surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Footer)));
    pen.rule((left, foot - 11.0), (right, foot - 11.0), 0.4, theme::RULE);
    ends(pen, (left, right, foot), (&running.foot, set), &format!("page {} of {of}", number + 1));
    pen.surface.end_tagged();
}

/// A text at each end of a line; the left one is cut where it would reach the right one.
fn ends(pen: &mut Pen<'_, '_>, (left, right, y): (f64, f64, f64), (text, set): (&str, Set), other: &str) {
    let soft = Set::soft(theme::RUNNING);
    let half = (right - left) * 0.5;
    let mut lines = pen.shaper.lines(&Text::from(other), soft, half);
    lines.truncate(1);
    let other = lines.pop().unwrap_or_default();
    let mut lines = pen.shaper.lines(&Text::from(text), set, right - left - other.width - 12.0);
    lines.truncate(1);
    pen.line((left, y), &lines.pop().unwrap_or_default());
    pen.line((right - other.width, y), &other);
}

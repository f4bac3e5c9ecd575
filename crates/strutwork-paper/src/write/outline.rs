//! Bookmarks.

use krilla::destination::XyzDestination;
use krilla::geom::Point;
use krilla::outline::{Outline, OutlineNode};

use super::Spot;
use super::tags::clean;
use crate::piece::Mark;

/// The headings as a tree: each in the nearest one above it of a higher rank.
pub(super) fn of(headings: &[Mark], spots: &[Spot]) -> Outline {
    let mut outline = Outline::new();
    let mut open: Vec<(u8, OutlineNode)> = Vec::new();
    for (mark, (page, y)) in headings.iter().zip(spots) {
        shut(&mut open, mark.level, &mut outline);
        let there = XyzDestination::new(*page, Point::from_xy(0.0, (y - 8.0).max(0.0) as f32));
        open.push((mark.level, OutlineNode::new(clean(&mark.line), there)));
    }
    shut(&mut open, 0, &mut outline);
    outline
}

/// Shuts all open nodes of this level and below.
fn shut(open: &mut Vec<(u8, OutlineNode)>, level: u8, outline: &mut Outline) {
    while open.last().is_some_and(|last| last.0 >= level) {
        if let Some((_, node)) = open.pop() {
            match open.last_mut() {
                Some((_, above)) => above.push_child(node),
                None => outline.push_child(node),
            }
        }
    }
}

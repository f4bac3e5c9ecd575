//! Two braces on one side of a chord: the gap between their toes, or how far they overlap.

use super::reading::{Beside, Branch};
use crate::code::joint::{Kind, stands_apart};

/// Below this overlap, as a share of the footprint, the code knows no overlap joint: 25 %, EN 1993-1-8 Table 7.8 (from memory).
/// Such a joint is judged as one without a gap.
const LEAST_OVERLAP: f64 = 0.25;

/// What `other`, at its place among the joint's braces, is to `one`.
///
/// ```text
/// g = |s₁ − s₂| − h₁/(2 sinθ₁) − h₂/(2 sinθ₂),  s where the axes meet the chord's face
/// ```
///
/// With axes that cross e beyond the chord's axis this is (e + h₀/2) sin(θ₁ + θ₂)/(sinθ₁ sinθ₂) − h₁/(2 sinθ₁) −
/// h₂/(2 sinθ₂).
///
/// The weaker wall, t·f_y, laps onto the stronger; of equals the narrower, then the later tube.
///
/// # Source
/// Geometry. Which brace is on top: EN 1993-1-8:2005 7.1.2(4), (5) (from memory).
pub(super) fn of(one: &Branch, other: &Branch, place: usize) -> Beside {
    let half = |branch: &Branch| branch.brace.outline.depth() / (2.0 * branch.brace.angle.sin());
    let distance = one.foot[0] - other.foot[0];
    let gap = distance.abs() - half(one) - half(other);
    // Up from the face both axes come nearer by the difference of their leans; e counts down from the chord's axis.
    let eccentricity = distance / (one.foot[1] - other.foot[1]) - one.chord.outline.depth() / 2.0;
    let on_top = is_on_top(one, other);
    let upper = if on_top { one } else { other };
    let share = -gap / (2.0 * half(upper));
    let partner = other.brace.as_partner();
    let kind = if share >= LEAST_OVERLAP {
        Kind::Overlap { partner, share, on_top, eccentricity }
    } else {
        Kind::Gap { partner, gap, eccentricity }
    };
    let apart = matches!(kind, Kind::Gap { .. }) && stands_apart(&one.chord, &one.brace, &partner, gap);
    Beside { place, kind, apart }
}

fn is_on_top(one: &Branch, other: &Branch) -> bool {
    let strength = |branch: &Branch| branch.brace.wall * branch.brace.yield_stress;
    let key = |branch: &Branch| [strength(branch), branch.brace.outline.width()];
    let ([a, b], [c, d]) = (key(one), key(other));
    if a != c {
        a < c
    } else if b != d {
        b < d
    } else {
        (one.end.tube, one.end.at_to) > (other.end.tube, other.end.at_to)
    }
}

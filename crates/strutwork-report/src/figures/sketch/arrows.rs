//! Arrows, turns, zigzags and the ground.

use std::f64::consts::TAU;

use crate::figures::svg::Path;

/// Length and half width of an arrow's head, px.
const HEAD: (f64, f64) = (7.5, 2.6);

/// A unit vector; `None` for next to nothing.
pub(super) fn unit((x, y): (f64, f64)) -> Option<(f64, f64)> {
    let length = x.hypot(y);
    (length > 1e-9).then(|| (x / length, y / length))
}

/// `at`, moved `along` a direction and `across` to its left as the sheet is seen, px.
pub(super) fn moved(at: (f64, f64), (ex, ey): (f64, f64), along: f64, across: f64) -> (f64, f64) {
    (at.0 + ex * along + ey * across, at.1 + ey * along - ex * across)
}

/// A filled head with its tip at `tip`.
pub(super) fn head(heads: &mut Path, tip: (f64, f64), direction: (f64, f64)) {
    heads.start(tip);
    heads.to(moved(tip, direction, -HEAD.0, HEAD.1));
    heads.to(moved(tip, direction, -HEAD.0, -HEAD.1));
    heads.shut();
}

/// An arrow whose tip is at `tip`: its tail.
pub(super) fn arrow(
    lines: &mut Path,
    heads: &mut Path,
    tip: (f64, f64),
    direction: (f64, f64),
    length: f64,
) -> (f64, f64) {
    let tail = moved(tip, direction, -length, 0.0);
    lines.start(tail);
    lines.to(moved(tip, direction, -HEAD.0 * 0.8, 0.0));
    head(heads, tip, direction);
    tail
}

/// Three quarters of a turn about a point with a head at its end; anticlockwise as the sheet is seen, or clockwise.
pub(super) fn turn(lines: &mut Path, heads: &mut Path, at: (f64, f64), radius: f64, anticlockwise: bool) {
    const PARTS: u32 = 18;
    let way = if anticlockwise { -1.0 } else { 1.0 };
    let place = |share: f64| {
        let angle = way * (share * 0.72 + 0.14) * TAU;
        (at.0 + radius * angle.cos(), at.1 + radius * angle.sin())
    };
    for part in 0..=PARTS {
        let next = place(f64::from(part) / f64::from(PARTS));
        if part == 0 { lines.start(next) } else { lines.to(next) }
    }
    let (before, end) = (place(1.0 - 2.0 / f64::from(PARTS)), place(1.0));
    if let Some(direction) = unit((end.0 - before.0, end.1 - before.1)) {
        head(heads, moved(end, direction, HEAD.0 * 0.5, 0.0), direction);
    }
}

/// A spring from a point along a direction; where it ends.
pub(super) fn spring(lines: &mut Path, from: (f64, f64), direction: (f64, f64), length: f64) -> (f64, f64) {
    const TURNS: u32 = 5;
    lines.start(from);
    lines.to(moved(from, direction, 0.15 * length, 0.0));
    for turn in 0..TURNS {
        let side = if turn % 2 == 0 { 3.6 } else { -3.6 };
        lines.to(moved(from, direction, length * (0.15 + 0.7 * (f64::from(turn) + 0.5) / f64::from(TURNS)), side));
    }
    lines.to(moved(from, direction, 0.85 * length, 0.0));
    let end = moved(from, direction, length, 0.0);
    lines.to(end);
    end
}

/// The ground: a line across `outward` through a point, hatched on its far side.
pub(super) fn ground(lines: &mut Path, at: (f64, f64), outward: (f64, f64), half: f64) {
    lines.start(moved(at, outward, 0.0, half));
    lines.to(moved(at, outward, 0.0, -half));
    let count = (half / 2.5).round() as i32;
    for place in 0..=count {
        let across = half - 2.0 * half * f64::from(place) / f64::from(count);
        lines.start(moved(at, outward, 0.0, across));
        lines.to(moved(at, outward, 4.5, across - 3.0));
    }
}

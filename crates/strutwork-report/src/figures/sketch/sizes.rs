//! Main dimensions, mm: chains of them in a plane, three lengths in space.

use strutwork_model::{Model, units};

use super::TEXT;
use super::plane::Plane;
use crate::figures::ink;
use crate::figures::labels::Labels;
use crate::figures::svg::{Anchor, Path, Svg};
use crate::figures::view::Sheet;
use crate::number::as_given;

/// With more different places than this along an axis only the ends are measured.
const FEW: usize = 7;
/// Parts of a chain shorter than this have no room for their size, px.
const SHORTEST: f64 = 34.0;

/// Writes them.
pub(super) fn draw(svg: &mut Svg, labels: &mut Labels, model: &Model, sheet: &Sheet, plane: Plane) {
    let Some([right, up]) = plane.axes() else {
        space(svg, model, sheet);
        return;
    };
    let (mut lines, mut texts) = (Path::new(), Vec::new());
    let across = places(model, right, sheet.scale);
    let base = sheet.height - 26.0;
    let on_sheet = |axis: usize, value: f64| {
        let mut at = model.joints().iter().next().map_or([0.0; 3], |joint| joint.at);
        at[axis] = value;
        sheet.at(at)
    };
    for pair in across.windows(2) {
        let (a, b) = (on_sheet(right, pair[0]).0, on_sheet(right, pair[1]).0);
        dimension(&mut lines, (a, base), (b, base), (0.0, 4.0));
        texts.push((((a + b) / 2.0, base - 3.0), as_given(units::to_mm(pair[1] - pair[0]))));
    }
    svg.path(&lines, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\".8\"", ink::INK));
    let high = places(model, up, sheet.scale);
    let mut lines = Path::new();
    svg.open(&format!("fill=\"{}\" font-size=\"{}\"", ink::INK, TEXT - 0.5));
    for (at, text) in texts {
        svg.text(at, Anchor::Middle, &text);
        labels.occupy(at, 6.0);
    }
    let left = if across.len() < 2 { sheet.width / 2.0 - 60.0 } else { 26.0 };
    for pair in high.windows(2) {
        let (a, b) = (on_sheet(up, pair[0]).1, on_sheet(up, pair[1]).1);
        dimension(&mut lines, (left, a), (left, b), (4.0, 0.0));
        svg.turned_text((left - 3.0, (a + b) / 2.0), -90.0, &as_given(units::to_mm(pair[1] - pair[0])));
    }
    svg.close();
    svg.path(&lines, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\".8\"", ink::INK));
    if across.len() > 1 || high.len() > 1 {
        svg.open(&format!("fill=\"{}\" font-size=\"{}\"", ink::INK, TEXT - 1.0));
        svg.text((sheet.width - 14.0, sheet.height + 34.0), Anchor::End, "dimensions in mm");
        svg.close();
    }
}

/// A line between two places with a stroke at each end.
fn dimension(lines: &mut Path, a: (f64, f64), b: (f64, f64), (x, y): (f64, f64)) {
    lines.start(a);
    lines.to(b);
    for end in [a, b] {
        lines.start((end.0 - x, end.1 - y));
        lines.to((end.0 + x, end.1 + y));
        // The slanted stroke of a workshop drawing.
        lines.start((end.0 - 3.0, end.1 + 3.0));
        lines.to((end.0 + 3.0, end.1 - 3.0));
    }
}

/// Different places of joints along an axis, m: all where they are few and apart, else the ends; one or none where there is
/// no length.
fn places(model: &Model, axis: usize, scale: f64) -> Vec<f64> {
    let mut all: Vec<f64> = model.joints().iter().map(|joint| joint.at[axis]).collect();
    all.sort_by(f64::total_cmp);
    let (Some(first), Some(last)) = (all.first().copied(), all.last().copied()) else { return Vec::new() };
    let apart = 1e-6 * (last - first).max(1e-3);
    all.dedup_by(|b, a| (*b - *a).abs() <= apart);
    let tight = all.windows(2).any(|pair| (pair[1] - pair[0]) * scale < SHORTEST);
    if all.len() > FEW || tight {
        all = vec![first, last];
        all.dedup();
    }
    all
}

/// Lengths along the three axes.
fn space(svg: &mut Svg, model: &Model, sheet: &Sheet) {
    let length = |axis: usize| {
        let of = |fold: fn(f64, f64) -> f64, start: f64| model.joints().iter().map(|j| j.at[axis]).fold(start, fold);
        of(f64::max, f64::NEG_INFINITY) - of(f64::min, f64::INFINITY)
    };
    if model.joints().is_empty() {
        return;
    }
    let named = ["x", "y", "z"].into_iter().enumerate().filter(|(axis, _)| length(*axis) > 0.0);
    let words: Vec<String> =
        named.map(|(axis, name)| format!("{name} {}", as_given(units::to_mm(length(axis))))).collect();
    svg.open(&format!("fill=\"{}\" font-size=\"{}\"", ink::INK, TEXT - 0.5));
    let text = format!("over all, mm: {}", words.join(" · "));
    svg.text((sheet.width - 14.0, sheet.height + 34.0), Anchor::End, &text);
    svg.close();
}

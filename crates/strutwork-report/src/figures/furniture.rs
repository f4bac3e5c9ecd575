//! What stands beside a drawing: axes, scale bar, legend.

use super::ink;
use super::svg::{Anchor, Path, Svg};
use super::view::{Sheet, View};
use crate::number;

/// Height of the strip below a drawing that holds axes and scale bar, px.
pub const STRIP: f64 = 54.0;

/// Stroke of a tube of which a picture has nothing to tell.
pub const NOTHING: &str = "stroke=\"#6b747c\" stroke-width=\"1\" stroke-dasharray=\"1.5 2.5\"";

/// The three axes as arrows, in the strip's left end.
pub fn axes(svg: &mut Svg, view: View, corner: (f64, f64)) {
    const LENGTH: f64 = 26.0;
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.2\"", ink::BLUE));
    let mut names = Vec::new();
    for (name, axis) in [("x", [1.0, 0.0, 0.0]), ("y", [0.0, 1.0, 0.0]), ("z", [0.0, 0.0, 1.0])] {
        let [right, up, toward] = view.project(axis);
        let (dx, dy) = (right * LENGTH, -up * LENGTH);
        let tip = (corner.0 + dx, corner.1 + dy);
        if dx.hypot(dy) > 1.0 {
            arrow(svg, corner, tip, 5.0);
            let out = 1.0 + 7.0 / dx.hypot(dy);
            names.push((name, (corner.0 + dx * out, corner.1 + dy * out + 3.2)));
        } else {
            // An axis along the line of sight: a dot toward the reader, a cross away.
            svg.circle(corner, 4.0);
            if toward > 0.0 {
                svg.circle(corner, 0.8);
            } else {
                svg.line((corner.0 - 2.6, corner.1 - 2.6), (corner.0 + 2.6, corner.1 + 2.6));
                svg.line((corner.0 - 2.6, corner.1 + 2.6), (corner.0 + 2.6, corner.1 - 2.6));
            }
            names.push((name, (corner.0 - 9.0, corner.1 + 10.0)));
        }
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"10\" font-style=\"italic\"", ink::BLUE));
    for (name, at) in names {
        svg.text(at, Anchor::Middle, name);
    }
    svg.close();
}

/// A line with an open head at its end.
pub fn arrow(svg: &mut Svg, from: (f64, f64), to: (f64, f64), head: f64) {
    let mut path = Path::new();
    path.start(from);
    path.to(to);
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy);
    if length > 0.0 {
        let (ex, ey) = (dx / length, dy / length);
        let barb = |side: f64| (to.0 - head * ex + side * head * 0.42 * ey, to.1 - head * ey - side * head * 0.42 * ex);
        path.start(barb(1.0));
        path.to(to);
        path.to(barb(-1.0));
    }
    svg.path(&path, "");
}

/// A bar of a round length, in the strip's right end; `right` is where it ends.
pub fn scale_bar(svg: &mut Svg, sheet: &Sheet, right: f64, y: f64) {
    let px_a_metre = sheet.scale * sheet.view.axis_scale();
    let metres = round_below(150.0 / px_a_metre);
    let (length, left) = (metres * px_a_metre, right - metres * px_a_metre);
    svg.open(&format!("stroke=\"{}\" stroke-width=\"1\"", ink::INK));
    for part in 0..4 {
        let x = left + length * f64::from(part) / 4.0;
        let fill = if part % 2 == 0 { ink::INK } else { ink::PAPER };
        svg.rectangle((x, y), (length / 4.0, 5.0), &format!("fill=\"{fill}\""));
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    svg.text((left, y - 4.0), Anchor::Middle, "0");
    let end = number::fixed(metres * 1000.0, number::decimals_for(metres * 1000.0, 1));
    svg.text((right, y - 4.0), Anchor::Middle, &end);
    let note = if sheet.view == View::Isometric { "mm, along an axis" } else { "mm" };
    svg.text(((left + right) / 2.0, y + 16.0), Anchor::Middle, note);
    svg.close();
}

/// The greatest of 1, 2 or 5 times a power of ten that is not above `value`; 1 where `value` is no positive number.
pub fn round_below(value: f64) -> f64 {
    if !(value.is_finite() && value > 0.0) {
        return 1.0;
    }
    let decade = 10.0_f64.powf(value.log10().floor());
    let step = [5.0, 2.0, 1.0].into_iter().find(|step| step * decade <= value * (1.0 + 1e-9));
    step.unwrap_or(0.5) * decade
}

/// One line of a legend: how it is drawn (attributes of ours) and what it means.
pub struct Key {
    /// Stroke attributes of the sample line.
    pub stroke: String,
    /// What it means.
    pub text: String,
}

/// Height that a legend of these keys takes at this width, px.
pub fn legend_height(keys: &[Key], width: f64) -> f64 {
    rows_of(keys, width) as f64 * 15.0
}

/// Sample lines with their meanings, set in columns from `top` down.
pub fn legend(svg: &mut Svg, keys: &[Key], top: f64) {
    let columns = columns_of(keys, svg.width());
    let column_width = (svg.width() - 24.0) / columns as f64;
    let place = |at: usize| (12.0 + (at % columns) as f64 * column_width, top + (at / columns) as f64 * 15.0 + 8.0);
    svg.open("fill=\"none\"");
    for (at, key) in keys.iter().enumerate() {
        let (x, y) = place(at);
        let mut path = Path::new();
        path.start((x, y));
        path.to((x + 30.0, y));
        svg.path(&path, &key.stroke);
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    for (at, key) in keys.iter().enumerate() {
        let (x, y) = place(at);
        svg.text((x + 36.0, y + 3.3), Anchor::Start, &key.text);
    }
    svg.close();
}

fn columns_of(keys: &[Key], width: f64) -> usize {
    let longest = keys.iter().map(|key| key.text.chars().count()).max().unwrap_or(0);
    let needed = 52.0 + longest as f64 * 5.4;
    (((width - 24.0) / needed).floor() as usize).clamp(1, 4)
}

fn rows_of(keys: &[Key], width: f64) -> usize {
    keys.len().div_ceil(columns_of(keys, width))
}

/// A name that fits its column: no more than so many letters.
pub fn cut(name: &str, letters: usize) -> String {
    if name.chars().count() <= letters {
        return name.to_owned();
    }
    name.chars().take(letters - 1).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    use super::{cut, round_below};

    #[test]
    fn long_names_are_cut_and_say_so() {
        assert_eq!(cut("bump", 34), "bump");
        let long = "x".repeat(60);
        assert_eq!(cut(&long, 34).chars().count(), 34);
        assert!(cut(&long, 34).ends_with('…'));
    }

    #[test]
    fn scale_bars_and_ticks_have_round_lengths() {
        for (value, round) in [(0.51, 0.5), (0.5, 0.5), (0.3, 0.2), (0.199, 0.1), (7.0, 5.0), (1000.0, 1000.0)] {
            assert!((round_below(value) / round - 1.0).abs() < 1e-9, "{value}");
        }
        assert_eq!(round_below(0.0), 1.0);
        assert_eq!(round_below(f64::NAN), 1.0);
    }
}

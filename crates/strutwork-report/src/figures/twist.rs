//! The twist along the frame, as a chart.

use strutwork_model::units::{to_deg, to_mm};
use strutwork_solve::results::TwistStation;

use super::furniture::round_below;
use super::svg::{Anchor, Path, Svg};
use super::{Figure, ink};
use crate::number;

/// On a page of its own width, and beside a table, px.
pub(crate) const WHOLE: (f64, f64) = (720.0, 250.0);
pub(crate) const BESIDE: (f64, f64) = (270.0, 190.0);
const LEFT: f64 = 64.0;
const RIGHT: f64 = 24.0;
const TOP: f64 = 18.0;
const BOTTOM: f64 = 42.0;

/// Twist over x: `main` (from [`strutwork_solve::results::main_stations`]) joined by a line, all of `profile` as dots; `None` for fewer than two pairs.
pub fn draw(case: &str, profile: &[TwistStation], main: &[TwistStation], size: (f64, f64)) -> Option<Figure> {
    let point = |station: &TwistStation| (to_mm(station.x), to_deg(station.twist));
    let points: Vec<(f64, f64)> = profile.iter().map(point).collect();
    let main: Vec<(f64, f64)> = main.iter().map(point).collect();
    if points.len() < 2 {
        return None;
    }
    let x = Scale::over(points.iter().map(|p| p.0), (LEFT, size.0 - RIGHT), (size.0 / 90.0) as usize);
    let y = Scale::over(points.iter().map(|p| p.1).chain([0.0]), (size.1 - BOTTOM, TOP), 5);
    let label = format!("Twist along the frame, load case {case}");
    let mut svg = Svg::new(size.0, size.1, "chart", &label);
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\".8\"", ink::FAINT));
    for tick in &x.ticks {
        svg.line((x.at(*tick), TOP), (x.at(*tick), size.1 - BOTTOM));
    }
    for tick in &y.ticks {
        svg.line((LEFT, y.at(*tick)), (size.0 - RIGHT, y.at(*tick)));
    }
    svg.close();
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1\"", ink::INK));
    svg.line((LEFT, TOP), (LEFT, size.1 - BOTTOM));
    svg.line((LEFT, y.at(0.0)), (size.0 - RIGHT, y.at(0.0)));
    svg.close();
    let mut line = Path::new();
    for (place, point) in main.iter().enumerate() {
        let at = (x.at(point.0), y.at(point.1));
        if place == 0 { line.start(at) } else { line.to(at) }
    }
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.8\"", ink::BLUE));
    svg.path(&line, "");
    svg.close();
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1\"", ink::PAPER, ink::BLUE));
    for point in &points {
        svg.circle((x.at(point.0), y.at(point.1)), 2.4);
    }
    svg.close();
    svg.open(&format!("fill=\"{}\"", ink::BLUE));
    for point in &main {
        svg.circle((x.at(point.0), y.at(point.1)), 3.6);
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"10\"", ink::INK));
    for tick in &x.ticks {
        svg.text((x.at(*tick), size.1 - BOTTOM + 15.0), Anchor::Middle, &x.show(*tick));
    }
    for tick in &y.ticks {
        svg.text((LEFT - 6.0, y.at(*tick) + 3.5), Anchor::End, &y.show(*tick));
    }
    svg.text(((LEFT + size.0 - RIGHT) / 2.0, size.1 - 8.0), Anchor::Middle, "x, mm (forward to the right)");
    svg.text((LEFT - 50.0, TOP - 6.0), Anchor::Start, "twist, deg");
    svg.close();
    let caption = "Twist along the frame. The line joins the measured stations through the widest pair of joints at each x; open dots are the other \
                   pairs. Where it is straight the frame is evenly stiff; where it is steep a bay is soft."
        .to_owned();
    Some(Figure { svg: svg.finish(), caption, wide: false })
}

/// An axis with round ticks.
struct Scale {
    low: f64,
    high: f64,
    px: (f64, f64),
    ticks: Vec<f64>,
    decimals: usize,
}

impl Scale {
    fn over(values: impl Iterator<Item = f64> + Clone, px: (f64, f64), about: usize) -> Self {
        let low = values.clone().fold(f64::INFINITY, f64::min);
        let high = values.fold(f64::NEG_INFINITY, f64::max);
        let span = if high > low { high - low } else { 1.0 };
        let step = round_below(span / about as f64 * 1.5);
        let first = (low / step).floor();
        let count = ((high / step).ceil() - first).clamp(1.0, 50.0) as usize;
        let ticks: Vec<f64> = (0..=count).map(|k| (first + k as f64) * step).collect();
        let (low, high) = (first * step, (first + count as f64) * step);
        Self { low, high, px, ticks, decimals: number::decimals_for(step, 1) }
    }

    fn at(&self, value: f64) -> f64 {
        self.px.0 + (value - self.low) / (self.high - self.low) * (self.px.1 - self.px.0)
    }

    fn show(&self, value: f64) -> String {
        number::fixed(value, self.decimals)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_axis_covers_its_values_with_round_ticks() {
        let scale = Scale::over([-0.031, 0.44].into_iter(), (0.0, 100.0), 5);
        assert!(scale.low <= -0.031 && scale.high >= 0.44);
        assert_eq!(
            scale.ticks.iter().map(|t| scale.show(*t)).collect::<Vec<_>>(),
            ["\u{2212}0.1", "0.0", "0.1", "0.2", "0.3", "0.4", "0.5"]
        );
        let flat = Scale::over([2.0, 2.0].into_iter(), (0.0, 100.0), 5);
        assert!(flat.at(2.0).is_finite());
    }
}

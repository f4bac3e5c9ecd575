//! Curves and points over an axis, linear or logarithmic.

use super::svg::{Anchor, Path, Svg};
use super::{Figure, ink};
use crate::number::{as_given, power};

/// Width of a graph, px.
pub const WIDTH: f64 = 440.0;
/// Size of the drawing and of the room round its field, px: left, top, right, bottom.
const SIZE: (f64, f64) = (WIDTH, 250.0);
const ROOM: [f64; 4] = [62.0, 14.0, 18.0, 40.0];
/// Room that the name of a line takes at most, px.
const NAME: f64 = 60.0;

/// An axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Equal steps.
    Linear,
    /// Equal factors; values must be above zero.
    Logarithmic,
}

/// A row of points.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// What it is; written at its last point. Empty: nothing is written.
    pub name: String,
    /// x and y.
    pub points: Vec<(f64, f64)>,
    /// Whether the points are marked; a line joins them in any case, broken where they are not marked.
    pub marked: bool,
}

/// Axes with what they measure, and what stands over them.
#[derive(Debug, Clone, PartialEq)]
pub struct Graph {
    /// What x and y measure, with units.
    pub names: [String; 2],
    /// How they are laid out.
    pub scales: [Scale; 2],
    /// Curves.
    pub series: Vec<Series>,
    /// What it shows and how to read it.
    pub caption: String,
}

/// One axis with its place on the sheet.
pub(super) struct Axis {
    scale: Scale,
    low: f64,
    high: f64,
    pub(super) start: f64,
    pub(super) end: f64,
}

impl Axis {
    fn of(scale: Scale, values: impl Iterator<Item = f64>, start: f64, end: f64) -> Option<Self> {
        let (low, high) = reach(values.map(|value| if scale == Scale::Logarithmic { value.log10() } else { value }))?;
        let (low, high) = match scale {
            Scale::Linear => (low.min(0.0), if high > 0.0 { high } else { 1.0 }),
            Scale::Logarithmic => ((low - 0.02).floor(), (high + 0.02).ceil()),
        };
        Some(Self { scale, low, high, start, end })
    }

    /// Equal steps from the least to the greatest of these values with a little room on both sides; `None` where there is none.
    pub(super) fn fitted(values: impl Iterator<Item = f64>, start: f64, end: f64) -> Option<Self> {
        let (low, high) = reach(values)?;
        // A single value stands in the middle of an axis about as long as a hundredth of it.
        let least = if high == 0.0 { 1.0 } else { high.abs().max(low.abs()) * 0.01 };
        let room = ((high - low) * 0.06).max((least - (high - low)) / 2.0);
        Some(Self { scale: Scale::Linear, low: low - room, high: high + room, start, end })
    }

    /// Where a value lies, px.
    pub(super) fn at(&self, value: f64) -> f64 {
        let value = if self.scale == Scale::Logarithmic { value.log10() } else { value };
        self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)
    }

    /// Values that are written beside the axis.
    pub(super) fn ticks(&self) -> Vec<(f64, String)> {
        match self.scale {
            Scale::Linear => {
                let step = super::furniture::round_below((self.high - self.low) / 4.0);
                let first = (self.low / step).ceil() as i64;
                let last = (self.high / step + 1e-9).floor() as i64;
                (first..=last).map(|place| place as f64 * step).map(|value| (value, as_given(value))).collect()
            }
            Scale::Logarithmic => {
                let (low, high) = (self.low.round() as i32, self.high.round() as i32);
                let step = ((high - low) / 6).max(1);
                let value = |exponent: i32| 10.0_f64.powi(exponent);
                let word = |exponent: i32| match exponent {
                    -2..=4 => as_given(value(exponent)),
                    _ => power(value(exponent)).rsplit("× ").next().unwrap_or_default().to_owned(),
                };
                (low..=high)
                    .step_by(step.unsigned_abs() as usize)
                    .map(|exponent| (value(exponent), word(exponent)))
                    .collect()
            }
        }
    }
}

/// The least and the greatest of the numbers among these values; `None` where there is none.
fn reach(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values
        .filter(|value| value.is_finite())
        .map(|value| (value, value))
        .reduce(|(low, high), (value, _)| (low.min(value), high.max(value)))
}

/// Draws it; nothing where there is no point.
pub fn draw(graph: &Graph) -> Option<Figure> {
    let all = || graph.series.iter().flat_map(|series| &series.points);
    let [left, top, right, bottom] = ROOM;
    let x = Axis::of(graph.scales[0], all().map(|point| point.0), left, SIZE.0 - right)?;
    let y = Axis::of(graph.scales[1], all().map(|point| point.1), SIZE.1 - bottom, top)?;
    let mut svg = Svg::new(SIZE.0, SIZE.1, "graph", &graph.caption);
    grid(&mut svg, &x, &y);
    svg.open(&format!("fill=\"{}\" font-size=\"10\"", ink::INK));
    svg.text(((x.start + x.end) / 2.0, SIZE.1 - 7.0), Anchor::Middle, &graph.names[0]);
    svg.turned_text((12.0, (y.start + y.end) / 2.0), -90.0, &graph.names[1]);
    svg.close();
    let mut named: Vec<(f64, f64)> = Vec::new();
    for series in &graph.series {
        let points: Vec<(f64, f64)> = series.points.iter().map(|&(a, b)| (x.at(a), y.at(b))).collect();
        let mut path = Path::new();
        for (place, &point) in points.iter().enumerate() {
            if place == 0 { path.start(point) } else { path.to(point) }
        }
        let (colour, dashes) = if series.marked { (ink::INK, "") } else { (ink::BLUE, " stroke-dasharray=\"5 3\"") };
        svg.path(&path, &format!("fill=\"none\" stroke=\"{colour}\" stroke-width=\"1.3\"{dashes}"));
        if series.marked {
            svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.4\"", ink::PAPER, ink::INK));
            points.iter().for_each(|&point| svg.circle(point, 3.0));
            svg.close();
        }
        // A name that would stand on another is left out: the caption or the table has it.
        let free = |&&(px, py): &&(f64, f64)| !named.iter().any(|(x, y)| (px - x).abs() < 40.0 && (py - y).abs() < 9.0);
        if let Some(&(px, py)) = points.last().filter(|_| !series.name.is_empty()).filter(free) {
            named.push((px, py));
            svg.open(&format!("class=\"names\" fill=\"{colour}\" font-size=\"9.5\""));
            // A line that ends at the left edge would have its name on the numbers there.
            if px - x.start < NAME {
                svg.text((px + 9.0, py + 9.0), Anchor::Start, &series.name);
            } else {
                svg.text((px - 6.0, (py - 7.0).max(ROOM[1])), Anchor::End, &series.name);
            }
            svg.close();
        }
    }
    Some(Figure { svg: svg.finish(), caption: graph.caption.clone(), wide: false })
}

/// Lines at the ticks of both axes, and their values.
pub(super) fn grid(svg: &mut Svg, x: &Axis, y: &Axis) {
    let mut faint = Path::new();
    let (across, up) = (x.ticks(), y.ticks());
    for (value, _) in &across {
        faint.start((x.at(*value), y.start));
        faint.to((x.at(*value), y.end));
    }
    rules(svg, faint, y, (x.start, x.end));
    frame(svg, y, (x.start, x.end));
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    for (value, word) in &across {
        svg.text((x.at(*value), y.start + 13.0), Anchor::Middle, word);
    }
    for (value, word) in &up {
        svg.text((x.start - 5.0, y.at(*value) + 3.2), Anchor::End, word);
    }
    svg.close();
}

/// Faint lines at the ticks of an upright axis, between these two places, behind those of `others`.
pub(super) fn rules(svg: &mut Svg, mut others: Path, y: &Axis, (left, right): (f64, f64)) {
    for (value, _) in y.ticks() {
        others.start((left, y.at(value)));
        others.to((right, y.at(value)));
    }
    svg.path(&others, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\".7\"", ink::FAINT));
}

/// The upright axis and the level one at its foot.
pub(super) fn frame(svg: &mut Svg, y: &Axis, (left, right): (f64, f64)) {
    let mut frame = Path::new();
    frame.start((left, y.end));
    frame.to((left, y.start));
    frame.to((right, y.start));
    svg.path(&frame, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.2\"", ink::INK));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_graph_holds_all_its_points_and_nothing_else() {
        let series = |points: Vec<(f64, f64)>| Series { name: "e".to_owned(), points, marked: true };
        let mut graph = Graph {
            names: ["n".to_owned(), "error".to_owned()],
            scales: [Scale::Logarithmic; 2],
            series: vec![series(vec![(1.0, 1e-2), (8.0, 2.4e-6), (2.0, f64::NAN)])],
            caption: "c".to_owned(),
        };
        let figure = draw(&graph).unwrap();
        assert_eq!(figure.svg.matches("<circle").count(), 3);
        assert!(!figure.svg.contains("NaN") && figure.svg.contains(">10⁻⁴<"), "{}", figure.svg);
        graph.series[0].points.clear();
        assert_eq!(draw(&graph), None);
    }
}

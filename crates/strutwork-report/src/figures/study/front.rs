//! Variants in the plane of two responses, and those that no other beats in both.

use strutwork_study::overview::{Cloud, Density, Front, Plane};
use strutwork_study::{Constraint, Limit, Study};

use super::{Named, data, limit};
use crate::figures::furniture::{Key, legend, legend_height};
use crate::figures::graph::{Axis, grid};
use crate::figures::labels::Labels;
use crate::figures::svg::{Anchor, Path, Svg};
use crate::figures::{Figure, WIDTH, ink};
use crate::opening::opening;

const HEIGHT: f64 = 420.0;
/// Room round the field, px: left, top, right, bottom.
const ROOM: [f64; 4] = [70.0, 16.0, 20.0, 44.0];
/// Members of the front that are numbered.
const NUMBERED: usize = 24;
const NUMBER_TEXT: f64 = 9.0;

/// What is drawn.
pub struct FrontPicture<'a> {
    /// The study, for its constraints.
    pub study: &'a Study,
    /// Which two responses.
    pub plane: Plane,
    /// What they are called, x and y.
    pub names: [Named; 2],
    /// Variants that no other beats.
    pub front: &'a Front,
    /// All of them.
    pub cloud: &'a Cloud,
    /// Where the model as it is lies, if it is among the variants.
    pub start: Option<(f64, f64)>,
}

/// The picture; `None` where no variant has both responses.
pub fn draw(of: &FrontPicture<'_>) -> Option<Figure> {
    let [left, top, right, bottom] = ROOM;
    let corners = places(of);
    let x = Axis::fitted(corners.iter().map(|at| at.0), left, WIDTH - right)?;
    let y = Axis::fitted(corners.iter().map(|at| at.1), HEIGHT - bottom, top)?;
    let constrained = !of.study.constraints.is_empty();
    let bounds = bounds(of, &x, &y);
    let keys = keys(constrained, !bounds.is_empty());
    let label = format!("{} against {}, a mark a variant", of.names[1].title, of.names[0].title);
    let mut svg = Svg::new(WIDTH, HEIGHT + legend_height(&keys, WIDTH) + 4.0, "graph", &label);
    grid(&mut svg, &x, &y);
    svg.open(&format!("fill=\"{}\" font-size=\"10.5\"", ink::INK));
    svg.text(((x.start + x.end) / 2.0, HEIGHT - 10.0), Anchor::Middle, &of.names[0].whole());
    svg.turned_text((14.0, (y.start + y.end) / 2.0), -90.0, &of.names[1].whole());
    svg.close();
    draw_bounds(&mut svg, &bounds, &x, &y);
    match &of.cloud.density {
        Some(density) => cells(&mut svg, density, &x, &y),
        None => points(&mut svg, of.cloud, &x, &y),
    }
    steps(&mut svg, of.front, &x, &y);
    if let Some((mass, stiff)) = of.start {
        svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.6\"", ink::INK));
        svg.circle((x.at(mass), y.at(stiff)), 8.0);
        svg.close();
    }
    members(&mut svg, of, &x, &y);
    legend(&mut svg, &keys, HEIGHT);
    Some(Figure { svg: svg.finish(), caption: caption(of, constrained), wide: false })
}

/// Everything that must lie inside the field.
fn places(of: &FrontPicture<'_>) -> Vec<(f64, f64)> {
    let mut places: Vec<(f64, f64)> = of.cloud.points.iter().map(|point| (point.x, point.y)).collect();
    if let Some(density) = &of.cloud.density {
        let [wide, high] = density.sides();
        places.extend(density.cells().flat_map(|([x, y], _)| [(x, y), (x + wide, y + high)]));
    }
    places.extend(of.front.members.iter().map(|member| (member.x, member.y)));
    places
}

/// A bound that crosses the field.
struct Bound {
    upright: bool,
    at: f64,
    said: String,
}

/// Bounds on the two responses, as far as they cross the field.
fn bounds(of: &FrontPicture<'_>, x: &Axis, y: &Axis) -> Vec<Bound> {
    let bound = |bound: &Constraint| {
        let (Limit::AtLeast(value) | Limit::AtMost(value)) = bound.limit;
        let said = limit(bound.limit);
        if bound.response == of.plane.less {
            let at = x.at(value);
            (x.start..=x.end).contains(&at).then_some(Bound { upright: true, at, said })
        } else {
            let at = y.at(value);
            let crosses = bound.response == of.plane.more && (y.end..=y.start).contains(&at);
            crosses.then_some(Bound { upright: false, at, said })
        }
    };
    of.study.constraints.iter().filter_map(bound).collect()
}

fn draw_bounds(svg: &mut Svg, bounds: &[Bound], x: &Axis, y: &Axis) {
    let mut lines = Path::new();
    for bound in bounds {
        let (from, to) = if bound.upright {
            ((bound.at, y.start), (bound.at, y.end))
        } else {
            ((x.start, bound.at), (x.end, bound.at))
        };
        lines.start(from);
        lines.to(to);
    }
    svg.path(&lines, &format!("fill=\"none\" {}", bound_stroke()));
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"9.5\"", ink::RED));
    for bound in bounds {
        if bound.upright {
            svg.text((bound.at + 4.0, y.end + 9.0), Anchor::Start, &bound.said);
        } else {
            svg.text((x.end - 2.0, bound.at - 4.0), Anchor::End, &bound.said);
        }
    }
    svg.close();
}

fn bound_stroke() -> String {
    format!("stroke=\"{}\" stroke-width=\"1.4\" stroke-dasharray=\"7 3\"", ink::RED)
}

/// Discs for variants that keep what is required, crosses for the others.
fn points(svg: &mut Svg, cloud: &Cloud, x: &Axis, y: &Axis) {
    let mut crosses = Path::new();
    for point in cloud.points.iter().filter(|point| !point.keeps) {
        cross(&mut crosses, (x.at(point.x), y.at(point.y)), 2.2);
    }
    svg.path(&crosses, &crossed());
    svg.open_data(&disc(), &[("variants", cloud.points.iter().filter(|point| point.keeps).count().to_string())]);
    for point in cloud.points.iter().filter(|point| point.keeps) {
        svg.circle((x.at(point.x), y.at(point.y)), 2.4);
    }
    svg.close();
}

/// Squares and crosses, the larger the more variants lie in a cell.
fn cells(svg: &mut Svg, density: &Density, x: &Axis, y: &Axis) {
    let [wide, high] = density.sides();
    let room = (x.at(wide) - x.at(0.0)).min(y.at(0.0) - y.at(high)).abs();
    let most = density.cells().flat_map(|(_, counts)| counts).max().unwrap_or(1) as f64;
    let mut crosses = Path::new();
    let mut kept = 0;
    for ([from_x, from_y], [keep, rest]) in density.cells() {
        let at = (x.at(from_x + wide / 2.0), y.at(from_y + high / 2.0));
        if rest > 0 {
            cross(&mut crosses, at, size(rest, most, room));
        }
        kept += keep;
    }
    svg.path(&crosses, &crossed());
    svg.open_data(&disc(), &[("variants", kept.to_string())]);
    for ([from_x, from_y], [keep, _]) in density.cells().filter(|(_, [keep, _])| *keep > 0) {
        let half = size(keep, most, room);
        let at = (x.at(from_x + wide / 2.0), y.at(from_y + high / 2.0));
        svg.rectangle((at.0 - half, at.1 - half), (2.0 * half, 2.0 * half), "");
    }
    svg.close();
}

/// Half the side of a mark that stands for so many variants: its area grows with the logarithm of the count.
fn size(count: u64, most: f64, room: f64) -> f64 {
    let share = (1.0 + count as f64).ln() / (1.0 + most).ln();
    (share.sqrt() * room.max(2.0) / 2.0).max(0.6)
}

fn disc() -> String {
    format!("fill=\"{}\" fill-opacity=\".55\"", ink::BODY)
}

/// How crosses are drawn.
fn crossed() -> String {
    format!("fill=\"none\" stroke=\"{}\" stroke-width=\".9\"", ink::RED)
}

fn cross(path: &mut Path, at: (f64, f64), half: f64) {
    path.start((at.0 - half, at.1 - half));
    path.to((at.0 + half, at.1 + half));
    path.start((at.0 - half, at.1 + half));
    path.to((at.0 + half, at.1 - half));
}

/// The edge of what was reached: between two members the heavier is needed for anything stiffer than the lighter.
fn steps(svg: &mut Svg, front: &Front, x: &Axis, y: &Axis) {
    let mut path = Path::new();
    let mut last: Option<(f64, f64)> = None;
    for member in &front.members {
        let at = (x.at(member.x), y.at(member.y));
        match last {
            None => path.start(at),
            Some(before) => {
                path.to((at.0, before.1));
                path.to(at);
            }
        }
        last = Some(at);
    }
    svg.path(&path, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.3\"", ink::BLUE));
}

/// Diamonds with the numbers of their variants.
fn members(svg: &mut Svg, of: &FrontPicture<'_>, x: &Axis, y: &Axis) {
    let front = of.front;
    let at = |place: usize| (x.at(front.members[place].x), y.at(front.members[place].y));
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\".8\"", ink::BLUE, ink::PAPER));
    for (place, member) in front.members.iter().enumerate() {
        let (px, py) = at(place);
        let mut diamond = Path::new();
        diamond.start((px, py - 5.2));
        diamond.to((px + 5.2, py));
        diamond.to((px, py + 5.2));
        diamond.to((px - 5.2, py));
        diamond.shut();
        let told = [("variant", member.row.variant.to_string()), data("x", member.x), data("y", member.y)];
        svg.open_data("", &told);
        svg.path(&diamond, "");
        svg.close();
    }
    svg.close();
    let mut labels = Labels::default();
    (0..front.members.len()).for_each(|place| labels.occupy(at(place), 5.0));
    if let Some((mass, stiff)) = of.start {
        labels.occupy((x.at(mass), y.at(stiff)), 8.5);
    }
    let every = front.members.len().div_ceil(NUMBERED).max(1);
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{NUMBER_TEXT}\" font-weight=\"600\"", ink::BLUE));
    for (place, member) in front.members.iter().enumerate().step_by(every) {
        labels.around(svg, at(place), NUMBER_TEXT, &member.row.variant.to_string());
    }
    svg.close();
}

fn keys(constrained: bool, bounded: bool) -> Vec<Key> {
    let among = if constrained { "of those that keep what is required" } else { "of all" };
    let mut keys = vec![Key {
        stroke: format!("stroke=\"{}\" stroke-width=\"1.3\"", ink::BLUE),
        text: format!("the front, {among}"),
    }];
    if bounded {
        keys.push(Key { stroke: bound_stroke(), text: "what is required".to_owned() });
    }
    keys
}

fn caption(of: &FrontPicture<'_>, constrained: bool) -> String {
    let mut text = format!(
        "{} against {}: the upper left is better. Diamonds with the numbers of their variants: no variant {}is both better in one \
         and at least as good in the other.",
        opening(&of.names[1].title),
        of.names[0].title,
        if constrained { "that keeps every requirement " } else { "" }
    );
    text.push_str(match (of.cloud.density.is_some(), constrained) {
        (false, false) => " Discs: all solved variants.",
        (false, true) => " Discs keep every requirement, crosses do not.",
        (true, false) => " Squares: all solved variants, counted in cells; the larger, the more.",
        (true, true) => " Squares keep every requirement, crosses do not, counted in cells; the larger, the more.",
    });
    if of.start.is_some() {
        text.push_str(" Ring: the model as it is.");
    }
    if of.front.thinned {
        text.push_str(" The front has more members than are kept: every second was left out, so that one may be beaten by one that is not shown.");
    }
    text
}

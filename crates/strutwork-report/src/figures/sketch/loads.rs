//! What acts: arrows with their size.

use strutwork_element::LocalAxes;
use strutwork_model::model::Axes;
use strutwork_model::{Model, TubeId, units};

use super::arrows::{arrow, moved, turn, unit};
use super::plane::Plane;
use super::{Sketched, TEXT};
use crate::figures::ink;
use crate::figures::labels::Labels;
use crate::figures::svg::{Path, Svg};
use crate::figures::view::{Sheet, View};
use crate::number::as_given;

/// Length of an arrow, px.
const ARROW: f64 = 36.0;
/// Height of the greatest load along tubes, px.
const SPREAD: f64 = 26.0;
/// With more loaded places than this only the first of each size is written out.
const FEW: usize = 12;

/// A force and a moment at a place, global axes.
type At = ([f64; 3], [f64; 3], [f64; 3]);

/// Everything that acts as vectors, for the choice of the view.
pub(super) fn vectors(sketched: &Sketched<'_>) -> Vec<([f64; 3], [f64; 3])> {
    let model = sketched.model;
    let mut all: Vec<([f64; 3], [f64; 3])> =
        points(sketched).into_iter().map(|(_, force, moment)| (force, moment)).collect();
    for load in sketched.case.iter().flat_map(|case| &case.tube_loads) {
        for part in [load.from, load.to] {
            all.push((global(model, load.tube, load.axes, part), [0.0; 3]));
        }
    }
    all
}

/// Forces and moments at places.
fn points(sketched: &Sketched<'_>) -> Vec<At> {
    let model = sketched.model;
    let halves = |six: &[f64; 6]| ([six[0], six[1], six[2]], [six[3], six[4], six[5]]);
    let mut all: Vec<At> = sketched.forces.iter().map(|(at, force)| (*at, *force, [0.0; 3])).collect();
    let Some(case) = sketched.case else { return all };
    for row in &case.joint_loads {
        let (force, moment) = halves(&row.load.0);
        all.push((model.joints()[row.joint].at, force, moment));
    }
    for row in &case.body_loads {
        let (force, moment) = halves(&row.load.0);
        all.push((model.bodies()[row.body].at, force, moment));
    }
    for row in &case.tube_point_loads {
        let [from, to] = model.tube_ends(row.tube);
        let at = [0, 1, 2].map(|axis| from[axis] + (to[axis] - from[axis]) * row.at);
        let turned = |vector| global(model, row.tube, row.axes, vector);
        all.push((at, turned(row.force), turned(row.moment)));
    }
    all
}

fn global(model: &Model, tube: TubeId, axes: Axes, vector: [f64; 3]) -> [f64; 3] {
    let [from, to] = model.tube_ends(tube);
    match (axes, LocalAxes::between(from, to, model.tubes()[tube].roll)) {
        (Axes::Local, Ok(local)) => {
            // The rows are the local axes, so that the transpose turns back.
            [0, 1, 2].map(|axis| (0..3).map(|row| local.rotation[(row, axis)] * vector[row]).sum())
        }
        _ => vector,
    }
}

/// Draws all loads.
pub(super) fn draw(svg: &mut Svg, labels: &mut Labels, sketched: &Sketched<'_>, sheet: &Sheet, plane: Plane) {
    let mut pen = Pen {
        plane,
        lines: Path::new(),
        heads: Path::new(),
        faint: Path::new(),
        across: Vec::new(),
        texts: Vec::new(),
    };
    along_tubes(&mut pen, sketched, sheet);
    for (at, force, moment) in points(sketched) {
        let at = sheet.at(at);
        force.into_iter().enumerate().for_each(|(axis, size)| pen.force(at, axis, size));
        moment.into_iter().enumerate().for_each(|(axis, size)| pen.moment(at, axis, size));
    }
    others(&mut pen, sketched, sheet);
    let stroke = format!("stroke=\"{}\"", ink::RED);
    svg.path(&pen.faint, &format!("fill=\"none\" {stroke} stroke-width=\".7\""));
    svg.path(&pen.lines, &format!("fill=\"none\" {stroke} stroke-width=\"1.4\""));
    svg.path(&pen.heads, &format!("fill=\"{}\"", ink::RED));
    for (at, toward) in &pen.across {
        svg.open(&format!("fill=\"{}\" {stroke} stroke-width=\"1.2\"", ink::PAPER));
        svg.circle(*at, 5.0);
        if *toward {
            svg.circle(*at, 1.0);
        } else {
            svg.line((at.0 - 3.2, at.1 - 3.2), (at.0 + 3.2, at.1 + 3.2));
            svg.line((at.0 - 3.2, at.1 + 3.2), (at.0 + 3.2, at.1 - 3.2));
        }
        svg.close();
    }
    let mut written: Vec<&str> = Vec::new();
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{TEXT}\"", ink::RED));
    for (at, text) in &pen.texts {
        if pen.texts.len() <= FEW || !written.contains(&text.as_str()) {
            labels.around(svg, *at, TEXT, text);
            written.push(text);
        }
    }
    svg.close();
}

/// Loads along tubes: arrows from a line that shows their size along the tube.
fn along_tubes(pen: &mut Pen, sketched: &Sketched<'_>, sheet: &Sheet) {
    let model = sketched.model;
    let loads: Vec<_> = sketched.case.iter().flat_map(|case| &case.tube_loads).collect();
    let size = |v: [f64; 3]| v.iter().map(|x| x * x).sum::<f64>().sqrt();
    let most = loads.iter().flat_map(|load| [size(load.from), size(load.to)]).fold(0.0, f64::max);
    for load in &loads {
        let [a, b] = model.tube_ends(load.tube).map(|end| sheet.at(end));
        let [w_a, w_b] = [load.from, load.to].map(|w| global(model, load.tube, load.axes, w));
        let way = |w: [f64; 3]| {
            let (x, y) = pen.plane.on_sheet(w);
            (x / most * SPREAD, y / most * SPREAD)
        };
        let (top_a, top_b) = (way(w_a), way(w_b));
        let length = (b.0 - a.0).hypot(b.1 - a.1);
        let count = (length / 16.0).round().clamp(2.0, 24.0) as u32;
        let tails = [(a.0 - top_a.0, a.1 - top_a.1), (b.0 - top_b.0, b.1 - top_b.1)];
        pen.faint.start(tails[0]);
        pen.faint.to(tails[1]);
        for place in 0..=count {
            let share = f64::from(place) / f64::from(count);
            let mix = |p: (f64, f64), q: (f64, f64)| (p.0 + (q.0 - p.0) * share, p.1 + (q.1 - p.1) * share);
            let (tip, reach) = (mix(a, b), mix(top_a, top_b));
            if let Some(direction) = unit(reach).filter(|_| reach.0.hypot(reach.1) > 5.0) {
                arrow(&mut pen.faint, &mut pen.heads, tip, direction, reach.0.hypot(reach.1));
            }
        }
        let text = if size(w_a) == size(w_b) {
            with_unit(size(w_a), "N/m")
        } else {
            format!("{} to {}", with_unit(size(w_a), "N/m"), with_unit(size(w_b), "N/m"))
        };
        let middle = ((tails[0].0 + tails[1].0) / 2.0, (tails[0].1 + tails[1].1) / 2.0);
        pen.texts.push((middle, text));
    }
}

/// Settlements and warm tubes, in words beside their places.
fn others(pen: &mut Pen, sketched: &Sketched<'_>, sheet: &Sheet) {
    let model = sketched.model;
    let Some(case) = sketched.case else { return };
    for row in &case.settlements {
        let at = sheet.at(model.joints()[row.joint].at);
        let size = if row.dof.is_rotation() {
            format!("{} rad", as_given(row.value))
        } else {
            format!("{} mm", as_given(units::to_mm(row.value)))
        };
        pen.texts.push((at, format!("{} = {size}", row.dof.name())));
    }
    for row in &case.temperatures {
        let [a, b] = model.tube_ends(row.tube).map(|end| sheet.at(end));
        let mut parts = Vec::new();
        for (value, name, unit) in
            [(row.rise, "ΔT", "K"), (row.gradient_y, "∂T/∂y", "K/m"), (row.gradient_z, "∂T/∂z", "K/m")]
        {
            if value != 0.0 {
                parts.push(format!("{name} = {} {unit}", as_given(value)));
            }
        }
        pen.texts.push((((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0), parts.join(", ")));
    }
}

/// What is drawn, before it goes to the sheet.
struct Pen {
    plane: Plane,
    lines: Path,
    heads: Path,
    faint: Path,
    /// Arrows along the line of sight: place, and whether they come toward the reader.
    across: Vec<((f64, f64), bool)>,
    texts: Vec<((f64, f64), String)>,
}

impl Pen {
    fn force(&mut self, at: (f64, f64), axis: usize, size: f64) {
        if size == 0.0 {
            return;
        }
        let mut direction = [0.0; 3];
        direction[axis] = size.signum();
        let text = with_unit(size.abs(), "N");
        match unit(self.plane.on_sheet(direction)) {
            Some(way) => {
                let tail = arrow(&mut self.lines, &mut self.heads, moved(at, way, -3.0, 0.0), way, ARROW);
                self.texts.push((tail, text));
            }
            None => {
                self.across.push((at, self.plane.view.project(direction)[2] > 0.0));
                self.texts.push((at, text));
            }
        }
    }

    fn moment(&mut self, at: (f64, f64), axis: usize, size: f64) {
        if size == 0.0 {
            return;
        }
        let mut direction = [0.0; 3];
        direction[axis] = size.signum();
        let text = with_unit(size.abs(), "N·m");
        if self.plane.view != View::Isometric {
            let toward = self.plane.view.project(direction)[2] > 0.0;
            turn(&mut self.lines, &mut self.heads, at, 13.0, toward);
            self.texts.push(((at.0 + 9.0, at.1 - 9.0), text));
            return;
        }
        let Some(way) = unit(self.plane.on_sheet(direction)) else { return };
        // A moment in space: an arrow with two heads along its axis, by the right hand; it starts at the joint.
        let tip = moved(at, way, ARROW + 10.0, 0.0);
        arrow(&mut self.lines, &mut self.heads, tip, way, ARROW + 4.0);
        super::arrows::head(&mut self.heads, moved(tip, way, -6.0, 0.0), way);
        self.texts.push((tip, text));
    }
}

/// A size with its unit, in thousands where it has thousands.
fn with_unit(size: f64, unit: &str) -> String {
    if size >= 1000.0 { format!("{} k{unit}", as_given(size / 1000.0)) } else { format!("{} {unit}", as_given(size)) }
}

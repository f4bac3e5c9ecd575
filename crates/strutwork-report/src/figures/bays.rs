//! The bays of the frame, shaded by how soft they are in shear: the darker, the softer.

use std::collections::BTreeMap;

use strutwork_model::Model;
use strutwork_model::units::N_PER_MM;
use strutwork_solve::bays::{Bay, Bays, Ring};

use super::attached::outline;
use super::furniture::{self, STRIP};
use super::labels::Labels;
use super::svg::{Anchor, Path, Svg};
use super::view::{Sheet, Shown, View};
use super::{Figure, WIDTH, colour, ink};
use crate::number;
use crate::run::Run;

/// Bays are drawn this much smaller, about their middle, so that one behind another shows.
const SHRUNK: f64 = 0.84;
/// The edge that marks an open bay runs between its shading and its tubes.
const MARKED: f64 = 0.92;
/// A bay is shown in a flat view where its normal lies within 45° of the line of sight.
const FACING: f64 = std::f64::consts::FRAC_1_SQRT_2;
/// Bays that are drawn, the softest ones: more would hide one another.
const MOST: usize = 100;
/// Classes that a reader can tell apart; the stiffest share the last.
const CLASSES: usize = 6;

/// The classes of stiffness: from the softest bay's upwards, each about three times as stiff as the last.
struct Classes {
    /// Lower limit of the first class as a step of the scale 1, 3, 10, 30 … N/m.
    first: i32,
    count: usize,
}

impl Classes {
    fn of(bays: &[Bay]) -> Self {
        let steps = || bays.iter().map(|bay| step(bay.stiffness));
        let first = steps().min().unwrap_or(0);
        let last = steps().max().unwrap_or(0);
        let count = usize::try_from(last - first).unwrap_or(0) + 1;
        Self { first, count: count.min(CLASSES) }
    }

    fn class(&self, stiffness: f64) -> usize {
        usize::try_from(step(stiffness) - self.first).unwrap_or(0).min(self.count - 1)
    }

    /// Dark for the softest.
    fn colour(&self, class: usize) -> String {
        let place = if self.count > 1 { class as f64 / (self.count - 1) as f64 } else { 0.5 };
        colour::hex(colour::ramp(1.0 - place))
    }
}

/// A place on the scale 1, 3, 10, 30, 100 …: the greatest that is not above the value.
fn step(value: f64) -> i32 {
    if !(value.is_finite() && value > 0.0) {
        return 0;
    }
    // A drawing cares for a few decades; the cast is far from its limits.
    let decade = value.log10().floor();
    let half = value / 10.0_f64.powf(decade) >= 3.0;
    2 * decade as i32 + i32::from(half)
}

/// The value of a place on that scale.
fn limit(step: i32) -> f64 {
    let factor = if step.rem_euclid(2) == 1 { 3.0 } else { 1.0 };
    factor * 10.0_f64.powi(step.div_euclid(2))
}

/// The open bays, by place in [`Bays::bays`], that break rings most of whose bays are stiffened; each with these rings.
pub fn breaking(bays: &Bays) -> BTreeMap<usize, Vec<&Ring>> {
    let mut found: BTreeMap<usize, Vec<&Ring>> = BTreeMap::new();
    for ring in &bays.rings {
        if 2 * ring.open(bays).count() < ring.bays.len() {
            for open in ring.open(bays) {
                found.entry(open).or_default().push(ring);
            }
        }
    }
    found
}

/// The bays in one view; `None` where none faces it.
pub fn draw(run: &Run<'_>, view: View) -> Option<Figure> {
    let (model, bays) = (run.model, run.bays);
    let mut shown: Vec<usize> = (0..bays.bays.len()).filter(|place| faces(&bays.bays[*place], view)).collect();
    if shown.is_empty() {
        return None;
    }
    let facing = shown.len();
    shown.truncate(MOST);
    let sheet = Sheet::fit(model, view, Shown::Frame, (WIDTH, 440.0), 24.0);
    if view == View::Isometric {
        let nearness = |place: &usize| sheet.nearness(middle(model, &bays.bays[*place]));
        shown.sort_by(|a, b| nearness(a).total_cmp(&nearness(b)));
    } else {
        // The softest last, so that it lies on top of what is behind it.
        shown.reverse();
    }
    let classes = Classes::of(&bays.bays);
    let drawing = sheet.height.max(90.0);
    let label = format!("Bays by shear stiffness, {}", view.title());
    let mut svg = Svg::new(WIDTH, drawing + STRIP + 44.0, "frame", &label);

    let mut tubes = Path::new();
    for tube in model.tubes().ids() {
        let [from, to] = model.tube_ends(tube);
        tubes.start(sheet.at(from));
        tubes.to(sheet.at(to));
    }
    svg.path(&tubes, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\".9\"", ink::GREY));
    let broken = breaking(bays);
    for place in &shown {
        let bay = &bays.bays[*place];
        let mut area = Path::new();
        outline(&mut area, &corners(model, bay, &sheet, SHRUNK));
        let fill = classes.colour(classes.class(bay.stiffness));
        svg.path(&area, &format!("fill=\"{fill}\" fill-opacity=\".88\" stroke=\"{}\" stroke-width=\".7\"", ink::PAPER));
        if broken.contains_key(place) {
            let mut edge = Path::new();
            outline(&mut edge, &corners(model, bay, &sheet, MARKED));
            svg.path(
                &edge,
                &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"2.2\" stroke-dasharray=\"7 4\"", ink::RED),
            );
        }
    }
    let unnamed = numbers(&mut svg, model, bays, &shown, &sheet);

    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, WIDTH - 26.0, drawing + 22.0);
    legend(&mut svg, &classes, (96.0, drawing + STRIP - 6.0));
    let mut caption =
        format!("{}. Bays shaded by shear stiffness: the darker, the softer; numbers as in the table", view.title());
    if view != View::Isometric {
        caption.push_str("; where bays lie behind one another the softest is on top");
    }
    if facing > shown.len() {
        caption.push_str(&format!("; the softest {} of {facing}", shown.len()));
    }
    if unnamed > 0 {
        caption.push_str(&format!("; {unnamed} numbers found no room"));
    }
    caption.push('.');
    if shown.iter().any(|place| broken.contains_key(place)) {
        caption.push_str(" Broken red edge: an open bay of a ring whose bays are mostly stiffened.");
    }
    Some(Figure { svg: svg.finish(), wide: false, caption })
}

fn faces(bay: &Bay, view: View) -> bool {
    let axis = match view {
        View::Isometric => return true,
        View::Plan => 2,
        View::Side => 1,
        View::Front => 0,
    };
    bay.normal[axis].abs() > FACING
}

fn middle(model: &Model, bay: &Bay) -> [f64; 3] {
    [0, 1, 2].map(|axis| bay.corners.iter().map(|id| model.joints()[*id].at[axis]).sum::<f64>() / 4.0)
}

fn corners(model: &Model, bay: &Bay, sheet: &Sheet, scale: f64) -> [(f64, f64); 4] {
    let centre = middle(model, bay);
    bay.corners.map(|id| {
        let at = model.joints()[id].at;
        sheet.at([0, 1, 2].map(|axis| centre[axis] + (at[axis] - centre[axis]) * scale))
    })
}

/// Writes the bays' numbers at their middles, softest first; returns how many found no room.
fn numbers(svg: &mut Svg, model: &Model, bays: &Bays, shown: &[usize], sheet: &Sheet) -> usize {
    let mut labels = Labels::default();
    let mut order = shown.to_vec();
    order.sort_unstable();
    let mut places: Vec<((f64, f64), Vec<String>)> = Vec::new();
    for place in order {
        let at = sheet.at(middle(model, &bays.bays[place]));
        let number = (place + 1).to_string();
        match places.iter_mut().find(|(other, _)| (other.0 - at.0).hypot(other.1 - at.1) < 3.0) {
            Some((_, numbers)) => numbers.push(number),
            None => places.push((at, vec![number])),
        }
    }
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"11\" font-weight=\"600\"", ink::INK));
    for (at, numbers) in places {
        labels.upon(svg, at, 11.0, &numbers.join(" · "));
    }
    svg.close();
    labels.left_out
}

/// The scale: a box of every class, its limits at the edges.
fn legend(svg: &mut Svg, classes: &Classes, corner: (f64, f64)) {
    const STEP: f64 = 64.0;
    svg.open(&format!("stroke=\"{}\" stroke-width=\".7\"", ink::GREY));
    for class in 0..classes.count {
        let left = corner.0 + STEP * class as f64;
        svg.rectangle((left, corner.1), (STEP, 11.0), &format!("fill=\"{}\"", classes.colour(class)));
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    svg.text((corner.0 - 8.0, corner.1 + 9.0), Anchor::End, "softest");
    svg.text((corner.0 + STEP * classes.count as f64 + 8.0, corner.1 + 9.0), Anchor::Start, "stiffest");
    for edge in 1..classes.count {
        let value = limit(classes.first + i32::try_from(edge).unwrap_or(0)) / N_PER_MM;
        let text = number::as_given(value);
        svg.text((corner.0 + STEP * edge as f64, corner.1 + 23.0), Anchor::Middle, &text);
    }
    svg.text((corner.0, corner.1 + 35.0), Anchor::Start, "shear stiffness as G·t of a skin, N/mm");
    svg.close();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_runs_in_steps_of_about_three() {
        for (value, lower) in [(1.0, 1.0), (2.99, 1.0), (3.0, 3.0), (9.9, 3.0), (10.0, 10.0), (0.31, 0.3), (0.29, 0.1)]
        {
            let found = limit(step(value));
            assert!((found / lower - 1.0).abs() < 1e-9, "{value}: {found}");
        }
        assert_eq!(step(0.0), 0);
        assert_eq!(step(f64::NAN), 0);
    }

    #[test]
    fn the_softest_class_is_the_darkest() {
        let classes = Classes { first: 4, count: 4 };
        assert_eq!(classes.class(limit(4) * 1.01), 0);
        assert_eq!(classes.class(limit(20)), 3);
        assert_eq!(classes.colour(0), colour::hex(colour::ramp(1.0)));
        assert_eq!(classes.colour(3), colour::hex(colour::ramp(0.0)));
    }
}

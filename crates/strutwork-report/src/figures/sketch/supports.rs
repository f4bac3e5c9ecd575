//! How joints are held: a sign for each kind.

use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};
use strutwork_model::{Dof, JointId, Model};

use super::arrows::{ground, moved, spring, unit};
use super::plane::Plane;
use crate::figures::ink;
use crate::figures::labels::Labels;
use crate::figures::svg::{Path, Svg};
use crate::figures::view::Sheet;

const UNIT: [[f64; 3]; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

/// Strokes of signs, and what is filled with paper.
#[derive(Default)]
struct Signs {
    lines: Path,
    areas: Path,
    /// Whether joints that are held against turning and not in all respects are marked for that.
    marks_turns: bool,
}

/// Whether few enough joints are held against turning, and not in all respects, to mark each.
fn marks_turns(model: &Model, plane: Plane) -> bool {
    let axes = plane.axes().unwrap_or([0, 1]);
    let turns = |support: &Support| match plane.normal {
        Some(normal) => {
            fixed(support, Dof::ALL[3 + normal]) && !axes.iter().all(|axis| fixed(support, Dof::ALL[*axis]))
        }
        None => {
            (3..6).any(|turn| fixed(support, Dof::ALL[turn])) && !Dof::ALL.into_iter().all(|dof| fixed(support, dof))
        }
    };
    model.supports().iter().filter(|support| turns(support)).count() <= FEW_TURNS
}

/// With more joints than this that are held against turning besides, as those of a truss are, they are not marked for that.
const FEW_TURNS: usize = 4;

/// All supports.
pub(super) fn draw(svg: &mut Svg, labels: &mut Labels, model: &Model, sheet: &Sheet, plane: Plane) {
    let tubes_at = directions(model, plane);
    let mut signs = Signs { marks_turns: marks_turns(model, plane), ..Signs::default() };
    for support in model.supports() {
        let at = sheet.at(model.joints()[support.joint].at);
        let inward = tubes_at[support.joint.index()];
        let drawn = match (plane.axes(), plane.normal) {
            (Some(axes), Some(normal)) => signs.flat(at, support, axes, normal, inward),
            _ => signs.space(at, support, plane, inward),
        };
        if drawn {
            labels.occupy(at, 9.0);
        }
    }
    svg.path(&signs.areas, &format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.2\"", ink::PAPER, ink::BLUE));
    svg.path(&signs.lines, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.2\"", ink::BLUE));
}

/// The sum of the directions in which tubes leave each joint, on the sheet.
fn directions(model: &Model, plane: Plane) -> Vec<(f64, f64)> {
    let mut sums = vec![(0.0, 0.0); model.joints().len()];
    let mut put = |joint: JointId, way: (f64, f64)| {
        if let Some((x, y)) = unit(way) {
            sums[joint.index()].0 += x;
            sums[joint.index()].1 += y;
        }
    };
    for tube in model.tubes() {
        let [a, b] = [tube.from, tube.to].map(|joint| model.joints()[joint].at);
        let way = plane.on_sheet([b[0] - a[0], b[1] - a[1], b[2] - a[2]]);
        put(tube.from, way);
        put(tube.to, (-way.0, -way.1));
    }
    sums
}

fn fixed(support: &Support, dof: Dof) -> bool {
    support.holds[dof] == Hold::Fixed
}

fn sprung(support: &Support, dof: Dof) -> bool {
    matches!(support.holds[dof], Hold::Spring(_))
}

impl Signs {
    /// In a plane; whether anything is held in it.
    fn flat(&mut self, at: (f64, f64), support: &Support, axes: [usize; 2], normal: usize, inward: (f64, f64)) -> bool {
        let held = axes.map(|axis| fixed(support, Dof::ALL[axis]));
        let turn = Dof::ALL[3 + normal];
        let all = held == [true; 2] && fixed(support, turn);
        let turned = fixed(support, turn) && (all || self.marks_turns);
        // On the sheet: right is +x, up is −y.
        let ways = [(1.0, 0.0), (0.0, -1.0)];
        let outward = |axis: usize| {
            let (x, y) = ways[axis];
            let along = inward.0 * x + inward.1 * y;
            // Below and to the left where no tube decides.
            if along < -0.05 { (x, y) } else { (-x, -y) }
        };
        let away = unit((-inward.0, -inward.1));
        match (held, turned) {
            ([true, true], true) => ground(&mut self.lines, at, away.unwrap_or((0.0, 1.0)), 13.0),
            ([true, true], false) => self.pin(at, outward(1)),
            ([true, false], turned) => self.slide(at, outward(0), turned),
            ([false, true], turned) => self.slide(at, outward(1), turned),
            ([false, false], true) => self.square(at),
            ([false, false], false) => {}
        }
        let mut any = held[0] || held[1] || turned;
        for (place, axis) in axes.into_iter().enumerate() {
            if sprung(support, Dof::ALL[axis]) {
                let end = spring(&mut self.lines, at, outward(place), 30.0);
                ground(&mut self.lines, end, outward(place), 9.0);
                any = true;
            }
        }
        if sprung(support, turn) {
            self.coil(at);
            any = true;
        }
        any
    }

    /// In space: a bar at the end of a short line for each movement held, a second bar where the turn about it is held too.
    fn space(&mut self, at: (f64, f64), support: &Support, plane: Plane, inward: (f64, f64)) -> bool {
        if Dof::ALL.into_iter().all(|dof| fixed(support, dof)) {
            ground(&mut self.lines, at, unit((-inward.0, -inward.1)).unwrap_or((0.0, 1.0)), 13.0);
            return true;
        }
        let mut any = false;
        for (axis, direction) in UNIT.into_iter().enumerate() {
            let Some((x, y)) = unit(plane.on_sheet(direction)) else { continue };
            let outward = if inward.0 * x + inward.1 * y < -0.05 { (x, y) } else { (-x, -y) };
            let (moves, turns) = (Dof::ALL[axis], Dof::ALL[3 + axis]);
            let turned = fixed(support, turns) && self.marks_turns;
            let end = moved(at, outward, 15.0, 0.0);
            if sprung(support, moves) {
                let end = spring(&mut self.lines, at, outward, 28.0);
                ground(&mut self.lines, end, outward, 7.0);
                any = true;
            } else if fixed(support, moves) || turned || sprung(support, turns) {
                self.lines.start(at);
                self.lines.to(end);
                any = true;
            }
            if fixed(support, moves) {
                self.bar(end, outward, 0.0);
            }
            if turned {
                self.bar(end, outward, -4.0);
                self.bar(end, outward, -6.5);
            }
            if sprung(support, turns) {
                self.coil(end);
            }
        }
        any
    }

    fn bar(&mut self, at: (f64, f64), outward: (f64, f64), along: f64) {
        self.lines.start(moved(at, outward, along, 4.5));
        self.lines.to(moved(at, outward, along, -4.5));
    }

    /// Held in both directions, free to turn.
    fn pin(&mut self, at: (f64, f64), outward: (f64, f64)) {
        self.triangle(at, outward);
        ground(&mut self.lines, moved(at, outward, 12.0, 0.0), outward, 11.0);
    }

    /// Held along `outward`, free across it; `turned`: and held against turning.
    fn slide(&mut self, at: (f64, f64), outward: (f64, f64), turned: bool) {
        let reach = if turned { 5.0 } else { 12.0 };
        if turned {
            self.areas.start(moved(at, outward, 0.0, 9.0));
            self.areas.to(moved(at, outward, reach, 9.0));
            self.areas.to(moved(at, outward, reach, -9.0));
            self.areas.to(moved(at, outward, 0.0, -9.0));
            self.areas.shut();
        } else {
            self.triangle(at, outward);
        }
        let line = moved(at, outward, reach + 3.0, 0.0);
        self.lines.start(moved(line, outward, 0.0, 11.0));
        self.lines.to(moved(line, outward, 0.0, -11.0));
    }

    fn triangle(&mut self, at: (f64, f64), outward: (f64, f64)) {
        self.areas.start(at);
        self.areas.to(moved(at, outward, 12.0, 7.0));
        self.areas.to(moved(at, outward, 12.0, -7.0));
        self.areas.shut();
    }

    fn square(&mut self, at: (f64, f64)) {
        self.areas.start((at.0 - 5.0, at.1 - 5.0));
        self.areas.to((at.0 + 5.0, at.1 - 5.0));
        self.areas.to((at.0 + 5.0, at.1 + 5.0));
        self.areas.to((at.0 - 5.0, at.1 + 5.0));
        self.areas.shut();
    }

    /// A spiral: a spring against turning.
    fn coil(&mut self, at: (f64, f64)) {
        for part in 0..=32_u32 {
            let share = f64::from(part) / 32.0;
            let (angle, radius) = (share * 2.0 * std::f64::consts::TAU, 4.0 + 7.0 * share);
            let next = (at.0 + radius * angle.cos(), at.1 + radius * angle.sin());
            if part == 0 { self.lines.start(next) } else { self.lines.to(next) }
        }
    }
}

/// What the signs mean, as far as the model has supports.
pub(super) fn words(model: &Model, plane: Plane) -> String {
    let supports = model.supports();
    if supports.is_empty() {
        return String::from(" Nothing holds it.");
    }
    let springs = supports.iter().any(|support| Dof::ALL.into_iter().any(|dof| sprung(support, dof)));
    let mut text = match plane.normal {
        Some(_) => String::from(
            " Hatched line: held in all respects; triangle on hatched ground: held, free to turn; triangle or block on a plain \
             line: free to slide along it.",
        ),
        None => String::from(
            " Hatched line: held in all respects; bar at the end of a short line: this movement is held; two bars: this turn \
             is held.",
        ),
    };
    if springs {
        text.push_str(" Zigzag or spiral: a spring.");
    }
    let across = |support: &Support| {
        plane.normal.is_some_and(|normal| {
            let moves = fixed(support, Dof::ALL[normal]);
            moves || (0..3).any(|axis| axis != normal && fixed(support, Dof::ALL[3 + axis]))
        })
    };
    if supports.iter().filter(|support| across(support)).count() > 2 {
        text.push_str(" Joints held to the plane of the sheet are not marked for that.");
    }
    if !marks_turns(model, plane) {
        text.push_str(" Joints that are held against turning alone are not marked for that.");
    }
    text
}

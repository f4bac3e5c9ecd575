//! Cases of the load files, and what acts in each.

use strutwork_model::model::{Axes, PlainCase};
use strutwork_model::units::{to_deg, to_mm};
use strutwork_model::{Dof, DofMap, Model, TubeId};

use super::change::{Change, Part};
use super::facts::{Fact, Item, number};
use super::listed::Listed;
use super::names::Side;
use super::pairs::{Pairs, axes};

const FORCES: [(&str, &str); 6] = [("Fx", "N"), ("Fy", "N"), ("Fz", "N"), ("Mx", "N·m"), ("My", "N·m"), ("Mz", "N·m")];

/// How the tubes of the first model stand to those of the second: what is written in a tube's own axes, or from its `from`
/// end, is turned with a tube that runs the other way.
pub(super) struct Turned<'m> {
    before: &'m Model,
    after: &'m Model,
    pairs: &'m Pairs,
}

impl<'m> Turned<'m> {
    pub(super) const fn of(before: &'m Model, after: &'m Model, pairs: &'m Pairs) -> Self {
        Self { before, after, pairs }
    }

    /// Whether the tube runs the other way now.
    fn reversed(&self, tube: TubeId) -> bool {
        self.pairs.tube(tube).is_some_and(|pair| pair.reversed)
    }

    /// A vector in the tube's own axes, in those of its pair.
    fn vector(&self, tube: TubeId, local: [f64; 3]) -> [f64; 3] {
        let Some(pair) = self.pairs.tube(tube).filter(|pair| pair.reversed) else { return local };
        let (Some(was), Some(is)) = (axes(self.before, tube), axes(self.after, pair.tube)) else { return local };
        let [x, y, z] = [0, 1, 2].map(|row| {
            // What each axis of the one is in the other: ±1 along the tube, and across it as the roll turns it.
            (0..3).map(|column| (is.rotation.row(row) * was.rotation.row(column).transpose())[0] * local[column]).sum()
        });
        [x, y, z]
    }
}

/// One case: an item for each thing that something acts on.
pub(super) fn acting(side: &Side<'_>, case: &PlainCase, turned: Option<&Turned<'_>>) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    let mut add = |name: String, facts: Vec<Fact>| {
        // What acts on one thing in several rows is told together.
        match items.iter_mut().find(|item| item.name == name) {
            Some(item) => join(&mut item.facts, facts),
            None => items.push(Item { name, facts }),
        }
    };
    for load in &case.joint_loads {
        add(format!("joint {}", side.joint(load.joint)), forces(&load.load));
    }
    for load in &case.body_loads {
        add(format!("body {}", side.body(load.body)), forces(&load.load));
    }
    for load in &case.tube_loads {
        let reversed = turned.is_some_and(|turned| turned.reversed(load.tube));
        let (mut from, mut to) = if reversed { (load.to, load.from) } else { (load.from, load.to) };
        if let (Some(turned), Axes::Local) = (turned, load.axes) {
            (from, to) = (turned.vector(load.tube, from), turned.vector(load.tube, to));
        }
        let mut facts = Vec::new();
        for (end, intensity) in [("from", from), ("to", to)] {
            for (axis, value) in ["wx", "wy", "wz"].into_iter().zip(intensity) {
                facts.push(number(format!("{axis} at {end}, {}", load.axes.word()), value, "N/m"));
            }
        }
        add(format!("tube {}", side.tube(load.tube)), nonzero(facts));
    }
    for load in &case.tube_point_loads {
        let reversed = turned.is_some_and(|turned| turned.reversed(load.tube));
        let at = if reversed { 1.0 - load.at } else { load.at };
        let (mut force, mut moment) = (load.force, load.moment);
        if let (Some(turned), Axes::Local) = (turned, load.axes) {
            (force, moment) = (turned.vector(load.tube, force), turned.vector(load.tube, moment));
        }
        let values = force.into_iter().chain(moment);
        let at = crate::number::shown((at * 1e9).round() / 1e9);
        let fact = |((name, unit), value)| number(format!("{name} at {at}, {}", load.axes.word()), value, unit);
        add(format!("tube {}", side.tube(load.tube)), nonzero(FORCES.into_iter().zip(values).map(fact).collect()));
    }
    for load in &case.temperatures {
        let gradients = [0.0, load.gradient_y, load.gradient_z];
        let [_, y, z] = turned.map_or(gradients, |turned| turned.vector(load.tube, gradients));
        let facts =
            vec![number("rise", load.rise, "K"), number("gradient y", y, "K/m"), number("gradient z", z, "K/m")];
        add(format!("tube {}", side.tube(load.tube)), nonzero(facts));
    }
    for settlement in &case.settlements {
        let turn = settlement.dof.is_rotation();
        let (value, unit) = if turn { (to_deg(settlement.value), "deg") } else { (to_mm(settlement.value), "mm") };
        let fact = number(format!("settlement {}", settlement.dof.name()), value, unit);
        add(format!("joint {}", side.joint(settlement.joint)), vec![fact]);
    }
    items
}

fn forces(load: &DofMap<f64>) -> Vec<Fact> {
    let facts = FORCES.into_iter().zip(Dof::ALL).map(|((name, unit), dof)| number(name, load[dof], unit));
    nonzero(facts.collect())
}

/// Nothing acts where a value is zero.
fn nonzero(facts: Vec<Fact>) -> Vec<Fact> {
    let some = |fact: &Fact| !matches!(fact.value, super::facts::Value::Number(value, _) if value == 0.0);
    facts.into_iter().filter(some).collect()
}

fn join(facts: &mut Vec<Fact>, more: Vec<Fact>) {
    use super::facts::Value;
    for fact in more {
        match facts.iter_mut().find(|known| known.what == fact.what) {
            Some(known) => {
                if let (Value::Number(sum, _), Value::Number(value, _)) = (&mut known.value, &fact.value) {
                    *sum += value;
                }
            }
            None => facts.push(fact),
        }
    }
}

/// Tells the cases of the load files and what acts in them.
pub(super) fn cases(a: &Side<'_>, b: &Side<'_>, pairs: &Pairs, out: &mut Vec<Change>) {
    let turned = Turned::of(a.model, b.model, pairs);
    for case in b.model.plain_cases() {
        match a.model.plain_cases().iter().find(|other| other.name == case.name) {
            None => {
                let loads = acting(b, case, None).len();
                let about = format!("something acts on {loads} place{}", if loads == 1 { "" } else { "s" });
                out.push(Change::added(Part::Case, &case.name, about));
            }
            Some(was) => {
                let listed = Listed::of(acting(a, was, Some(&turned)), acting(b, case, None));
                let before = out.len();
                listed.by_name_only().told(Part::Load, out);
                for change in &mut out[before..] {
                    change.name = format!("on {} in case {}", change.name, case.name);
                }
            }
        }
    }
    for case in a.model.plain_cases() {
        if b.model.plain_cases().iter().all(|other| other.name != case.name) {
            out.push(Change::gone(Part::Case, &case.name, String::new()));
        }
    }
}

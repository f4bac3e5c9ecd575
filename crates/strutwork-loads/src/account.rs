//! The account of a case: what acts, entry by entry about the centre of gravity, so that a reader adds it up by hand.

use nalgebra::{Matrix3, Vector3};
use strutwork_model::JointId;
use strutwork_model::model::{Model, Wheel};

use crate::case::LoadCase;
use crate::masses::{MassModel, Total};

/// Loads that were put one by one are told one by one up to so many.
const PLACED: usize = 12;

/// An entry below this share of all that acts is rounding, and is left out.
const ROUNDING: f64 = 1e-9;

/// What an entry is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Entry {
    /// The force of the road on a wheel, at its contact point.
    Wheel(Wheel),
    /// The mass times the body force besides that of accelerations: the weight.
    Weight,
    /// −m·a and −I·α of the case's accelerations.
    Inertia,
    /// What was put on something by itself, by its place in the derivation.
    Placed(usize),
    /// So many of these together.
    AllPlaced(usize),
    /// What a support takes, at its joint.
    Support(JointId),
    /// What this many supports take together.
    Supports(usize),
    /// All else: loads along tubes, torques of shafts, forces on wheels that do not act at the contact.
    Else,
}

/// One line of the account.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// What it is.
    pub entry: Entry,
    /// Where its force acts, m; `None` for what acts at several places.
    pub at: Option<[f64; 3]>,
    /// Its force, N, and its moment about the centre of gravity, N·m; global axes.
    pub load: [f64; 6],
}

/// What acts in a case, entry by entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Account {
    /// Its lines; what does not act in the case is left out.
    pub lines: Vec<Line>,
    /// Their sum: nothing in a free case, what the supports take in a held one; nothing again once their reactions are in.
    pub sum: [f64; 6],
    about: [f64; 3],
}

impl Account {
    /// Adds what the supports exert on the frame, N and N·m at their joints: joint by joint up to `most` of them, else in one
    /// line.
    pub fn react(&mut self, reactions: &[(JointId, [f64; 6])], model: &Model, most: usize) {
        let mut all = Total::about(self.about);
        for (joint, reaction) in reactions {
            let at = model.joints()[*joint].at;
            let mut own = Total::about(self.about);
            own.add(*reaction, at);
            all.add(*reaction, at);
            if reactions.len() <= most {
                self.lines.push(Line { entry: Entry::Support(*joint), at: Some(at), load: own.sum() });
            }
        }
        if reactions.len() > most {
            self.lines.push(Line { entry: Entry::Supports(reactions.len()), at: None, load: all.sum() });
        }
        for (sum, part) in self.sum.iter_mut().zip(all.sum()) {
            *sum += part;
        }
    }
}

/// The account of a case.
///
/// ```text
/// wheel: F, (r − r_cg) × F     weight: m·b, 0     inertia: −m·a, −I·α     all else: the case's resultant less these
/// ```
///
/// # Units and shapes
/// m, N, N·m; global axes; moments about the centre of gravity of `mass`, the origin where there is no mass.
///
/// # Assumes
/// `mass` is that of `model`, which `case` was built on.
pub fn account(case: &LoadCase, model: &Model, mass: &MassModel) -> Account {
    let total = Total::of(case, model, mass.centre);
    let mut lines = Vec::new();
    if let (Some(forces), Some(vehicle)) = (case.derivation.wheel_forces, model.vehicle()) {
        for (wheel, force) in Wheel::ALL.into_iter().zip(forces) {
            let contact = vehicle.corner(wheel).contact;
            let mut own = Total::about(mass.centre);
            own.add([force[0], force[1], force[2], 0.0, 0.0, 0.0], contact);
            lines.push(Line { entry: Entry::Wheel(wheel), at: Some(contact), load: own.sum() });
        }
    }
    let placed = &case.derivation.placed;
    let mut together = Total::about(mass.centre);
    for (place, one) in placed.iter().enumerate() {
        let mut own = Total::about(mass.centre);
        own.add(one.load, one.at);
        together.add(one.load, one.at);
        if placed.len() <= PLACED {
            lines.push(Line { entry: Entry::Placed(place), at: Some(one.at), load: own.sum() });
        }
    }
    if placed.len() > PLACED {
        lines.push(Line { entry: Entry::AllPlaced(placed.len()), at: None, load: together.sum() });
    }
    let [x, y, z] = case.derivation.body_force.map(|part| part * mass.total);
    if [x, y, z] != [0.0; 3] {
        lines.push(Line { entry: Entry::Weight, at: Some(mass.centre), load: [x, y, z, 0.0, 0.0, 0.0] });
    }
    if let Some([ax, ay, az, about_x, about_y, about_z]) = case.derivation.acceleration {
        let inertia = Matrix3::from_fn(|row, column| mass.inertia[row][column]);
        let force = -Vector3::new(ax, ay, az) * mass.total;
        let moment = -(inertia * Vector3::new(about_x, about_y, about_z));
        let load = [force.x, force.y, force.z, moment.x, moment.y, moment.z];
        if load != [0.0; 6] {
            lines.push(Line { entry: Entry::Inertia, at: Some(mass.centre), load });
        }
    }
    let sum = total.sum();
    let left: [f64; 6] = std::array::from_fn(|row| sum[row] - lines.iter().map(|line| line.load[row]).sum::<f64>());
    let sizes = |from: usize| match from {
        0 => total.force_size.max(lines.iter().map(|line| size(&line.load[..3])).sum()),
        _ => total.moment_size.max(lines.iter().map(|line| size(&line.load[3..])).sum()),
    };
    if size(&left[..3]) > ROUNDING * sizes(0) || size(&left[3..]) > ROUNDING * sizes(3) {
        lines.push(Line { entry: Entry::Else, at: None, load: left });
    }
    Account { lines, sum, about: mass.centre }
}

fn size(three: &[f64]) -> f64 {
    three.iter().map(|value| value * value).sum::<f64>().sqrt()
}

//! What the scales say beside what the model weighs, and what usually explains the difference.

use strutwork_model::model::{Model, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;

use super::{MassKind, MassModel, overlap};
use crate::case::Mark;
use crate::wheels::static_loads;

/// The comparison of a model with the scales.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighing {
    /// Frame, vehicle, corners: what was weighed, in this order; empty where nothing was. Corners are left out where the model's
    /// own loads on them cannot be told ([`static_loads`]).
    pub rows: Vec<WeighedRow>,
    /// What usually lies between a weighed bare frame and its tubes' centre lines; empty where the frame was not weighed.
    pub explanations: Vec<Explanation>,
}

/// Something that was weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeighedRow {
    /// What.
    pub what: Scale,
    /// What the scales say, kg.
    pub weighed: f64,
    /// What the model says, kg.
    pub model: f64,
}

/// What stood on the scales.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// The bare frame: the model's tubes, without panels and carried masses.
    Frame,
    /// The whole vehicle: everything in the model.
    Vehicle,
    /// One wheel: its static load.
    Corner(Wheel),
}

/// Something that makes a welded frame heavier or lighter than its tubes' centre lines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Explanation {
    /// What.
    pub what: &'static str,
    /// What it adds to the tubes' mass, kg, from least to greatest; negative: the frame is lighter than the model.
    pub adds: [f64; 2],
    /// Where the values come from.
    pub source: &'static str,
    /// How well the source is known.
    pub mark: Mark,
}

impl WeighedRow {
    /// Weighed less model, kg: positive where the model is too light.
    pub fn difference(&self) -> f64 {
        self.weighed - self.model
    }

    /// The difference as a share of what was weighed; `None` where that is zero.
    pub fn share(&self) -> Option<f64> {
        (self.weighed != 0.0).then(|| self.difference() / self.weighed)
    }
}

impl Weighing {
    /// The difference of the bare frame that the explanations make likely, kg, from least to greatest; `None` where the
    /// frame was not weighed.
    pub fn likely(&self) -> Option<[f64; 2]> {
        let sum = |end: usize| self.explanations.iter().map(|one| one.adds[end]).sum();
        (!self.explanations.is_empty()).then(|| [sum(0), sum(1)])
    }
}

/// Compares a model with what was weighed.
///
/// # Units and shapes
/// kg; weighed less model.
///
/// # Source
/// Weld metal: 250 joints with 100 mm of weld at 0.05 kg/m make 1.2 kg on a frame of 60 to 80 kg (derived). Mass tolerance
/// of cold-formed hollow sections: EN 10219-2. The rest is common practice, no source.
pub fn weighing(model: &Model) -> Weighing {
    let mass = MassModel::of(model);
    let weighed = model.weighed();
    let tubes = mass.of_kind(MassKind::Tubes);
    let mut rows = Vec::new();
    let mut row = |what, weighed: Option<f64>, model| {
        rows.extend(weighed.map(|weighed| WeighedRow { what, weighed, model }));
    };
    row(Scale::Frame, weighed.frame, tubes);
    row(Scale::Vehicle, weighed.vehicle, mass.total);
    if let (true, Ok(of)) = (weighed.corners.iter().any(Option::is_some), static_loads(model)) {
        let loads = of.loads;
        for wheel in Wheel::ALL {
            row(Scale::Corner(wheel), weighed.corners[wheel as usize], loads[wheel as usize] / STANDARD_GRAVITY);
        }
    }
    let explanations = weighed.frame.map_or_else(Vec::new, |_| explanations(tubes, overlap(model)));
    Weighing { rows, explanations }
}

fn explanations(tubes: f64, overlap: f64) -> Vec<Explanation> {
    let explain = |what, adds, source| Explanation { what, adds, source, mark: Mark::of(source) };
    vec![
        explain(
            "weld metal, 1.5 to 2 % of the tubes",
            [0.015 * tubes, 0.02 * tubes],
            "250 joints × 100 mm of weld at 0.05 kg/m on 60 to 80 kg (derived; common practice, no source)",
        ),
        explain(
            "brackets, crush tubes and gussets that masses.csv does not list, 10 to 20 % of the tubes",
            [0.1 * tubes, 0.2 * tubes],
            "common practice, no source",
        ),
        explain(
            "tolerance of the tubes' mass, ±6 % of each length; less over many lengths",
            [-0.06 * tubes, 0.06 * tubes],
            "EN 10219-2, tolerance on mass of an individual length (read in a supplier's table of the standard)",
        ),
        explain(
            "overlap of centre lines at joints: half the chord's depth at each end that meets one",
            [-overlap, -overlap],
            "estimated from this model; common practice, no source",
        ),
    ]
}

//! Weighed parts against modelled ones.

use strutwork_loads::masses::{MassKind, MassModel};
use strutwork_model::Model;
use strutwork_model::files::WEIGHED;
use strutwork_model::model::Weighable;

use super::uncertainty;
use crate::remark::{Remark, codes};
use crate::words::{kg, rounded};

/// A part on the scales beside the model.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedPartRow {
    /// Its name as written.
    pub name: String,
    /// What the scales say, kg.
    pub weighed: f64,
    /// How far that may be out, kg: two standard uncertainties.
    pub uncertainty: f64,
    /// What the model says, kg.
    pub model: f64,
}

impl WeighedPartRow {
    /// Weighed less model, kg.
    pub fn difference(&self) -> f64 {
        self.weighed - self.model
    }

    /// The difference over what the model says, a share; `None` where that is nothing.
    pub fn share(&self) -> Option<f64> {
        (self.model > 0.0).then(|| self.difference() / self.model)
    }
}

/// A difference above this share of the model, beside what the scales leave open, is worth a word. Own choice.
const SHARE: f64 = 0.05;
/// A slip lies within the second factor, and one between these within the first: between kg and pounds a true difference may lie as
/// well, it has to be close. Own choice.
const CLOSE: f64 = 1.06;
const NEAR: f64 = 1.3;
const BETWEEN: [f64; 2] = [0.2, 5.0];

pub(super) fn compare(model: &Model, mass: &MassModel) -> (Vec<WeighedPartRow>, Vec<Remark>) {
    let (mut rows, mut remarks) = (Vec::new(), Vec::new());
    for part in &model.weighed().parts {
        let of_kind = |kind: MassKind, name: &str| {
            mass.items.iter().find(|item| item.kind == kind && item.name == name).map_or(0.0, |item| item.mass)
        };
        let (modelled, explains) = match part.what {
            Weighable::Mass(row) => (
                model.masses()[row].mass,
                "a catalogue mass in place of a weighed one; parts counted twice or not at all: brackets, oil, fuel, wiring (common practice, no source)",
            ),
            Weighable::Group(tube) => (of_kind(MassKind::Tubes, &model.tubes()[tube].group), TUBES),
            Weighable::Tube(tube) => (model.tube_mass(tube), TUBES),
            Weighable::Panel(panel) => (
                of_kind(MassKind::Panel, &model.panels()[panel].name),
                "resin, gel-coat and fixings, returns of the edges, cut-outs; a sheet thinner than nominal (common practice, no source)",
            ),
        };
        let row = WeighedPartRow {
            name: part.name.clone(),
            weighed: part.kg,
            uncertainty: uncertainty(part.tolerance, 1.0),
            model: modelled,
        };
        let off = row.difference();
        let remark = if let Some(words) = other_unit(part.kg, modelled) {
            let message = format!(
                "`{}` weighs {} kg on the scales and {} kg in the model: {words}?",
                row.name,
                kg(part.kg),
                kg(modelled)
            );
            Some((codes::WEIGHT_UNIT, message, "write kg: 1 lb is 0.4536 kg, 9.81 N weigh 1 kg"))
        } else if off.abs() > (SHARE * modelled).max(row.uncertainty) {
            let message = format!(
                "`{}` weighs {} kg on the scales and {} kg in the model: {} kg{} {}, beyond the {} kg that the scales leave open",
                row.name,
                kg(part.kg),
                kg(modelled),
                kg(off.abs()),
                row.share().map_or_else(String::new, |share| format!(" ({} %)", rounded(share.abs() * 100.0, 1))),
                if off > 0.0 { "heavier" } else { "lighter" },
                kg(row.uncertainty)
            );
            Some((codes::PART_DIFFERS, message, if modelled > 0.0 { explains } else { MASSLESS }))
        } else {
            None
        };
        if let Some((code, message, remedy)) = remark {
            remarks.push(Remark::rig(code, &row.name, part.line, message, remedy).of_file(WEIGHED).with(off, "kg"));
        }
        rows.push(row);
    }
    (rows, remarks)
}

const MASSLESS: &str = "write density_kg_m3 for its material in model.toml: without it nothing of it has mass";

const TUBES: &str = "walls (EN 10219-2 lets each length weigh 6 % more or less: read in a supplier's table of the standard), weld metal, what is cut away at mitres, brackets left on (common practice, no source)";

/// Slips of unit: scales over model, and in words.
const SLIPS: [(f64, &str); 5] = [
    (2.204_62, "pounds written as kg"),
    (1.0 / 2.204_62, "pounds written as kg in the model"),
    (9.806_65, "newtons written as kg"),
    (1000.0, "grams written as kg"),
    (0.1, "a misplaced decimal point"),
];

/// What slip of unit lies between two masses; `None` for none of the usual.
pub(super) fn other_unit(weighed: f64, modelled: f64) -> Option<&'static str> {
    let ratio = weighed / modelled;
    let within = |factor: f64| if (BETWEEN[0]..BETWEEN[1]).contains(&factor) { CLOSE } else { NEAR };
    SLIPS.iter().find(|(factor, _)| (ratio / factor).ln().abs() < within(*factor).ln()).map(|(_, words)| *words)
}

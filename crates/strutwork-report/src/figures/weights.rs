//! How each section's tubes are drawn: heavier for a larger section, dashed where two would look alike.

use strutwork_model::ids::Id;
use strutwork_model::{Model, SectionId};

/// How the tubes of one section are drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Weight {
    /// Line width, px.
    pub(super) width: f64,
    /// Dashes, px; empty for a solid line.
    pub(super) dashes: &'static str,
}

const THINNEST: f64 = 1.0;
const THICKEST: f64 = 3.2;
/// Widths closer than this look alike on paper.
const ALIKE: f64 = 0.3;
const DASHES: [&str; 4] = ["", "7 2.5", "2.5 2.2", "9 2.5 2 2.5"];

/// One weight for each section of the model, and the sections that are in use, largest first.
pub(super) fn of_sections(model: &Model) -> (Vec<Weight>, Vec<SectionId>) {
    let mut used: Vec<SectionId> = model.tubes().iter().map(|tube| tube.section).collect();
    used.sort_unstable();
    used.dedup();
    let area = |id: SectionId| model.sections()[id].area;
    used.sort_by(|a, b| area(*b).total_cmp(&area(*a)));
    let largest = used.first().map_or(1.0, |id| area(*id));
    let plain = Weight { width: THINNEST, dashes: "" };
    let mut weights = vec![plain; model.sections().len()];
    let mut placed: Vec<f64> = Vec::new();
    for id in &used {
        let width = (THICKEST * (area(*id) / largest).sqrt()).max(THINNEST);
        let alike = placed.iter().filter(|other| (*other - width).abs() < ALIKE).count();
        placed.push(width);
        weights[id.index()] = Weight { width, dashes: DASHES[alike % DASHES.len()] };
    }
    (weights, used)
}

impl Weight {
    /// Stroke attributes.
    pub(super) fn stroke(&self, colour: &str) -> String {
        let dashes = if self.dashes.is_empty() {
            String::new()
        } else {
            format!(" stroke-dasharray=\"{}\"", self.dashes)
        };
        format!("stroke=\"{colour}\" stroke-width=\"{:.1}\"{dashes}", self.width)
    }
}

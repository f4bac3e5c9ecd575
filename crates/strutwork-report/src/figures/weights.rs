//! How each section's tubes are drawn: heavier for a larger section, dashed where two would look alike.

use strutwork_model::ids::Id;
use strutwork_model::{Model, SectionId};

use super::MANY_TUBES;

/// How the tubes of one section are drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Weight {
    /// Line width, px.
    pub(super) width: f64,
    /// Dashes, px; empty for a solid line.
    pub(super) dashes: &'static str,
}

const THINNEST: f64 = 0.9;
const THICKEST: f64 = 3.0;
/// Tubes by the hundred are drawn finer by this.
const FINE: f64 = 0.45;
/// Areas closer than this share count as one size.
const ALIKE: f64 = 0.02;
/// Sizes that a reader can tell apart by line width alone; finer steps share a width and differ by dashes.
const SIZES: usize = 6;
const DASHES: [&str; 4] = ["", "7 2.5", "2.5 2.2", "9 2.5 2 2.5"];

/// One weight for each section of the model, and the sections that are in use, largest first.
pub(super) fn of_sections(model: &Model) -> (Vec<Weight>, Vec<SectionId>) {
    let mut used: Vec<SectionId> = model.tubes().iter().map(|tube| tube.section).collect();
    used.sort_unstable();
    used.dedup();
    let area = |id: SectionId| model.sections()[id].area;
    used.sort_by(|a, b| area(*b).total_cmp(&area(*a)));
    // Sections of one size, largest first.
    let mut sizes: Vec<Vec<SectionId>> = Vec::new();
    for id in &used {
        match sizes.last_mut() {
            Some(size) if area(size[0]) - area(*id) <= ALIKE * area(size[0]) => size.push(*id),
            _ => sizes.push(vec![*id]),
        }
    }
    let fine = if model.tubes().len() > MANY_TUBES { FINE } else { 1.0 };
    let steps = sizes.len().clamp(2, SIZES) - 1;
    let mut weights = vec![Weight { width: fine * THINNEST, dashes: "" }; model.sections().len()];
    let mut drawn = [0; SIZES];
    for (rank, size) in sizes.iter().enumerate() {
        let step = rank * steps / sizes.len().saturating_sub(1).max(1);
        let width = fine * (THICKEST - (THICKEST - THINNEST) * step as f64 / steps as f64);
        for id in size {
            weights[id.index()] = Weight { width, dashes: DASHES[drawn[step] % DASHES.len()] };
            drawn[step] += 1;
        }
    }
    (weights, used)
}

impl Weight {
    /// Stroke attributes.
    pub(super) fn stroke(&self, colour: &str) -> String {
        let dashes =
            if self.dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", self.dashes) };
        format!("stroke=\"{colour}\" stroke-width=\"{:.1}\"{dashes}", self.width)
    }
}

//! T005: tubes too stocky for thin-beam theory.

use strutwork_model::model::{Section, Shape};
use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// Length over depth below which shear deformation, left out here, is no longer small.
const LIMIT: f64 = 10.0;

/// Tubes shorter than ten times their depth.
///
/// # Source
/// Common practice, no source: thin-beam theory for L/h ≥ 10. Shear adds about 3(h/L)² to the bending deflection of a
/// clamped–free rectangle of ν = 0.3 (derived).
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let tubes = judged.model.tubes().iter_with_id();
    tubes
        .filter_map(|(id, tube)| {
            let depth = depth(&judged.model.sections()[tube.section])?;
            let value = judged.model.length(id) / depth;
            (value < LIMIT).then(|| Finding {
 entered: Vec::new(),
                code: Code("T005"),
                severity: Severity::Note,
                case: String::new(),
                subject: Subject::Tube(id),
                value,
                limit: Some(LIMIT),
                unit: "",
                utilisation: None,
                clause: "slenderness for thin-beam theory (common practice, no source)".to_owned(),
                message: format!(
                    "tube {} is {value:.1} times as long as deep: shear deformation, left out, makes it softer than computed",
                    tube.name
                ),
            })
        })
        .collect()
}

fn depth(section: &Section) -> Option<f64> {
    match section.shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => Some(height.max(width)),
        Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => Some(diameter),
        Shape::Properties => None,
    }
}

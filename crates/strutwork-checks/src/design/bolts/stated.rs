//! D009: loads of bolts that cannot be checked.

use strutwork_model::{Code, Severity};

use super::Bolted;
use crate::{Finding, Judged, Subject};

/// The greatest load over all cases of each mount whose bolt has no size or no class: stated, and held against nothing.
///
/// # Source
/// None: no limit is applied.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let model = judged.model;
    let force = |load: &[f64; 6]| (load[0].powi(2) + load[1].powi(2) + load[2].powi(2)).sqrt();
    model
        .mounts()
        .iter_with_id()
        .filter(|(id, _)| Bolted::of(model, *id).is_none())
        .filter_map(|(id, mount)| {
            let mut worst = None;
            for case in &judged.results.cases {
                let size = force(&case.mounts[id].on_frame);
                if worst.is_none_or(|(_, greatest, _)| size > greatest) {
                    worst = Some((case.name.as_str(), size, &case.mounts[id]));
                }
            }
            let (case, size, load) = worst?;
            let parts = match (load.axial, load.shear) {
                (Some(axial), Some(shear)) => format!(" ({:.0} N along the bolt, {shear:.0} N across it)", axial.abs()),
                _ => String::new(),
            };
            Some(Finding {
                entered: Vec::new(),
                code: Code("D009"),
                severity: Severity::Note,
                case: case.to_owned(),
                subject: Subject::Mount(id),
                value: size,
                limit: None,
                unit: "N",
                utilisation: None,
                clause: "outside scope: a bolt without size and class".to_owned(),
                message: format!(
                    "the bolt of {} at joint {} carries up to {size:.0} N{parts} and {:.1} N·m; it has no size and class in \
                     [bolts], so neither it nor what it clamps is checked",
                    model.bodies()[mount.body].name,
                    model.joints()[mount.joint].name,
                    load.moment
                ),
            })
        })
        .collect()
}

//! D001: stress against yield, with the stated margin.

use strutwork_model::{Code, Severity, TubeId};

use crate::{Finding, Judged, Subject};

/// The greatest von Mises stress of each tube in each case, against yield over the margin of `[options] yield_margin`; in an
/// ultimate case against yield itself.
///
/// Where the material has a strength beside the weld, the lower of the two holds. What it leaves out: welds, buckling,
/// local denting of chord walls, fatigue, holes.
///
/// # Source
/// Margin 1.5 on yield for loads with their dynamic factor: Garrett (1953) as quoted by Brown, Robertson & Serpento
/// (2002), Motor Vehicle Structures, § 2.5 (from memory).
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    judged.results.cases.iter().enumerate().flat_map(|(case, _)| in_case(judged, case)).collect()
}

/// A tube's greatest von Mises stress in one case, Pa, and the station where it stands; `None` without stresses.
pub fn worst_stress(judged: Judged<'_>, case: usize, tube: TubeId) -> Option<(f64, f64)> {
    let stations = judged.results.cases[case].tubes[tube].stations.iter();
    stations
        .filter_map(|station| Some((station.stress?.von_mises, station.at)))
        .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.total_cmp(&a.1)))
}

/// Stress that a tube may take in a case, Pa: yield over the case's margin; `None` where the material has no yield strength.
///
/// Tubes are welded at their joints, where they are mostly loaded most: a strength beside the weld holds for the whole tube.
pub fn allowed_stress(judged: Judged<'_>, case: usize, tube: TubeId) -> Option<f64> {
    let material = &judged.model.materials()[judged.model.tubes()[tube].material];
    let parent = material.strength?.yield_stress;
    let beside_weld = material.heat_affected.map_or(parent, |strength| strength.yield_stress);
    Some(parent.min(beside_weld) / judged.margin(case))
}

fn in_case(judged: Judged<'_>, case: usize) -> Vec<Finding> {
    let margin = judged.margin(case);
    judged
        .model
        .tubes()
        .iter_with_id()
        .filter_map(|(id, tube)| {
            let (stress, at) = worst_stress(judged, case, id)?;
            let limit = allowed_stress(judged, case, id)?;
            let utilisation = stress / limit;
            let beside_weld = judged.model.materials()[tube.material].heat_affected.is_some();
            let kind = if beside_weld { "yield beside the weld" } else { "yield" };
            let severity = if utilisation > 1.0 { Severity::Error } else { Severity::Note };
            let verdict = if utilisation > 1.0 { "over" } else { "within" };
            Some(Finding {
                entered: Vec::new(),
                code: Code("D001"),
                severity,
                case: judged.results.cases[case].name.clone(),
                subject: Subject::Tube(id),
                value: stress / 1e6,
                limit: Some(limit / 1e6),
                unit: "MPa",
                utilisation: Some(utilisation),
                clause: format!("von Mises against {kind} / {margin} (vehicle practice)"),
                message: format!(
                    "tube {} reaches {:.0} MPa at {:.0} % of its length, {verdict} the {:.0} MPa allowed",
                    tube.name,
                    stress / 1e6,
                    at * 100.0,
                    limit / 1e6
                ),
            })
        })
        .collect()
}

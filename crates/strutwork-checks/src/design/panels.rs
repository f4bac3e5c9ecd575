//! D003 to D006: panels that buckle, their shear stress, their fasteners, their bond lines.

use strutwork_model::model::FixingKind;
use strutwork_model::{Code, PanelId, Severity};
use strutwork_solve::results::PanelResult;

use crate::{Finding, Judged, Subject};

/// What a panel in one case is held against.
struct Held {
    code: &'static str,
    /// In `unit`.
    value: f64,
    limit: f64,
    unit: &'static str,
    clause: String,
    within: &'static str,
    over: &'static str,
}

/// D003: shear stress of each panel against its buckling stress. Above it the linear answer of the case no longer holds:
/// a buckled skin carries by diagonal tension only, and far more softly.
///
/// # Source
/// τ_cr = k π²E/(12(1 − ν²))(t/b)², k = 5.34 + 4(b/a)², edges simply supported (derived from plate theory; Timoshenko &
/// Gere, Theory of Elastic Stability, from memory).
pub fn buckling(judged: Judged<'_>) -> Vec<Finding> {
    over_cases(judged, |_, _, shear| {
        Some(Held {
            code: "D003",
            value: shear.stress / 1e6,
            limit: shear.buckling_stress / 1e6,
            unit: "MPa",
            clause: "shear buckling of a flat panel with simply supported edges (plate theory)".to_owned(),
            within: "stays flat",
            over: "buckles, and the linear answer of this case no longer holds: count on diagonal tension alone, or stiffen it",
        })
    })
}

/// D004: shear stress of each panel against the shear strength of its material over the margin, where it has one; for a
/// material with a yield strength that is yield/√3.
///
/// # Source
/// Margin as D001. Shear strengths: the material's own source. yield/√3: von Mises.
pub fn stress(judged: Judged<'_>) -> Vec<Finding> {
    over_cases(judged, |case, id, shear| {
        let material = &judged.model.materials()[judged.model.panels()[id].material];
        let strength = material.shear_strength.or_else(|| Some(material.strength?.yield_stress / 3_f64.sqrt()))?;
        let margin = judged.margin(case);
        Some(Held {
            code: "D004",
            value: shear.stress / 1e6,
            limit: strength / margin / 1e6,
            unit: "MPa",
            clause: format!("shear strength / {margin} (vehicle practice)"),
            within: "is within what its material bears in shear",
            over: "is over what its material bears in shear",
        })
    })
}

/// D005: load of one fastener against its shear strength over the margin, where the fixing gives one.
///
/// # Source
/// The fixing's own. Prying, bearing of the sheet, edge distances and fatigue are left out.
pub fn fasteners(judged: Judged<'_>) -> Vec<Finding> {
    over_cases(judged, |case, id, shear| {
        let fixing = &judged.model.fixings()[judged.model.panels()[id].fixing?];
        let FixingKind::Fasteners { strength, .. } = fixing.kind else { return None };
        let margin = judged.margin(case);
        Some(Held {
            code: "D005",
            value: shear.fastener?,
            limit: strength? / margin,
            unit: "N",
            clause: format!("shear strength of one fastener of {} / {margin}", fixing.name),
            within: "loads each fastener within its strength",
            over: "loads each fastener over its strength",
        })
    })
}

/// D006: shear stress in the bond line against its strength over the margin, where the fixing gives one.
///
/// # Source
/// The fixing's own. Peel, age, moisture and lasting load are left out: for loads that last, a quarter to a sixth of the
/// short-time strength is common practice (no source).
pub fn bonds(judged: Judged<'_>) -> Vec<Finding> {
    over_cases(judged, |case, id, shear| {
        let fixing = &judged.model.fixings()[judged.model.panels()[id].fixing?];
        let FixingKind::Bond { strength, .. } = fixing.kind else { return None };
        let margin = judged.margin(case);
        Some(Held {
            code: "D006",
            value: shear.bond_stress? / 1e6,
            limit: strength? / margin / 1e6,
            unit: "MPa",
            clause: format!("shear strength of the bond {} / {margin}", fixing.name),
            within: "loads its bond line within its short-time strength",
            over: "loads its bond line over its short-time strength",
        })
    })
}

/// One finding a panel for the case that governs, and one for each further case that fails.
fn over_cases(judged: Judged<'_>, held: impl Fn(usize, PanelId, &PanelResult) -> Option<Held>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (id, panel) in judged.model.panels().iter_with_id() {
        let mut all: Vec<(usize, Held)> = (0..judged.results.cases.len())
            .filter_map(|case| Some((case, held(case, id, &judged.results.cases[case].panels[id])?)))
            .collect();
        let share = |held: &Held| held.value / held.limit;
        // Stable: of equal cases the first governs.
        all.sort_by(|a, b| share(&b.1).total_cmp(&share(&a.1)));
        for (place, (case, held)) in all.into_iter().enumerate() {
            let utilisation = share(&held);
            let over = utilisation > 1.0;
            if place > 0 && !over {
                break;
            }
            let verdict = if over { held.over } else { held.within };
            findings.push(Finding {
                entered: Vec::new(),
                code: Code(held.code),
                severity: if over { Severity::Error } else { Severity::Note },
                case: judged.results.cases[case].name.clone(),
                subject: Subject::Panel(id),
                value: held.value,
                limit: Some(held.limit),
                unit: held.unit,
                utilisation: Some(utilisation),
                clause: held.clause,
                message: format!(
                    "panel {} {verdict}: {:.3} of {:.3} {}",
                    panel.name, held.value, held.limit, held.unit
                ),
            });
        }
    }
    findings
}

//! D003 to D006: panels that buckle, their shear stress, their fasteners, their bond lines.

use strutwork_model::model::{FixingKind, Panel};
use strutwork_model::{Code, PanelId, Severity};
use strutwork_solve::panel_sides;

use super::margin;
use crate::calculation::{Calculation, Pages, Silent, Sink, Unit};
use crate::code::panel::{self, Held, Margins, Skin, Strength};
use crate::{Finding, Judged, Subject};

/// Where the formula of D003 comes from.
const PLATE: &str = "Timoshenko & Gere (1961), Theory of Elastic Stability, 2nd ed., §9.7 (from memory)";
const FLAT: &str = "shear buckling of a flat panel with simply supported edges (plate theory)";

/// What one of these checks says of its panel.
struct Words {
    code: &'static str,
    title: &'static str,
    within: &'static str,
    over: &'static str,
}

const BUCKLING: Words = Words {
    code: "D003",
    title: "shear buckling",
    within: "stays flat",
    over: "buckles, and the linear answer of this case no longer holds: count on diagonal tension alone, or stiffen it",
};
const STRESS: Words = Words {
    code: "D004",
    title: "shear stress",
    within: "is within what its material bears in shear",
    over: "is over what its material bears in shear",
};
const FASTENERS: Words = Words {
    code: "D005",
    title: "load of one fastener",
    within: "loads each fastener within its strength",
    over: "loads each fastener over its strength",
};
const BONDS: Words = Words {
    code: "D006",
    title: "shear stress in the bond line",
    within: "loads its bond line within its short-time strength",
    over: "loads its bond line over its short-time strength",
};

/// D003: shear stress of each panel against its buckling stress. Above it the linear answer of the case no longer holds:
/// a buckled skin carries by diagonal tension only, and far more softly. That is no failure, so the basis adds no margin.
///
/// # Source
/// τ_cr = k π²E/(12(1 − ν²))(t/b)², k = 5.34 + 4(b/a)², edges simply supported (derived from plate theory; Timoshenko &
/// Gere, Theory of Elastic Stability, from memory).
pub fn buckling(judged: Judged<'_>) -> Vec<Finding> {
    let clauses = vec![FLAT.to_owned(); judged.results.cases.len()];
    let panels = judged.model.panels().ids();
    panels
        .flat_map(|id| {
            let skin = skin(judged, id);
            over_cases(judged, id, &BUCKLING, &clauses, |case| {
                let flow = judged.results.cases[case].panels[id].flow;
                let held = panel::buckling(flow, &skin, &mut Silent);
                let entered = vec![
                    ("q", flow, Unit::N_PER_MM),
                    ("t", skin.thickness, Unit::MM),
                    ("a", skin.sides[0], Unit::MM),
                    ("b", skin.sides[1], Unit::MM),
                    ("τ_cr", held.bears, Unit::MPA),
                ];
                (held, entered)
            })
        })
        .collect()
}

/// D004: shear stress of each panel against the shear strength of its material over the margin, where it has one; for a
/// material with a yield strength that is yield/√3, over γ_M0. What has no yield strength breaks: there it is γ_M2.
///
/// # Source
/// Margin and partial factors: the basis. Shear strengths: the material's own source. yield/√3: von Mises.
pub fn stress(judged: Judged<'_>) -> Vec<Finding> {
    strengths(judged, &STRESS)
}

/// D005: load of one fastener against its shear strength over margin and γ_M2, where the fixing gives one.
///
/// # Source
/// The fixing's own. Prying, bearing of the sheet, edge distances and fatigue are left out.
pub fn fasteners(judged: Judged<'_>) -> Vec<Finding> {
    strengths(judged, &FASTENERS)
}

/// D006: shear stress in the bond line against its strength over margin and γ_M2, where the fixing gives one.
///
/// # Source
/// The fixing's own. Peel, age, moisture and lasting load are left out: for loads that last, a quarter to a sixth of the
/// short-time strength is common practice (no source).
pub fn bonds(judged: Judged<'_>) -> Vec<Finding> {
    strengths(judged, &BONDS)
}

/// The calculation behind a finding of any of the four.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let Subject::Panel(id) = finding.subject else { return None };
    let case = judged.results.cases.iter().position(|result| result.name == finding.case)?;
    let flow = judged.results.cases[case].panels[id].flow;
    let panel = &judged.model.panels()[id];
    let mut pages = Pages::default();
    let words = [&BUCKLING, &STRESS, &FASTENERS, &BONDS].into_iter().find(|words| words.code == finding.code.0)?;
    let (held, source) = if words.code == BUCKLING.code {
        (panel::buckling(flow, &skin(judged, id), &mut pages), PLATE.to_owned())
    } else {
        let (strength, source) = strength(judged, panel, words)?;
        let margins = Margins { margin_is: margin::why(judged, case), ..margins(judged, case, strength) };
        let held = panel::strength(flow, panel.thickness, strength, margins, &mut pages);
        for left_out in left_out(strength) {
            pages.remark(left_out);
        }
        (held, source)
    };
    let title = format!("Panel {}, {}, case {}", panel.name, words.title, finding.case);
    Some(pages.finish(title, finding.clause.clone(), source, held.utilisation))
}

fn skin(judged: Judged<'_>, id: PanelId) -> Skin {
    let panel = &judged.model.panels()[id];
    let material = &judged.model.materials()[panel.material];
    Skin {
        thickness: panel.thickness,
        sides: panel_sides(judged.model, id),
        youngs: material.youngs,
        shear: material.shear,
    }
}

/// The strength that a check holds a panel against, and where it comes from; `None` where nothing gives one.
fn strength(judged: Judged<'_>, panel: &Panel, words: &Words) -> Option<(Strength, String)> {
    let fixing = || Some(&judged.model.fixings()[panel.fixing?]);
    let said = |source: &str| if source.is_empty() { "no source given".to_owned() } else { source.to_owned() };
    match words.code {
        "D004" => {
            let material = &judged.model.materials()[panel.material];
            let yields = || Some(Strength::Yield(material.strength?.yield_stress));
            let strength = material.shear_strength.map(Strength::Sheet).or_else(yields)?;
            Some((strength, said(&material.source)))
        }
        "D005" => {
            let FixingKind::Fasteners { strength, pitch, .. } = fixing()?.kind else { return None };
            Some((Strength::Fastener { strength: strength?, pitch }, said(&fixing()?.source)))
        }
        _ => {
            let FixingKind::Bond { strength, width, .. } = fixing()?.kind else { return None };
            Some((Strength::Bond { strength: strength?, width }, said(&fixing()?.source)))
        }
    }
}

/// What the formula leaves out.
fn left_out(strength: Strength) -> &'static [&'static str] {
    match strength {
        Strength::Yield(_) | Strength::Sheet(_) => {
            &["Left out: openings, the loads that fasteners bring in, what acts across the panel."]
        }
        Strength::Fastener { .. } => &["Left out: prying, bearing of the sheet, edge distances, fatigue."],
        Strength::Bond { .. } => &[
            "Left out: peel, age, moisture, lasting load. For loads that last, a quarter to a sixth of the short-time strength is common practice (no source).",
        ],
    }
}

fn margins(judged: Judged<'_>, case: usize, strength: Strength) -> Margins<'static> {
    let partial = judged.partial(case);
    let (gamma, gamma_symbol) = match strength {
        Strength::Yield(_) => (partial.m0, "γ_M0"),
        Strength::Sheet(_) | Strength::Fastener { .. } | Strength::Bond { .. } => (partial.m2, "γ_M2"),
    };
    Margins { margin: judged.margin(case), margin_is: "", gamma, gamma_symbol }
}

/// D004 to D006, where there is a strength to hold the panel against.
fn strengths(judged: Judged<'_>, words: &Words) -> Vec<Finding> {
    let mut findings = Vec::new();
    // Two kinds of clauses at most, one a case: made once.
    let mut clauses: [Option<Vec<String>>; 2] = [None, None];
    for (id, panel) in judged.model.panels().iter_with_id() {
        let Some((strength, _)) = strength(judged, panel, words) else { continue };
        let metal = matches!(strength, Strength::Yield(_));
        let clauses = clauses[usize::from(metal)].get_or_insert_with(|| {
            let cases = 0..judged.results.cases.len();
            cases.map(|case| clause(judged, words, margins(judged, case, strength))).collect()
        });
        findings.extend(over_cases(judged, id, words, clauses, |case| {
            let flow = judged.results.cases[case].panels[id].flow;
            let margins = margins(judged, case, strength);
            let held = panel::strength(flow, panel.thickness, strength, margins, &mut Silent);
            (held, entered(flow, panel.thickness, strength, margins))
        }));
    }
    findings
}

fn entered(flow: f64, thickness: f64, strength: Strength, margins: Margins<'_>) -> Vec<(&'static str, f64, Unit)> {
    let (size, strong) = match strength {
        Strength::Yield(value) => (("t", thickness, Unit::MM), ("f_y", value, Unit::MPA)),
        Strength::Sheet(value) => (("t", thickness, Unit::MM), ("f_v", value, Unit::MPA)),
        Strength::Fastener { strength, pitch } => (("p", pitch, Unit::MM), ("F_v", strength, Unit::N)),
        Strength::Bond { strength, width } => (("w", width, Unit::MM), ("f_v", strength, Unit::MPA)),
    };
    let gamma = if matches!(strength, Strength::Yield(_)) { "γ_M0" } else { "γ_M2" };
    vec![
        ("q", flow, Unit::N_PER_MM),
        size,
        strong,
        ("margin", margins.margin, Unit::ONE),
        (gamma, margins.gamma, Unit::ONE),
    ]
}

fn clause(judged: Judged<'_>, words: &Words, margins: Margins<'_>) -> String {
    let strength = match (words.code, margins.gamma_symbol) {
        ("D004", "γ_M0") => "yield / √3",
        ("D004", _) => "shear strength of the sheet",
        ("D005", _) => "shear strength of one fastener",
        _ => "shear strength of the bond",
    };
    let Margins { margin, gamma, gamma_symbol, .. } = margins;
    format!("{strength} / (margin {margin} · {gamma_symbol} {gamma}), basis {}", judged.model.basis().kind.word())
}

/// One finding of a panel a case; told in words for the case that governs, and for each that exceeds.
fn over_cases(
    judged: Judged<'_>,
    id: PanelId,
    words: &Words,
    clauses: &[String],
    held: impl Fn(usize) -> (Held, Vec<(&'static str, f64, Unit)>),
) -> Vec<Finding> {
    let name = &judged.model.panels()[id].name;
    let unit = if words.code == FASTENERS.code { Unit::N } else { Unit::MPA };
    let mut findings: Vec<Finding> = Vec::with_capacity(clauses.len());
    let mut worst: Option<(usize, f64)> = None;
    for (case, clause) in clauses.iter().enumerate() {
        let (held, entered) = held(case);
        let over = held.utilisation > 1.0;
        if worst.is_none_or(|(_, most)| held.utilisation > most) {
            worst = Some((case, held.utilisation));
        }
        findings.push(Finding {
            entered,
            code: Code(words.code),
            severity: if over { Severity::Error } else { Severity::Note },
            case: judged.results.cases[case].name.clone(),
            subject: Subject::Panel(id),
            value: unit.of(held.acts),
            limit: Some(unit.of(held.bears)),
            unit: unit.name,
            utilisation: Some(held.utilisation),
            clause: clause.clone(),
            message: String::new(),
        });
    }
    for (case, finding) in findings.iter_mut().enumerate() {
        let over = finding.severity == Severity::Error;
        if over || worst.is_some_and(|(governs, _)| governs == case) {
            let verdict = if over { words.over } else { words.within };
            let limit = finding.limit.unwrap_or_default();
            finding.message = format!("panel {name} {verdict}: {:.3} of {limit:.3} {}", finding.value, finding.unit);
        }
    }
    findings
}

//! The answer on one screen: a few large figures, and a row for each case.

use strutwork_checks::Finding;
use strutwork_checks::figures::Band;
use strutwork_loads::masses::MassKind;
use strutwork_loads::{LoadCase, MassModel};
use strutwork_model::units::{to_mm, to_mpa, to_nm_per_deg};
use strutwork_model::{Dof, JointId};
use strutwork_solve::CaseResult;
use strutwork_solve::results::MeasureResult;

use crate::extremes;
use crate::number::{fixed, significant};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};
use crate::utilisation::Utilisations;

use super::table::TableView;
use super::{basis, governing};

/// A large figure with what it means.
pub(super) struct Fact {
    pub(super) what: String,
    pub(super) value: String,
    pub(super) unit: &'static str,
    pub(super) note: String,
    pub(super) over: bool,
}

/// The answer on one screen.
pub(super) struct Summary {
    pub(super) verdict: String,
    pub(super) exceeded: bool,
    /// What lies outside clauses, and what was switched off; empty sentences are left out.
    pub(super) reserves: Vec<String>,
    pub(super) facts: Vec<Fact>,
    /// The worst item of each kind.
    pub(super) worst: Option<TableView>,
    pub(super) cases: TableView,
}

impl Summary {
    pub(super) fn of(run: &Run<'_>, utilisations: &Utilisations<'_>, mass: &MassModel) -> Self {
        let [errors, warnings, notes] = run.severities();
        let verdict = match errors {
            0 => "No check made here exceeds its limit. What was not checked is listed in section 3.".to_owned(),
            1 => "One check exceeds its limit: see sections 6 and 10.".to_owned(),
            count => format!("{count} checks exceed their limit: see sections 6 and 10."),
        };
        let mut reserves = vec![outside_words(utilisations.outside()), basis::switched_off_line(run)];
        reserves.retain(|said| !said.is_empty());
        let caption = "What governs: of each kind of item the one nearest to its limit, over all cases and checks. All of them: \
                       section 6";
        let governing = utilisations.worst_by_kind().map(|(_, item)| item.governing);
        let mut facts = vec![mass_fact(mass), centre_fact(mass)];
        facts.extend(stiffness_facts(run));
        facts.push(utilisation_fact(run, utilisations));
        facts.push(Fact {
            what: "Findings".into(),
            value: errors.to_string(),
            unit: "over their limit",
            note: format!("{warnings} {}, {notes} notes", if warnings == 1 { "warning" } else { "warnings" }),
            over: errors > 0,
        });
        Self {
            verdict,
            exceeded: errors > 0,
            reserves,
            facts,
            worst: governing::worst(run, governing, true, caption.to_owned()),
            cases: TableView::of(&cases(run, utilisations), "cases.csv").leading(|place| format!("case-{}", place + 1)),
        }
    }
}

/// How many items lie outside the clauses they are judged by; empty for none.
fn outside_words(items: usize) -> String {
    match items {
        0 => String::new(),
        1 => "One item exceeds nothing but lies outside the scope of a clause it is judged by: that is no pass."
            .to_owned(),
        _ => format!(
            "{items} items exceed nothing but lie outside the scope of a clause they are judged by: that is no pass (section 6)."
        ),
    }
}

fn mass_fact(mass: &MassModel) -> Fact {
    let tubes: f64 = mass.items.iter().filter(|item| item.kind == MassKind::Tubes).map(|item| item.mass).sum();
    Fact {
        what: "Mass".into(),
        value: significant(mass.total, 4),
        unit: "kg",
        note: format!("of which tubes {} kg", significant(tubes, 4)),
        over: false,
    }
}

fn centre_fact(mass: &MassModel) -> Fact {
    let [x, y, z] = mass.centre.map(|metres| fixed(to_mm(metres), 0));
    Fact {
        what: "Centre of gravity".into(),
        value: format!("{x} / {y} / {z}"),
        unit: "mm",
        note: "x / y / z, tubes and masses".into(),
        over: false,
    }
}

/// Every torsional stiffness that a case measures; the one that sums the vehicle up as a band where there is one, with what
/// it costs in mass and what it does for the tyres.
fn stiffness_facts(run: &Run<'_>) -> Vec<Fact> {
    let mut facts = Vec::new();
    for (case, result) in run.pairs() {
        for measure in &result.measures {
            if let MeasureResult::Twist { stiffness, .. } = measure {
                let band = run.figures.filter(|figures| figures.case == case.name).and_then(|figures| figures.band);
                facts.push(stiffness_fact(&case.name, *stiffness, band));
            }
        }
    }
    if let Some(figures) = run.figures {
        facts.push(Fact {
            what: "Frame for its stiffness".into(),
            value: significant(figures.grams_per_nm_per_deg(), 3),
            unit: "g per N·m/deg",
            note: format!("{} kg of tube", significant(figures.frame_mass, 4)),
            over: false,
        });
        if let Some(share) = figures.chassis_share {
            facts.push(Fact {
                what: "Chassis against roll".into(),
                value: significant(share.share * 100.0, 3),
                unit: "%",
                note: "of a shift of roll couple reaches the tyres".into(),
                over: false,
            });
        }
    }
    facts
}

fn stiffness_fact(case: &str, stiffness: f64, band: Option<Band>) -> Fact {
    let shown = |stiffness: f64| significant(to_nm_per_deg(stiffness), 4);
    let what = "Torsional stiffness".into();
    let unit = "N·m/deg";
    match band {
        Some(band) => Fact {
            what,
            value: format!("{} to {}", shown(band.soft), shown(band.rigid)),
            unit,
            note: format!("case {case}, joints soft to rigid"),
            over: false,
        },
        None => Fact { what, value: shown(stiffness), unit, note: format!("case {case}"), over: false },
    }
}

fn utilisation_fact(run: &Run<'_>, utilisations: &Utilisations<'_>) -> Fact {
    let what = "Worst utilisation".to_owned();
    match utilisations.worst().and_then(|finding| Some((finding, finding.utilisation?))) {
        Some((finding, value)) => {
            Fact { what, value: fixed(value, 2), unit: "of the limit", note: about(run, finding), over: value > 1.0 }
        }
        None => {
            Fact { what, value: "–".into(), unit: "", note: "nothing was judged against a limit".into(), over: false }
        }
    }
}

fn about(run: &Run<'_>, finding: &Finding) -> String {
    let scope = if finding.is_outside() { ", outside scope" } else { "" };
    let subject = run.about(finding.subject);
    if finding.case.is_empty() {
        format!("{subject}{scope}")
    } else {
        format!("{subject}, case {}{scope}", finding.case)
    }
}

fn cases<'a>(run: &Run<'a>, utilisations: &Utilisations<'a>) -> Table<'a> {
    let rows = run.pairs().map(|(case, result)| case_row(run, utilisations, case, result));
    Table {
        name: "summary",
        caption: "Load cases at a glance. Movement: the greatest of ux, uy, uz of any joint, with its sign".into(),
        columns: vec![
            Column::text("case", "case"),
            Column::text("nature", "nature"),
            Column::number("movement_mm", "movement", "mm", Digits::Column(4)),
            Column::text("along", "along"),
            Column::text("joint", "joint"),
            Column::number("von_mises_mpa", "von Mises", "MPa", Digits::Column(4)),
            Column::text("tube", "tube"),
            Column::number("utilisation", "utilisation", "", Digits::Utilisation),
            Column::text("worst", "of, by check"),
        ],
        rows: rows.collect(),
    }
}

fn case_row<'a>(
    run: &Run<'a>,
    utilisations: &Utilisations<'a>,
    case: &'a LoadCase,
    result: &CaseResult,
) -> Vec<Cell<'a>> {
    let worst = extremes::worst_stress(result);
    let finding = utilisations.in_case(&case.name);
    let mut row = vec![Cell::text(&case.name), Cell::text(case.nature.word())];
    row.extend(match largest_slide(result) {
        Some((joint, dof, value)) => [Cell::Number(to_mm(value)), Cell::text(dof.name()), Cell::text(run.joint(joint))],
        None => [Cell::Empty, Cell::Empty, Cell::Empty],
    });
    row.extend(match worst {
        Some(worst) => [Cell::Number(to_mpa(worst.stress.von_mises)), Cell::text(run.tube(worst.tube))],
        None => [Cell::Empty, Cell::Empty],
    });
    row.push(Cell::from(finding.and_then(|finding| finding.utilisation)));
    let words = |finding: &Finding| Cell::from(format!("{}, {}", run.subject(finding.subject), finding.code.0));
    row.push(finding.map_or(Cell::Empty, words));
    row
}

/// The joint, axis and displacement of greatest magnitude, m, with its sign.
pub(super) fn largest_slide(result: &CaseResult) -> Option<(JointId, Dof, f64)> {
    let slides = extremes::movements(result).into_iter().zip(Dof::ALL).take(3);
    slides
        .filter_map(|(largest, dof)| largest.map(|(joint, value)| (joint, dof, value)))
        .reduce(|best, next| if next.2.abs() > best.2.abs() { next } else { best })
}

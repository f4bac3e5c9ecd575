//! Panels: what they are, and each in the case in which it is sheared most.

use strutwork_loads::LoadCase;
use strutwork_model::PanelId;
use strutwork_model::model::{FixingKind, Panel};
use strutwork_model::units::{MPA, N_PER_MM, to_mm, to_mpa};
use strutwork_solve::CaseResult;

use crate::envelope::InCase;
use crate::number::{as_given, fixed, significant};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::pick::{case_words, greatest};
use super::table::TableView;

/// The panels of the model.
pub(super) fn panels<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run.model.panels().iter().map(|panel| {
        vec![
            Cell::text(&panel.name),
            Cell::from(panel.joints.iter().map(|id| run.joint(*id)).collect::<Vec<_>>().join(", ")),
            Cell::text(&run.model.materials()[panel.material].name),
            Cell::Number(to_mm(panel.thickness)),
            Cell::text(fixing_name(run, panel)),
            Cell::text(&panel.note),
        ]
    });
    Table {
        name: "panels",
        caption: "Panels: thin skins that carry shear in their own plane, and nothing else".into(),
        columns: vec![
            Column::text("panel", "panel"),
            Column::text("joints", "joints, in order round the edge"),
            Column::text("material", "material"),
            Column::number("thickness_mm", "thickness", "mm", Digits::Given),
            Column::text("fixing", "fixing"),
            Column::text("note", "note"),
        ],
        rows: rows.collect(),
    }
}

fn fixing_name<'a>(run: &Run<'a>, panel: &Panel) -> &'a str {
    panel.fixing.map_or("none: edges follow the tubes exactly", |id| &run.model.fixings()[id].name)
}

/// The fixings of the model.
pub(super) fn fixings<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run.model.fixings().iter().map(|fixing| {
        vec![
            Cell::text(&fixing.name),
            Cell::from(fixing_words(fixing.kind)),
            // m²/N to mm per N/mm of edge, which is the same as mm²/N.
            Cell::Number(fixing.kind.compliance() / MM2_PER_N),
            Cell::text(if fixing.source.is_empty() { "not said" } else { &fixing.source }),
        ]
    });
    Table {
        name: "fixings",
        caption: "Fixings of panels. Slip of the edge: under a shear flow of 1 N/mm".into(),
        columns: vec![
            Column::text("fixing", "fixing"),
            Column::text("what", "what it is"),
            Column::number("slip", "slip", "mm", Digits::Each(3)),
            Column::text("source", "source"),
        ],
        rows: rows.collect(),
    }
}

/// mm of slip under 1 N/mm, in m²/N.
const MM2_PER_N: f64 = 1e-6;

fn fixing_words(kind: FixingKind) -> String {
    let given = |value: f64| as_given((value * 1e6).round() / 1e6);
    match kind {
        FixingKind::Bond { thickness, width, shear, strength } => {
            let strength = strength.map_or("strength not given".to_owned(), |pascals| {
                format!("shear strength {} MPa", given(to_mpa(pascals)))
            });
            format!(
                "bond line {} mm thick and {} mm wide, G {} MPa, {strength}",
                given(to_mm(thickness)),
                given(to_mm(width)),
                given(shear / MPA)
            )
        }
        FixingKind::Fasteners { pitch, slip, strength } => {
            let strength = strength
                .map_or("strength not given".to_owned(), |newtons| format!("shear strength {} N", given(newtons)));
            // m/N to mm/kN.
            format!("fasteners every {} mm, slip {} mm/kN, {strength}", given(to_mm(pitch)), given(slip * 1e6))
        }
    }
}

/// Every panel in the case of its greatest shear.
pub(super) fn worst(run: &Run<'_>) -> Option<TableView> {
    let rows = run.model.panels().iter_with_id().filter_map(|(id, panel)| {
        let flows = run.pairs().map(|(case, result)| InCase { value: result.panels[id].flow, case });
        let worst = greatest(flows)?;
        let (_, result) = run.pairs().find(|(case, _)| std::ptr::eq(*case, worst.case))?;
        let shear = &result.panels[id];
        Some(vec![
            Cell::text(&panel.name),
            Cell::from(case_words(worst.case)),
            Cell::Number(shear.flow / N_PER_MM),
            Cell::Number(to_mpa(shear.stress)),
            Cell::Number(to_mpa(shear.buckling_stress)),
            Cell::Number(shear.buckling_ratio),
            Cell::from(shear.fastener),
            Cell::from(shear.bond_stress.map(to_mpa)),
            Cell::text(if shear.buckling_ratio > 1.0 {
                "buckles: the linear answer no longer holds"
            } else {
                "below its buckling stress"
            }),
        ])
    });
    let table = Table {
        name: "worst_panels",
        caption: "Panels, each in the case of its greatest shear. Every case: panels.csv".into(),
        columns: vec![
            Column::text("panel", "panel"),
            Column::text("case", "in case"),
            Column::number("flow_n_per_mm", "flow", "N/mm", Digits::Column(3)),
            Column::number("stress_mpa", "τ", "MPa", Digits::Each(3)),
            Column::number("buckling_mpa", "τ at buckling", "MPa", Digits::Each(3)),
            Column::number("buckling_ratio", "τ / buckling", "", Digits::Utilisation),
            Column::number("fastener_n", "a fastener", "N", Digits::Column(3)),
            Column::number("bond_mpa", "bond", "MPa", Digits::Each(3)),
            Column::text("words", "buckling"),
        ],
        rows: rows.collect(),
    };
    TableView::where_any(&table, "panels.csv")
}

/// The panels that buckle in a case, in words; empty where none does.
pub(super) fn buckled(run: &Run<'_>, result: &CaseResult) -> String {
    let over: Vec<(PanelId, f64)> = result
        .panels
        .iter_with_id()
        .filter(|(_, panel)| panel.buckling_ratio > 1.0)
        .map(|(id, panel)| (id, panel.buckling_ratio))
        .collect();
    let named: Vec<String> = over
        .iter()
        .take(6)
        .map(|(id, ratio)| format!("{} (at {} times its buckling stress)", run.panel(*id), significant(*ratio, 2)))
        .collect();
    let more = over.len().saturating_sub(named.len());
    match over.len() {
        0 => String::new(),
        count => format!(
            "{} {} in this case: {}{}. The linear answer no longer holds for this case: past buckling a skin gives way \
             and the tubes beside it carry more than stated here.",
            if count == 1 { "A panel".to_owned() } else { format!("{} panels", fixed(count as f64, 0)) },
            if count == 1 { "buckles" } else { "buckle" },
            named.join(", "),
            if more > 0 { format!(" and {more} more") } else { String::new() },
        ),
    }
}

/// Cases in which a panel buckles, by name.
pub(super) fn cases_with_buckling<'a>(run: &Run<'a>) -> Vec<&'a LoadCase> {
    let buckles = |result: &CaseResult| result.panels.iter().any(|panel| panel.buckling_ratio > 1.0);
    run.pairs().filter(|(_, result)| buckles(result)).map(|(case, _)| case).collect()
}

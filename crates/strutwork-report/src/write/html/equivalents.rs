//! Skins beside tubes: the diagonal that would hold a bay as stiffly as its panel.

use std::collections::BTreeMap;

use strutwork_element::panel::{Panel as Sheet, Skin};
use strutwork_model::model::{Material, Panel};
use strutwork_model::units::{MM2, N_PER_MM, to_mpa};
use strutwork_model::{MaterialId, Model};

use crate::number::fixed;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::table::TableView;

/// Every panel with the shear stiffness that its fixing leaves it, and the diagonal that would do the same.
pub(super) fn table(run: &Run<'_>) -> Option<TableView> {
    let model = run.model;
    let tubes = &model.materials()[usual_material(model)?];
    let rows = model.panels().iter().filter_map(|panel| {
        let sheet = sheet(model, panel)?;
        let [first, second] = sheet.equivalent_diagonals(tubes.youngs).map_or([None; 2], |areas| areas.map(Some));
        let (held, ideal) = (sheet.effective_shear(), sheet.without_slip().effective_shear());
        Some(vec![
            Cell::text(&panel.name),
            Cell::Number(ideal / N_PER_MM),
            Cell::Number(held / N_PER_MM),
            Cell::Number(held / ideal * 100.0),
            Cell::from(first.map(|area| area / MM2)),
            Cell::from(second.map(|area| area / MM2)),
        ])
    });
    let table = Table {
        name: "equivalents",
        caption: format!(
            "Skin or tube: shear stiffness as G·t, and the area of the one diagonal that would hold the bay as stiffly, if its \
             ends held it (E {} MPa, material {}). A triangle is held by its edges",
            fixed(to_mpa(tubes.youngs), 0),
            tubes.name
        ),
        columns: vec![
            Column::text("panel", "panel"),
            Column::number("ideal", "G·t, no slip", "N/mm", Digits::Each(3)),
            Column::number("held", "G·t as fixed", "N/mm", Digits::Each(3)),
            Column::number("left", "left by the fixing", "%", Digits::Decimals(0)),
            Column::number("first", "diagonal 1–3", "mm²", Digits::Each(3)),
            Column::number("second", "diagonal 2–4", "mm²", Digits::Each(3)),
        ],
        rows: rows.collect(),
    };
    TableView::where_any(&table, "bays.csv")
}

/// The material of most tubes; of as many the first.
fn usual_material(model: &Model) -> Option<MaterialId> {
    let mut tubes: BTreeMap<MaterialId, usize> = BTreeMap::new();
    for tube in model.tubes() {
        *tubes.entry(tube.material).or_insert(0) += 1;
    }
    tubes.into_iter().reduce(|best, next| if next.1 > best.1 { next } else { best }).map(|(material, _)| material)
}

fn sheet(model: &Model, panel: &Panel) -> Option<Sheet> {
    let corners: Vec<[f64; 3]> = panel.joints.iter().map(|id| model.joints()[*id].at).collect();
    let Material { youngs, shear, .. } = model.materials()[panel.material];
    let fixing = panel.fixing.map_or(0.0, |id| model.fixings()[id].kind.compliance());
    Sheet::new(&corners, Skin { thickness: panel.thickness, youngs, shear, fixing }).ok()
}

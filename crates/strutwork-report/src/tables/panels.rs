//! `panels.csv`: the shear of every panel, its fixings, and how near it is to buckling.

use strutwork_model::PanelId;
use strutwork_model::units::{N_PER_MM, to_mpa};
use strutwork_solve::CaseResult;
use strutwork_solve::results::PanelResult;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// The shear of a panel, in the order of the file.
const COLUMNS: [Column; 10] = [
    Column::number("flow_n_per_mm", "flow", "N/mm", Digits::Column(3)),
    Column::number("flow_1_n_per_mm", "edge 1", "N/mm", Digits::Column(3)),
    Column::number("flow_2_n_per_mm", "edge 2", "N/mm", Digits::Column(3)),
    Column::number("flow_3_n_per_mm", "edge 3", "N/mm", Digits::Column(3)),
    Column::number("flow_4_n_per_mm", "edge 4", "N/mm", Digits::Column(3)),
    Column::number("stress_mpa", "τ", "MPa", Digits::Each(3)),
    Column::number("buckling_mpa", "τ at buckling", "MPa", Digits::Each(3)),
    Column::number("buckling_ratio", "τ / buckling", "", Digits::Utilisation),
    Column::number("fastener_n", "a fastener", "N", Digits::Column(3)),
    Column::number("bond_mpa", "bond", "MPa", Digits::Each(3)),
];

/// Shear of all panels in all cases. The flows of the edges stand in the order of the panel's joints; a triangle has none
/// on edge 4. Cells of fixings that a panel does not have are empty.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE, Column::text("panel", "panel")];
    columns.extend(COLUMNS);
    let rows = run
        .pairs()
        .flat_map(|(case, result)| {
            result.panels.iter_with_id().map(move |(id, panel)| {
                let mut row = vec![Cell::text(&case.name)];
                row.extend(cells(run, id, panel));
                row
            })
        })
        .collect();
    Table { name: "panels", caption: "Shear of the panels".into(), columns, rows }
}

/// Shear of all panels in one case.
pub fn of_case<'a>(run: &Run<'a>, result: &CaseResult) -> Table<'a> {
    let mut columns = vec![Column::text("panel", "panel")];
    columns.extend(COLUMNS);
    let rows = result.panels.iter_with_id().map(|(id, panel)| cells(run, id, panel)).collect();
    let caption =
        "Panels: shear flow, shear stress against buckling, load of one fastener or stress in the bond line".into();
    Table { name: "panels", caption, columns, rows }
}

fn cells<'a>(run: &Run<'a>, id: PanelId, panel: &PanelResult) -> Vec<Cell<'a>> {
    let flow = |value: f64| value / N_PER_MM;
    let edge = |place: usize| Cell::from(panel.edge_flows.get(place).copied().map(flow));
    vec![
        Cell::text(run.panel(id)),
        Cell::Number(flow(panel.flow)),
        edge(0),
        edge(1),
        edge(2),
        edge(3),
        Cell::Number(to_mpa(panel.stress)),
        Cell::Number(to_mpa(panel.buckling_stress)),
        Cell::Number(panel.buckling_ratio),
        Cell::from(panel.fastener),
        Cell::from(panel.bond_stress.map(to_mpa)),
    ]
}

//! `mass_table.csv`: what the model weighs, item by item, and in all.

use strutwork_loads::MassModel;
use strutwork_loads::masses::MassKind;
use strutwork_model::units::to_mm;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Every group of tubes, every panel, every carried mass, and the total. Only the total has an inertia tensor: about its
/// centre of gravity, tensor components, kg·m².
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mass = MassModel::of(run.model);
    let row = |kind: &'static str, name: String, kilograms: f64, centre: [f64; 3]| {
        let mut row = vec![Cell::text(kind), Cell::from(name), Cell::Number(kilograms)];
        row.extend(centre.map(|metres| Cell::Number(to_mm(metres))));
        row
    };
    let mut rows: Vec<Vec<Cell<'a>>> = mass
        .items
        .iter()
        .map(|item| {
            let kind = match item.kind {
                MassKind::Tubes => "tubes",
                MassKind::Panel => "panel",
                MassKind::Carried => "carried",
            };
            let mut row = row(kind, item.name.clone(), item.mass, item.centre);
            row.extend([const { Cell::Empty }; 6]);
            row
        })
        .collect();
    let [[ixx, ixy, ixz], [_, iyy, iyz], [_, _, izz]] = mass.inertia;
    let mut total = row("total", String::new(), mass.total, mass.centre);
    total.extend([ixx, iyy, izz, ixy, ixz, iyz].map(Cell::Number));
    rows.push(total);
    let inertia = |key, title| Column::number(key, title, "kg·m²", Digits::Column(4));
    Table {
        name: "mass_table",
        caption: "What the model weighs".into(),
        columns: vec![
            Column::text("kind", "kind"),
            Column::text("item", "item"),
            Column::number("kg", "mass", "kg", Digits::Column(5)),
            Column::number("x_mm", "x", "mm", Digits::Decimals(0)),
            Column::number("y_mm", "y", "mm", Digits::Decimals(0)),
            Column::number("z_mm", "z", "mm", Digits::Decimals(0)),
            inertia("ixx_kg_m2", "Ixx"),
            inertia("iyy_kg_m2", "Iyy"),
            inertia("izz_kg_m2", "Izz"),
            inertia("ixy_kg_m2", "Ixy"),
            inertia("ixz_kg_m2", "Ixz"),
            inertia("iyz_kg_m2", "Iyz"),
        ],
        rows,
    }
}

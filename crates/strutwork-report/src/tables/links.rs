//! `links.csv`: the force of every suspension link.

use strutwork_loads::LoadCase;
use strutwork_loads::case::LinkForce;
use strutwork_loads::suspension::spring_link;
use strutwork_model::model::{Link, Model, Suspension, Wheel};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// A link and its force.
const COLUMNS: [Column; 7] = [
    Column::text("corner", "corner"),
    Column::text("link", "link"),
    Column::text("kind", "kind"),
    Column::number("force_n", "along the link", "N", Digits::Column(4)),
    Column::number("fx_n", "Fx", "N", Digits::Column(4)),
    Column::number("fy_n", "Fy", "N", Digits::Column(4)),
    Column::number("fz_n", "Fz", "N", Digits::Column(4)),
];

/// Forces of all links in all cases. `force_n`: along the link, tension positive, empty for a pivot and a guide; `fx_n` …:
/// what the link exerts on the frame at its chassis end, global axes.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE];
    columns.extend(COLUMNS);
    let mut rows = Vec::new();
    for case in &run.cases.0 {
        for force in &case.derivation.link_forces {
            if let Some(link) = link(run.model, force) {
                let mut row = vec![Cell::text(&case.name)];
                row.extend(cells(link, force));
                rows.push(row);
            }
        }
    }
    Table { name: "links", caption: "Forces of the suspension links".into(), columns, rows }
}

/// Forces of all links in one case.
pub fn of_case<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let forces = case.derivation.link_forces.iter();
    let rows = forces.filter_map(|force| Some(cells(link(run.model, force)?, force).into())).collect();
    let caption = "Suspension links: force along the link, tension positive, and what each exerts on the frame at its \
                   chassis end, global axes"
        .into();
    Table { name: "links", caption, columns: COLUMNS.into(), rows }
}

/// The link that a force belongs to; `None` where the corner has none of that place.
pub fn link<'a>(model: &'a Model, force: &LinkForce) -> Option<&'a Link> {
    match &model.vehicle()?.corner(force.wheel).suspension {
        Suspension::Linked(links) => links.get(force.link),
        Suspension::Rigid(_) => None,
    }
}

/// Force along the spring of a linked corner in a case, N, tension positive; `None` where there is none.
pub fn spring_force(case: &LoadCase, model: &Model, wheel: Wheel) -> Option<f64> {
    let Suspension::Linked(links) = &model.vehicle()?.corner(wheel).suspension else { return None };
    let place = spring_link(links)?;
    let forces = &case.derivation.link_forces;
    forces.iter().find(|force| force.wheel == wheel && force.link == place)?.axial
}

fn cells<'a>(link: &'a Link, force: &LinkForce) -> [Cell<'a>; 7] {
    let [fx, fy, fz] = force.on_frame.map(Cell::Number);
    [
        Cell::text(force.wheel.name()),
        Cell::text(&link.name),
        Cell::text(link.kind.word()),
        Cell::from(force.axial),
        fx,
        fy,
        fz,
    ]
}

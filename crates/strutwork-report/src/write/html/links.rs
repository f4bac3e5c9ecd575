//! Suspension: where the links are, and the greatest force of every link.

use strutwork_loads::LoadCase;
use strutwork_loads::case::LinkForce;
use strutwork_loads::suspension::{spring_link, spring_ratio};
use strutwork_model::model::{Link, Suspension, Wheel};
use strutwork_model::units::to_mm;

use crate::envelope::InCase;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};
use crate::tables::links::spring_force;

use super::model::carrier;
use super::pick::{cells, component_columns, greatest, least, signed_greatest};
use super::table::TableView;

/// Every link of the model: its corner, its place there, and itself.
fn all<'a>(run: &Run<'a>) -> impl Iterator<Item = (Wheel, usize, &'a Link)> + use<'a> {
    run.model.vehicle().into_iter().flat_map(|vehicle| {
        Wheel::ALL.into_iter().flat_map(move |wheel| {
            let links: &[Link] = match &vehicle.corner(wheel).suspension {
                Suspension::Linked(links) => links,
                Suspension::Rigid(_) => &[],
            };
            links.iter().enumerate().map(move |(place, link)| (wheel, place, link))
        })
    })
}

/// The hard points of every link.
pub(super) fn hard_points<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = all(run).map(|(wheel, _, link)| {
        let mut row = vec![Cell::text(wheel.name()), Cell::text(&link.name), Cell::text(link.kind.word())];
        row.extend(link.upright.into_iter().chain(link.chassis).map(|metres| Cell::Number(to_mm(metres))));
        row.push(Cell::from(carrier(run, &link.carrier)));
        row
    });
    let place = |key, title| Column::number(key, title, "mm", Digits::Decimals(1));
    Table {
        name: "links",
        caption: "Suspension links: ends on the upright (u) and on the frame (c)".into(),
        columns: vec![
            Column::text("corner", "corner"),
            Column::text("link", "link"),
            Column::text("kind", "kind"),
            place("upright_x_mm", "x u"),
            place("upright_y_mm", "y u"),
            place("upright_z_mm", "z u"),
            place("chassis_x_mm", "x c"),
            place("chassis_y_mm", "y c"),
            place("chassis_z_mm", "z c"),
            Column::text("joints", "its force goes to"),
        ],
        rows: rows.collect(),
    }
}

/// Greatest tension and compression of every link that has a force along it.
pub(super) fn greatest_forces(run: &Run<'_>) -> Option<TableView> {
    let rows = all(run).filter_map(|(wheel, place, link)| {
        let axial = || of_link(run, wheel, place, |force| force.axial);
        let tension = greatest(axial()).filter(|p| p.value > 0.0);
        let compression = least(axial()).filter(|p| p.value < 0.0);
        // A pivot or a guide has no force along it; a link that no case loads is still told.
        axial().next()?;
        let mut row = vec![Cell::text(wheel.name()), Cell::text(&link.name), Cell::text(link.kind.word())];
        row.extend(cells(tension));
        row.extend(cells(compression));
        Some(row)
    });
    let digits = Digits::Column(4);
    let table = Table {
        name: "link_forces",
        caption:
            "Links: greatest tension (positive) and compression (negative), each with its case. Every case: links.csv"
                .into(),
        columns: vec![
            Column::text("corner", "corner"),
            Column::text("link", "link"),
            Column::text("kind", "kind"),
            Column::number("tension_n", "tension", "N", digits),
            Column::text("tension_case", "in case"),
            Column::number("compression_n", "compression", "N", digits),
            Column::text("compression_case", "in case"),
        ],
        rows: rows.collect(),
    };
    TableView::where_any(&table, "links.csv")
}

/// Greatest components at pivots, guides and struts, which push across as well.
pub(super) fn greatest_components(run: &Run<'_>) -> Option<TableView> {
    let rows = all(run).filter(|(.., link)| link.kind.unknowns() > 1).filter_map(|(wheel, place, link)| {
        of_link(run, wheel, place, |force| Some(force.on_frame[0])).next()?;
        let mut row = vec![Cell::text(wheel.name()), Cell::text(&link.name), Cell::text(link.kind.word())];
        for axis in 0..3 {
            let component = of_link(run, wheel, place, |force| Some(force.on_frame[axis]));
            row.extend(cells(signed_greatest(component)));
        }
        Some(row)
    });
    let mut columns =
        vec![Column::text("corner", "corner"), Column::text("link", "link"), Column::text("kind", "kind")];
    columns.extend(component_columns());
    let table = Table {
        name: "link_components",
        caption:
            "Struts, pivots and guides: the force of greatest magnitude on the frame in each direction, global axes"
                .into(),
        columns,
        rows: rows.collect(),
    };
    TableView::where_any(&table, "links.csv")
}

/// Whether any link carries anything in a case.
pub(super) fn are_loaded(case: &LoadCase) -> bool {
    case.derivation.link_forces.iter().any(|force| force.on_frame != [0.0; 3])
}

/// The spring of every linked corner against its wheel's load.
pub(super) fn springs(run: &Run<'_>, case: &LoadCase) -> Option<TableView> {
    if !are_loaded(case) {
        return None;
    }
    let rows = Wheel::ALL.into_iter().filter_map(|wheel| {
        let Suspension::Linked(links) = &run.model.vehicle()?.corner(wheel).suspension else { return None };
        let place = spring_link(links)?;
        let force = spring_force(case, run.model, wheel)?;
        Some(vec![
            Cell::text(wheel.name()),
            Cell::text(&links[place].name),
            Cell::Number(force),
            Cell::from(case.wheel_force(wheel).map(|force| force[2])),
            Cell::from(spring_ratio(case, run.model, wheel)),
        ])
    });
    let table = Table {
        name: "springs",
        caption:
            "Spring against wheel: how many times the wheel's vertical load the spring carries, compression positive"
                .into(),
        columns: vec![
            Column::text("wheel", "wheel"),
            Column::text("spring", "spring"),
            Column::number("force_n", "along the spring", "N", Digits::Column(4)),
            Column::number("wheel_n", "wheel load", "N", Digits::Column(4)),
            Column::number("ratio", "spring / wheel", "", Digits::Decimals(2)),
        ],
        rows: rows.collect(),
    };
    TableView::where_any(&table, "cases.csv")
}

fn of_link<'a, F: Fn(&LinkForce) -> Option<f64> + 'a>(
    run: &Run<'a>,
    wheel: Wheel,
    place: usize,
    read: F,
) -> impl Iterator<Item = InCase<'a>> + use<'a, F> {
    run.cases.0.iter().filter_map(move |case| {
        let force = case.derivation.link_forces.iter().find(|force| force.wheel == wheel && force.link == place)?;
        Some(InCase { value: read(force)?, case })
    })
}

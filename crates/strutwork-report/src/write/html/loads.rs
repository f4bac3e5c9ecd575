//! What acts in a case, in tables. Tubes that carry the same load along their length share a row.

use strutwork_loads::LoadCase;
use strutwork_model::TubeId;
use strutwork_model::model::{Axes, TubeLoad};
use strutwork_model::units::{to_deg, to_mm};
use strutwork_solve::CaseResult;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::table::TableView;

/// Rows of loads shown; the rest stands in the file of applied loads.
const SHOWN: usize = 40;
const FILE: &str = "applied_loads.csv";

/// Tables of everything that acts; kinds of load that the case does not have are left out.
pub(super) fn tables(run: &Run<'_>, case: &LoadCase) -> Vec<TableView> {
    [
        joint_loads(run, case),
        tube_loads(run, case),
        tube_point_loads(run, case),
        temperatures(run, case),
        settlements(run, case),
    ]
    .iter()
    .filter(|table| !table.rows.is_empty())
    .map(|table| TableView::cut(table, SHOWN, FILE))
    .collect()
}

fn forces() -> [Column; 6] {
    let digits = Digits::Column(4);
    [
        Column::number("fx_n", "Fx", "N", digits),
        Column::number("fy_n", "Fy", "N", digits),
        Column::number("fz_n", "Fz", "N", digits),
        Column::number("mx_nm", "Mx", "N·m", digits),
        Column::number("my_nm", "My", "N·m", digits),
        Column::number("mz_nm", "Mz", "N·m", digits),
    ]
}

fn joint_loads<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let mut columns = vec![Column::text("joint", "joint")];
    columns.extend(forces());
    let rows = case.joint_loads.iter().map(|load| {
        let mut row = vec![Cell::text(run.joint(load.joint))];
        row.extend(load.load.0.map(Cell::Number));
        row
    });
    Table {
        name: "joint_loads",
        caption: "Loads at joints, global axes; a joint may stand in several rows".into(),
        rows: rows.collect(),
        columns,
    }
}

/// Tubes in a row that share a load.
struct Shared<'l> {
    load: &'l TubeLoad,
    tubes: Vec<TubeId>,
}

fn tube_loads<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let mut groups: Vec<Shared<'_>> = Vec::new();
    for load in &case.tube_loads {
        let same = |group: &&mut Shared<'_>| {
            group.load.axes == load.axes && group.load.from == load.from && group.load.to == load.to
        };
        // Where every tube has a load of its own there is nothing to gather: look back over a few groups only.
        match groups.iter_mut().rev().take(64).find(same) {
            Some(group) => group.tubes.push(load.tube),
            None => groups.push(Shared { load, tubes: vec![load.tube] }),
        }
    }
    let digits = Digits::Column(4);
    let rows = groups.iter().map(|group| {
        let mut row = vec![Cell::from(named(run, &group.tubes)), Cell::text(group.load.axes.word())];
        row.extend(group.load.from.into_iter().chain(group.load.to).map(Cell::Number));
        row
    });
    Table {
        name: "tube_loads",
        caption: "Loads along tubes, per metre of tube, from the first joint's end (1) to the second's (2)".into(),
        columns: vec![
            Column::text("tubes", "tubes"),
            Column::text("axes", "axes"),
            Column::number("wx1", "wx 1", "N/m", digits),
            Column::number("wy1", "wy 1", "N/m", digits),
            Column::number("wz1", "wz 1", "N/m", digits),
            Column::number("wx2", "wx 2", "N/m", digits),
            Column::number("wy2", "wy 2", "N/m", digits),
            Column::number("wz2", "wz 2", "N/m", digits),
        ],
        rows: rows.collect(),
    }
}

fn named(run: &Run<'_>, tubes: &[TubeId]) -> String {
    let first = tubes.iter().take(6).map(|tube| run.tube(*tube)).collect::<Vec<_>>().join(", ");
    if tubes.len() > 6 { format!("{first} and {} more", tubes.len() - 6) } else { first }
}

fn tube_point_loads<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let mut columns = vec![
        Column::text("tube", "tube"),
        Column::text("axes", "axes"),
        Column::number("at", "place, 0 to 1", "", Digits::Given),
    ];
    columns.extend(forces());
    let rows = case.tube_point_loads.iter().map(|load| {
        let mut row =
            vec![Cell::text(run.tube(load.tube)), Cell::text(load.axes.word()), Cell::Number(load.at)];
        row.extend(load.force.into_iter().chain(load.moment).map(Cell::Number));
        row
    });
    Table {
        name: "tube_point_loads",
        caption: "Loads at places along tubes".into(),
        rows: rows.collect(),
        columns,
    }
}

fn temperatures<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let rows = case.temperatures.iter().map(|load| {
        vec![
            Cell::text(run.tube(load.tube)),
            Cell::Number(load.rise),
            Cell::Number(load.gradient_y),
            Cell::Number(load.gradient_z),
        ]
    });
    Table {
        name: "temperatures",
        caption: "Changes of temperature; gradients along local y and z, positive side hotter".into(),
        columns: vec![
            Column::text("tube", "tube"),
            Column::number("rise_k", "rise", "K", Digits::Given),
            Column::number("gradient_y", "gradient y", "K/m", Digits::Given),
            Column::number("gradient_z", "gradient z", "K/m", Digits::Given),
        ],
        rows: rows.collect(),
    }
}

fn settlements<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let rows = case.settlements.iter().map(|settlement| {
        let (value, unit) = if settlement.dof.is_rotation() {
            (to_deg(settlement.value), "deg")
        } else {
            (to_mm(settlement.value), "mm")
        };
        vec![
            Cell::text(run.joint(settlement.joint)),
            Cell::text(settlement.dof.name()),
            Cell::Number(value),
            Cell::text(unit),
        ]
    });
    Table {
        name: "settlements",
        caption: "Prescribed movements of supports".into(),
        columns: vec![
            Column::text("joint", "joint"),
            Column::text("along", "along"),
            Column::number("value", "movement", "", Digits::Given),
            Column::text("unit", "unit"),
        ],
        rows: rows.collect(),
    }
}

/// Everything applied and all reactions, about the origin.
pub(super) fn balance(result: &CaseResult) -> TableView {
    let mut columns = vec![Column::text("sum", "sum about the origin")];
    columns.extend(forces());
    let mut applied = vec![Cell::text("applied")];
    applied.extend(result.trust.applied.map(Cell::Number));
    let mut reacted = vec![Cell::text("reactions")];
    reacted.extend(result.trust.reacted.map(Cell::Number));
    let table = Table {
        name: "balance",
        caption: "Equilibrium, global axes".into(),
        columns,
        rows: vec![applied, reacted],
    };
    TableView::of(&table, "cases.csv")
}

/// The axes that tube loads are written in, in words; empty where the case has none.
pub(super) fn axes_note(case: &LoadCase) -> &'static str {
    let along = case.tube_loads.iter().map(|load| load.axes);
    let at = case.tube_point_loads.iter().map(|load| load.axes);
    if along.chain(at).any(|axes| axes == Axes::Local) {
        "Local axes of a tube: see section 4."
    } else {
        ""
    }
}

//! What acts in a case, in tables. Tubes that carry the same load along their length share a row.

use std::collections::BTreeMap;

use strutwork_loads::LoadCase;
use strutwork_model::model::{Axes, TubeLoad};
use strutwork_model::units::{to_deg, to_mm};
use strutwork_model::{BodyId, DofMap, JointId, TubeId};
use strutwork_solve::CaseResult;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::Edition;
use super::table::TableView;

/// Rows of loads shown; the rest stands in the file of applied loads.
const SHOWN: usize = 3;
const FILE: &str = "applied_loads.csv";

/// Tables of everything that acts; kinds of load that the case does not have are left out.
pub(super) fn tables(run: &Run<'_>, case: &LoadCase, edition: Edition) -> Vec<TableView> {
    // What was put one by one stands in the account on paper.
    let accounted = edition == Edition::Paper && !case.derivation.placed.is_empty();
    [
        joint_loads(run, case),
        body_loads(run, case),
        tube_loads(run, case),
        tube_point_loads(run, case),
        temperatures(run, case),
        settlements(run, case),
    ]
    .iter()
    .filter(|table| !table.rows.is_empty())
    .filter(|table| !accounted || !["joint_loads", "body_loads"].contains(&table.name))
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
    let sums: BTreeMap<JointId, [f64; 6]> = added_up(case.joint_loads.iter().map(|load| (load.joint, &load.load)));
    let rows = sums.into_iter().map(|(joint, sum)| {
        let mut row = vec![Cell::text(run.joint(joint))];
        row.extend(sum.map(Cell::Number));
        row
    });
    Table {
        name: "joint_loads",
        caption: "Loads at joints, global axes, added up at each joint".into(),
        rows: rows.collect(),
        columns,
    }
}

fn body_loads<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let mut columns = vec![Column::text("body", "body")];
    columns.extend(forces());
    let sums: BTreeMap<BodyId, [f64; 6]> = added_up(case.body_loads.iter().map(|load| (load.body, &load.load)));
    let rows = sums.into_iter().map(|(body, sum)| {
        let mut row = vec![Cell::text(run.body(body))];
        row.extend(sum.map(Cell::Number));
        row
    });
    Table {
        name: "body_loads",
        caption: "Loads on bodies, global axes, added up at each body's reference point".into(),
        rows: rows.collect(),
        columns,
    }
}

/// What acts on one and the same thing, added up.
fn added_up<'l, K: Ord>(loads: impl Iterator<Item = (K, &'l DofMap<f64>)>) -> BTreeMap<K, [f64; 6]> {
    let mut sums = BTreeMap::new();
    for (on, load) in loads {
        let sum = sums.entry(on).or_insert([0.0; 6]);
        for (sum, value) in sum.iter_mut().zip(load.0) {
            *sum += value;
        }
    }
    sums
}

/// Tubes that share a load.
struct Shared<'l> {
    load: &'l TubeLoad,
    tubes: Vec<TubeId>,
}

/// Loads closer than this share of the largest count as one: balancing inertia leaves rounding noise on gravity.
const SAME: f64 = 1e-9;

fn tube_loads<'a>(run: &Run<'a>, case: &LoadCase) -> Table<'a> {
    let largest =
        case.tube_loads.iter().flat_map(|load| load.from.into_iter().chain(load.to)).map(f64::abs).fold(0.0, f64::max);
    let step = if largest > 0.0 { SAME * largest } else { 1.0 };
    let mut known: BTreeMap<(bool, [i64; 6]), usize> = BTreeMap::new();
    let mut groups: Vec<Shared<'_>> = Vec::new();
    for load in &case.tube_loads {
        let ([a, b, c], [d, e, f]) = (load.from, load.to);
        let rounded = [a, b, c, d, e, f].map(|value| (value / step).round() as i64);
        let place = *known.entry((load.axes == Axes::Local, rounded)).or_insert_with(|| {
            groups.push(Shared { load, tubes: Vec::new() });
            groups.len() - 1
        });
        groups[place].tubes.push(load.tube);
    }
    let digits = Digits::Column(4);
    let rows = groups.iter().map(|group| {
        let mut row = vec![Cell::from(named(run, &group.tubes)), Cell::text(group.load.axes.word())];
        row.extend(group.load.from.into_iter().chain(group.load.to).map(Cell::Number));
        row
    });
    Table {
        name: "tube_loads",
        caption: "Loads along tubes, per metre of tube, wx1 to wz1 at the first joint, wx2 to wz2 at the second".into(),
        columns: vec![
            Column::text("tubes", "tubes"),
            Column::text("axes", "axes"),
            Column::number("wx1", "wx1", "N/m", digits),
            Column::number("wy1", "wy1", "N/m", digits),
            Column::number("wz1", "wz1", "N/m", digits),
            Column::number("wx2", "wx2", "N/m", digits),
            Column::number("wy2", "wy2", "N/m", digits),
            Column::number("wz2", "wz2", "N/m", digits),
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
        let mut row = vec![Cell::text(run.tube(load.tube)), Cell::text(load.axes.word()), Cell::Number(load.at)];
        row.extend(load.force.into_iter().chain(load.moment).map(Cell::Number));
        row
    });
    Table { name: "tube_point_loads", caption: "Loads at places along tubes".into(), rows: rows.collect(), columns }
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
pub(super) fn balance(case: &LoadCase, result: &CaseResult) -> TableView {
    let mut columns = vec![Column::text("sum", "sum about the origin")];
    columns.extend(forces());
    let mut applied = vec![Cell::text(if case.free { "applied, inertia included" } else { "applied" })];
    applied.extend(result.trust.applied.map(Cell::Number));
    let mut rows = vec![applied];
    if !case.free {
        let mut reacted = vec![Cell::text("reactions")];
        reacted.extend(result.trust.reacted.map(Cell::Number));
        rows.push(reacted);
    }
    let table = Table { name: "balance", caption: "Equilibrium, global axes".into(), columns, rows };
    TableView::of(&table, "cases.csv")
}

/// The axes that tube loads are written in, in words; empty where the case has none.
pub(super) fn axes_note(case: &LoadCase) -> &'static str {
    let along = case.tube_loads.iter().map(|load| load.axes);
    let at = case.tube_point_loads.iter().map(|load| load.axes);
    if along.chain(at).any(|axes| axes == Axes::Local) { "Local axes of a tube: see section 3." } else { "" }
}

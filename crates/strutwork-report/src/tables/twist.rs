//! `twist.csv`: the twist along the frame.

use strutwork_model::units::{to_deg, to_mm};
use strutwork_solve::results::{MeasureResult, TwistStation};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// A pair of joints and its turn.
const COLUMNS: [Column; 4] = [
    Column::number("x_mm", "x", "mm", Digits::Decimals(0)),
    Column::text("left", "left joint"),
    Column::text("right", "right joint"),
    Column::number("twist_deg", "twist", "deg", Digits::Column(4)),
];

/// Twist along the frame of every case that measures it, rear to front.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE];
    columns.extend(COLUMNS);
    let mut rows = Vec::new();
    for (case, result) in run.pairs() {
        for measure in &result.measures {
            if let MeasureResult::Twist { profile, .. } = measure {
                for station in profile {
                    let mut row = vec![Cell::text(&case.name)];
                    row.extend(cells(run, station));
                    rows.push(row);
                }
            }
        }
    }
    Table { name: "twist", caption: "Twist along the frame".into(), columns, rows }
}

/// Twist along the frame of one measure, rear to front.
pub fn of_profile<'a>(run: &Run<'a>, profile: &[TwistStation]) -> Table<'a> {
    let caption = "Twist of the widest pair of joints at each x, less the rear station's. All pairs: twist.csv".into();
    let rows = profile.iter().map(|station| cells(run, station).into()).collect();
    Table { name: "twist", caption, columns: COLUMNS.into(), rows }
}

fn cells<'a>(run: &Run<'a>, station: &TwistStation) -> [Cell<'a>; 4] {
    [
        Cell::Number(to_mm(station.x)),
        Cell::from(station.left.name(run.model)),
        Cell::from(station.right.name(run.model)),
        Cell::Number(to_deg(station.twist)),
    ]
}

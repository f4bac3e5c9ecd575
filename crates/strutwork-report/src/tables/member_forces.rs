//! `member_forces.csv`: forces and stresses along every tube in every case.

use strutwork_model::units::{to_mm, to_mpa};
use strutwork_solve::results::Station;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Forces and stresses at a station.
const COLUMNS: [Column; 11] = [
    Column::number("station", "station", "", Digits::Decimals(3)),
    Column::number("x_mm", "x", "mm", Digits::Column(4)),
    Column::number("n_n", "N", "N", Digits::Column(4)),
    Column::number("vy_n", "Vy", "N", Digits::Column(4)),
    Column::number("vz_n", "Vz", "N", Digits::Column(4)),
    Column::number("t_nm", "T", "N·m", Digits::Column(4)),
    Column::number("my_nm", "My", "N·m", Digits::Column(4)),
    Column::number("mz_nm", "Mz", "N·m", Digits::Column(4)),
    Column::number("sigma_max_mpa", "σ", "MPa", Digits::Column(4)),
    Column::number("tau_max_mpa", "τ", "MPa", Digits::Column(4)),
    Column::number("von_mises_mpa", "von Mises", "MPa", Digits::Column(4)),
];

/// Forces and stresses at every station; stress cells are empty where a section is given by its properties alone.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE, Column::text("tube", "tube")];
    columns.extend(COLUMNS);
    let mut rows = Vec::new();
    for (case, result) in run.pairs() {
        for (tube, tube_result) in result.tubes.iter_with_id() {
            let length = run.model.length(tube);
            for station in &tube_result.stations {
                let mut row = Vec::with_capacity(columns.len());
                row.extend([Cell::text(&case.name), Cell::text(run.tube(tube))]);
                row.extend(cells(station, length));
                rows.push(row);
            }
        }
    }
    Table { name: "member_forces", caption: "Forces and stresses along the tubes".into(), columns, rows }
}

fn cells(station: &Station, length: f64) -> [Cell<'static>; 11] {
    let forces = station.forces;
    let stress =
        |read: fn(&strutwork_solve::results::Stress) -> f64| Cell::from(station.stress.as_ref().map(read).map(to_mpa));
    [
        Cell::Number(station.at),
        Cell::Number(to_mm(station.at * length)),
        Cell::Number(forces.n),
        Cell::Number(forces.vy),
        Cell::Number(forces.vz),
        Cell::Number(forces.t),
        Cell::Number(forces.my),
        Cell::Number(forces.mz),
        stress(|s| s.sigma_max),
        stress(|s| s.tau_max),
        stress(|s| s.von_mises),
    ]
}

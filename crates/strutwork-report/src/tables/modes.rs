//! `modes.csv`, `modes_under.csv`: natural modes, the rigid ones first.

use strutwork_solve::Modes;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// One row a mode; empty where modes were not asked for.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let caption = "Natural modes; effective masses and inertias about the middle of the joints".into();
    let rows = run.asked.modes.iter().flat_map(|modes| rows(run, modes)).collect();
    Table { name: "modes", caption, columns: columns().into(), rows }
}

/// The same under the forces of a case; empty where that was not asked for.
pub fn under<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = Vec::from(columns());
    columns.insert(0, super::CASE);
    let of_case = |(case, modes): &'a (String, Modes)| {
        let rows = rows(run, modes).into_iter();
        rows.map(|row| std::iter::once(Cell::text(case.as_str())).chain(row).collect::<Vec<_>>())
    };
    let rows = run.asked.under.iter().flat_map(of_case).collect();
    Table { name: "modes_under", caption: "Natural modes under the forces of a case".into(), columns, rows }
}

fn columns() -> [Column; 11] {
    [
        Column::number("mode", "mode", "", Digits::Decimals(0)),
        Column::number("frequency_hz", "frequency", "Hz", Digits::Each(4)),
        Column::number("ex_kg", "effective mass x", "kg", Digits::Column(4)),
        Column::number("ey_kg", "y", "kg", Digits::Column(4)),
        Column::number("ez_kg", "z", "kg", Digits::Column(4)),
        Column::number("erx_kg_m2", "effective inertia x", "kg·m²", Digits::Column(4)),
        Column::number("ery_kg_m2", "y", "kg·m²", Digits::Column(4)),
        Column::number("erz_kg_m2", "z", "kg·m²", Digits::Column(4)),
        Column::text("tube", "tube with most strain energy"),
        Column::number("tube_energy_share", "its share", "", Digits::Decimals(3)),
        Column::text("name", "shape"),
    ]
}

fn rows<'a>(run: &Run<'a>, modes: &'a Modes) -> Vec<Vec<Cell<'a>>> {
    let mut rows: Vec<Vec<Cell<'a>>> = Vec::new();
    for (name, effective) in modes.rigid_modes() {
        let mut row = vec![Cell::Number((rows.len() + 1) as f64), Cell::Number(0.0)];
        row.extend((0..6).map(|of| Cell::from(effective.map(|effective| effective[of]))));
        row.extend([Cell::Empty, Cell::Empty, Cell::text(name)]);
        rows.push(row);
    }
    for mode in &modes.modes {
        let mut row = vec![Cell::Number((rows.len() + 1) as f64), Cell::Number(mode.frequency)];
        row.extend(mode.effective().map(Cell::Number));
        let most = mode.most_strained();
        row.push(most.map_or(Cell::Empty, |(tube, _)| Cell::text(run.tube(tube))));
        row.push(Cell::from(most.map(|(_, share)| share)));
        row.push(Cell::from(mode.name.words(run.model)));
        rows.push(row);
    }
    rows
}

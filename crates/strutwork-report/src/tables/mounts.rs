//! `mounts.csv`: what every body exerts on the frame through each of its bolts.

use strutwork_model::MountId;
use strutwork_solve::CaseResult;
use strutwork_solve::results::MountResult;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// The load of a bolt, in the order of the file.
const COLUMNS: [Column; 9] = [
    Column::number("fx_n", "Fx", "N", Digits::Column(4)),
    Column::number("fy_n", "Fy", "N", Digits::Column(4)),
    Column::number("fz_n", "Fz", "N", Digits::Column(4)),
    Column::number("axial_n", "along the bolt", "N", Digits::Column(4)),
    Column::number("shear_n", "across it", "N", Digits::Column(4)),
    Column::number("mx_nm", "Mx", "N·m", Digits::Column(4)),
    Column::number("my_nm", "My", "N·m", Digits::Column(4)),
    Column::number("mz_nm", "Mz", "N·m", Digits::Column(4)),
    Column::number("moment_nm", "moment", "N·m", Digits::Column(4)),
];

/// Loads of all mounts in all cases, global axes; `axial_n` and `shear_n` are empty where no axis is given.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![super::CASE];
    columns.extend(head());
    let rows = run
        .pairs()
        .flat_map(|(case, result)| {
            result.mounts.iter_with_id().map(move |(id, mount)| {
                let mut row = vec![Cell::text(&case.name)];
                row.extend(cells(run, id, mount));
                row
            })
        })
        .collect();
    Table { name: "mounts", caption: "Loads of the bolts of bodies".into(), columns, rows }
}

/// Loads of all mounts in one case, global axes.
pub fn of_case<'a>(run: &Run<'a>, result: &CaseResult) -> Table<'a> {
    let rows = result.mounts.iter_with_id().map(|(id, mount)| cells(run, id, mount)).collect();
    let caption = "What the bodies exert on the frame through their bolts, global axes".into();
    Table { name: "mounts", caption, columns: head(), rows }
}

fn head() -> Vec<Column> {
    let mut columns = vec![Column::text("body", "body"), Column::text("joint", "joint")];
    columns.extend(COLUMNS);
    columns
}

fn cells<'a>(run: &Run<'a>, id: MountId, result: &MountResult) -> Vec<Cell<'a>> {
    let mount = &run.model.mounts()[id];
    let [fx, fy, fz, mx, my, mz] = result.on_frame.map(Cell::Number);
    vec![
        Cell::text(run.body(mount.body)),
        Cell::text(run.joint(mount.joint)),
        fx,
        fy,
        fz,
        Cell::from(result.axial),
        Cell::from(result.shear),
        mx,
        my,
        mz,
        Cell::Number(result.moment),
    ]
}

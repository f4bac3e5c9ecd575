//! Bodies and their bolts: how they are fixed, and the greatest load of every bolt.

use strutwork_model::model::{Bond, Carrier, Mount};
use strutwork_model::units::to_mm;
use strutwork_model::{BodyId, Dof, MountId};
use strutwork_solve::results::MountResult;

use crate::envelope::InCase;
use crate::number::as_given;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::model::stiffness_words;
use super::pick::{cells, component_columns, signed_greatest};
use super::table::TableView;

/// The bodies: where they are, what they carry.
pub(super) fn bodies<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run.model.bodies().iter_with_id().map(|(id, body)| {
        let mut row = vec![Cell::text(&body.name), Cell::Number(body.mounts.len() as f64)];
        row.extend(body.at.map(|metres| Cell::Number(to_mm(metres))));
        row.push(Cell::from(carried(run, id)));
        row
    });
    Table {
        name: "bodies",
        caption: "Bodies: rigid modules bolted to the frame. Reference point: the mean of its mounts".into(),
        columns: vec![
            Column::text("body", "body"),
            Column::number("mounts", "mounts", "", Digits::Decimals(0)),
            Column::number("x_mm", "x", "mm", Digits::Decimals(1)),
            Column::number("y_mm", "y", "mm", Digits::Decimals(1)),
            Column::number("z_mm", "z", "mm", Digits::Decimals(1)),
            Column::text("carries", "carries the masses"),
        ],
        rows: rows.collect(),
    }
}

fn carried(run: &Run<'_>, body: BodyId) -> String {
    let masses = run.model.masses().iter().filter(|mass| mass.carrier == Carrier::Body(body));
    masses.map(|mass| mass.name.as_str()).collect::<Vec<_>>().join(", ")
}

/// The mounts: how each joint follows its body.
pub(super) fn mounts<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run.model.mounts().iter().map(|mount| {
        vec![
            Cell::text(run.body(mount.body)),
            Cell::text(run.joint(mount.joint)),
            Cell::from(bond_words(mount)),
            Cell::from(bolt_words(run, mount)),
            Cell::from(mount.axis.map(axis_words).unwrap_or_default()),
            Cell::text(&mount.note),
        ]
    });
    Table {
        name: "mounts",
        caption: "Mounts: how each joint follows its body, global axes. The bolt stands at the joint".into(),
        columns: vec![
            Column::text("body", "body"),
            Column::text("joint", "joint"),
            Column::text("bond", "held to the body"),
            Column::text("bolt", "bolt"),
            Column::text("axis", "bolt axis"),
            Column::text("note", "note"),
        ],
        rows: rows.collect(),
    }
}

/// `rigid in all six freedoms`, or `rigid in ux, uy; uz by 500 N/mm; the rest free`.
fn bond_words(mount: &Mount) -> String {
    let rigid: Vec<&str> = names(mount, Bond::Rigid);
    let free = names(mount, Bond::Free);
    let mut parts = Vec::new();
    match rigid.len() {
        0 => {}
        6 => return "rigid in all six freedoms".to_owned(),
        _ => parts.push(format!("rigid in {}", rigid.join(", "))),
    }
    for dof in Dof::ALL {
        if let Bond::Spring(stiffness) = mount.bonds[dof] {
            parts.push(format!("{} by {}", dof.name(), stiffness_words(stiffness, dof.is_rotation())));
        }
    }
    if !free.is_empty() {
        parts.push("the rest free".to_owned());
    }
    parts.join("; ")
}

fn names(mount: &Mount, wanted: Bond) -> Vec<&'static str> {
    Dof::ALL.into_iter().filter(|dof| mount.bonds[*dof] == wanted).map(Dof::name).collect()
}

fn bolt_words(run: &Run<'_>, mount: &Mount) -> String {
    mount.bolt.map_or_else(String::new, |id| {
        let bolt = &run.model.bolts()[id];
        let (size, class) = (bolt.size.map(|size| size.name), bolt.class.map(|class| class.name));
        let mut parts: Vec<&str> = [Some(bolt.name.as_str()), size, class].into_iter().flatten().collect();
        // A kind of bolt is often named by its size.
        parts.dedup();
        match bolt.clamps {
            Some(clamps) => format!("{}, through a {}", parts.join(" "), clamps.word()),
            None => parts.join(" "),
        }
    })
}

/// `along x`, or the unit vector.
fn axis_words(axis: [f64; 3]) -> String {
    for (place, name) in ["x", "y", "z"].into_iter().enumerate() {
        if axis[place].abs() > 1.0 - 1e-12 {
            return format!("along {name}");
        }
    }
    axis.map(|part| as_given((part * 1e4).round() / 1e4)).join(" ")
}

/// The greatest loads of every bolt over all cases.
pub(super) fn greatest_loads(run: &Run<'_>) -> Option<TableView> {
    let rows = run.model.mounts().iter_with_id().map(|(id, mount)| {
        let mut row = vec![
            Cell::text(run.body(mount.body)),
            Cell::text(run.joint(mount.joint)),
            Cell::from(bolt_words(run, mount)),
        ];
        for read in
            [|m: &MountResult| m.axial.map(f64::abs), |m: &MountResult| m.shear, |m: &MountResult| Some(m.moment)]
        {
            row.extend(cells(signed_greatest(of_mount(run, id, read))));
        }
        row
    });
    let digits = Digits::Column(4);
    let table = Table {
        name: "bolts",
        caption: "Bolts: the greatest load along (either way), across, and moment, each with its case. Every case: mounts.csv"
            .into(),
        columns: vec![
            Column::text("body", "body"),
            Column::text("joint", "joint"),
            Column::text("bolt", "bolt"),
            Column::number("axial_n", "along", "N", digits),
            Column::text("axial_case", "in case"),
            Column::number("shear_n", "across", "N", digits),
            Column::text("shear_case", "in case"),
            Column::number("moment_nm", "moment", "N·m", digits),
            Column::text("moment_case", "in case"),
        ],
        rows: rows.collect(),
    };
    TableView::where_any(&table, "mounts.csv")
}

/// The greatest components at mounts whose bolt has no axis.
pub(super) fn greatest_components(run: &Run<'_>) -> Option<TableView> {
    let rows = run.model.mounts().iter_with_id().filter(|(_, mount)| mount.axis.is_none()).map(|(id, mount)| {
        let mut row = vec![Cell::text(run.body(mount.body)), Cell::text(run.joint(mount.joint))];
        for axis in 0..3 {
            row.extend(cells(signed_greatest(of_mount(run, id, |m| Some(m.on_frame[axis])))));
        }
        row
    });
    let mut columns = vec![Column::text("body", "body"), Column::text("joint", "joint")];
    columns.extend(component_columns());
    let table = Table {
        name: "bolt_components",
        caption:
            "Mounts without a bolt axis: the force of greatest magnitude in each direction, what the body exerts on \
                  the frame, global axes"
                .into(),
        columns,
        rows: rows.collect(),
    };
    TableView::where_any(&table, "mounts.csv")
}

fn of_mount<'a, F: Fn(&MountResult) -> Option<f64> + 'a>(
    run: &Run<'a>,
    id: MountId,
    read: F,
) -> impl Iterator<Item = InCase<'a>> + use<'a, F> {
    run.pairs().filter_map(move |(case, result)| Some(InCase { value: read(&result.mounts[id])?, case }))
}

//! The model in tables.

use strutwork_model::model::{Carrier, Hold, Support, TubeEnd};
use strutwork_model::units::{N_PER_MM, NM_PER_DEG, to_deg, to_mm};
use strutwork_model::{Dof, DofMap, JointId};

use crate::number::as_given;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::table::TableView;
use super::{Edition, bodies, links, panels, stock, vehicle};

pub(super) const PLACE: [Column; 3] = [
    Column::number("x_mm", "x", "mm", Digits::Given),
    Column::number("y_mm", "y", "mm", Digits::Given),
    Column::number("z_mm", "z", "mm", Digits::Given),
];

/// The tables of the model, without those that have no rows.
pub(super) struct Tables {
    /// What it is made of and how it is held: before the pictures.
    pub(super) made_of: Vec<TableView>,
    /// Joints, tubes and masses: after the pictures.
    pub(super) parts: Vec<TableView>,
}

impl Tables {
    pub(super) fn of(run: &Run<'_>, edition: Edition) -> Self {
        let filled = |tables: Vec<(Table<'_>, &str)>| {
            let tables = tables.into_iter().filter(|(table, _)| !table.rows.is_empty());
            // On paper the sources stand once, in their own section.
            let told = tables.map(|(table, place)| match edition {
                Edition::Screen => (table, place),
                Edition::Paper => (sourced_elsewhere(table), place),
            });
            told.map(|(table, place)| TableView::of(&table, place)).collect()
        };
        Self {
            made_of: filled(vec![
                (stock::sections(run), "model.toml"),
                (stock::strengths(run), "model.toml"),
                (stock::materials(run), "model.toml"),
                (supports(run, run.model.supports(), "Supports of the model"), "supports.csv"),
                (vehicle::corners(run), "model.toml"),
                (links::hard_points(run), "suspension.csv"),
                (vehicle::axles(run), "model.toml"),
                (vehicle::data(run), "model.toml"),
                (bodies::bodies(run), "bodies.csv"),
                (bodies::mounts(run), "bodies.csv"),
                (panels::panels(run), "panels.csv"),
                (panels::fixings(run), "model.toml"),
                (vehicle::places(run), "model.toml"),
                (factors(run), "model.toml"),
            ]),
            parts: filled(vec![(joints(run), "joints.csv"), (tubes(run), "tubes.csv"), (carried(run), "masses.csv")]),
        }
    }
}

/// Without its sources, and with where they stand.
fn sourced_elsewhere(mut table: Table<'_>) -> Table<'_> {
    if !["sections", "materials", "fixings"].contains(&table.name) {
        return table;
    }
    table.caption.push_str(". Sources: section 11");
    table.without(&["source", "verified"])
}

pub(super) fn place(at: [f64; 3]) -> [Cell<'static>; 3] {
    at.map(|metres| Cell::Number(to_mm(metres)))
}

fn names(run: &Run<'_>, joints: &[JointId]) -> String {
    joints.iter().map(|joint| run.joint(*joint)).collect::<Vec<_>>().join(", ")
}

fn joints<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![Column::text("joint", "joint")];
    columns.extend(PLACE);
    columns.push(Column::text("note", "note"));
    let rows = run.model.joints().iter().map(|joint| {
        let mut row = vec![Cell::text(&joint.name)];
        row.extend(place(joint.at));
        row.push(Cell::text(&joint.note));
        row
    });
    Table { name: "joints", caption: "Joints".into(), rows: rows.collect(), columns }
}

fn tubes<'a>(run: &Run<'a>) -> Table<'a> {
    let model = run.model;
    let rows = model.tubes().iter_with_id().map(|(id, tube)| {
        let mut notes = Vec::new();
        let ends = [("from", &tube.release_from, &tube.end_from), ("to", &tube.release_to, &tube.end_to)];
        for (end, release, joined) in ends {
            if let Some(freed) = freed(release) {
                notes.push(format!("{end} end free in {freed}"));
            }
            notes.extend(joined_words(end, joined));
        }
        if !tube.note.is_empty() {
            notes.push(tube.note.clone());
        }
        vec![
            Cell::text(&tube.name),
            Cell::text(run.joint(tube.from)),
            Cell::text(run.joint(tube.to)),
            Cell::text(&model.sections()[tube.section].name),
            Cell::text(&model.materials()[tube.material].name),
            Cell::text(&tube.group),
            Cell::Number(to_mm(model.length(id))),
            Cell::Number(model.tube_mass(id)),
            Cell::from((tube.roll != 0.0).then(|| to_deg(tube.roll))),
            Cell::from(notes.join("; ")),
        ]
    });
    Table {
        name: "tubes",
        caption: "Tubes: lengths and masses between their ends, at joint centres where nothing else is said".into(),
        columns: vec![
            Column::text("tube", "tube"),
            Column::text("from", "from"),
            Column::text("to", "to"),
            Column::text("section", "section"),
            Column::text("material", "material"),
            Column::text("group", "group"),
            Column::number("length_mm", "length", "mm", Digits::Decimals(1)),
            Column::number("mass_kg", "mass", "kg", Digits::Decimals(3)),
            Column::number("roll_deg", "roll", "deg", Digits::Given),
            Column::text("note", "ends, note"),
        ],
        rows: rows.collect(),
    }
}

/// Offset and springs of an end, in words.
fn joined_words(end: &str, joined: &TubeEnd) -> Vec<String> {
    let mut words = Vec::new();
    if joined.offset != [0.0; 3] {
        let by = joined.offset.map(|metres| as_given(to_mm(metres))).join(" / ");
        words.push(format!("{end} end set off by {by} mm"));
    }
    for dof in Dof::ALL {
        if let Some(stiffness) = joined.springs[dof] {
            let value = stiffness_words(stiffness, dof.is_rotation());
            words.push(format!("{end} end: {} by {value}", dof.name()));
        }
    }
    words
}

/// A stiffness in its door unit.
pub(super) fn stiffness_words(stiffness: f64, rotation: bool) -> String {
    if rotation {
        format!("{} N·m/deg", as_given(stiffness / NM_PER_DEG))
    } else {
        format!("{} N/mm", as_given(stiffness / N_PER_MM))
    }
}

fn freed(release: &DofMap<bool>) -> Option<String> {
    let names: Vec<&str> = Dof::ALL.into_iter().filter(|dof| release[*dof]).map(Dof::name).collect();
    (!names.is_empty()).then(|| names.join(" "))
}

fn carried<'a>(run: &Run<'a>) -> Table<'a> {
    let mut columns = vec![Column::text("mass", "mass"), Column::number("kg", "mass", "kg", Digits::Given)];
    columns.extend(PLACE);
    columns.extend([Column::text("joints", "carried by"), Column::text("note", "note")]);
    let rows = run.model.masses().iter().map(|mass| {
        let mut row = vec![Cell::text(&mass.name), Cell::Number(mass.mass)];
        row.extend(place(mass.at));
        row.extend([Cell::from(carrier(run, &mass.carrier)), Cell::text(&mass.note)]);
        row
    });
    Table { name: "masses", caption: "Masses that the frame carries".into(), rows: rows.collect(), columns }
}

/// How joints are held.
pub(super) fn supports<'a>(run: &Run<'a>, supports: &[Support], caption: &str) -> Table<'a> {
    let mut columns = vec![Column::text("joint", "joint")];
    columns.extend(["ux", "uy", "uz", "rx", "ry", "rz"].map(|name| Column::text(name, name)));
    let rows = supports.iter().map(|support| {
        let mut row = vec![Cell::text(run.joint(support.joint))];
        row.extend(Dof::ALL.map(|dof| Cell::from(held(support.holds[dof], dof.is_rotation()))));
        row
    });
    Table { name: "supports", caption: caption.into(), rows: rows.collect(), columns }
}

/// How one joint is held, in words: `fixed in ux, uy; ry 120 N·m/deg; the rest free`.
pub(super) fn support_words(support: &Support) -> String {
    let fixed: Vec<&str> =
        Dof::ALL.into_iter().filter(|dof| support.holds[*dof] == Hold::Fixed).map(Dof::name).collect();
    let mut parts = Vec::new();
    match fixed.len() {
        0 => {}
        6 => parts.push("fixed in all six freedoms".to_owned()),
        _ => parts.push(format!("fixed in {}", fixed.join(", "))),
    }
    for dof in Dof::ALL {
        if let hold @ Hold::Spring(_) = support.holds[dof] {
            parts.push(format!("{} by {}", dof.name(), held(hold, dof.is_rotation())));
        }
    }
    if parts.is_empty() { "free".to_owned() } else { parts.join(", ") }
}

fn held(hold: Hold, rotation: bool) -> String {
    match hold {
        Hold::Free => "free".into(),
        Hold::Fixed => "fixed".into(),
        Hold::Spring(stiffness) => stiffness_words(stiffness, rotation),
    }
}

fn factors<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run
        .model
        .factors()
        .iter()
        .map(|factor| vec![Cell::text(&factor.name), Cell::Number(factor.value), Cell::text(&factor.source)]);
    Table {
        name: "factors",
        caption: "Factors that the model sets in place of those of the case scripts".into(),
        columns: vec![
            Column::text("factor", "factor"),
            Column::number("value", "value", "", Digits::Given),
            Column::text("source", "source"),
        ],
        rows: rows.collect(),
    }
}

/// What carries a mass or takes a force, in words.
pub(super) fn carrier(run: &Run<'_>, carrier: &Carrier) -> String {
    match carrier {
        Carrier::Joints(joints) => names(run, joints),
        Carrier::Body(body) => format!("body {}", run.model.bodies()[*body].name),
        Carrier::Upright(wheel) => format!("{} upright", wheel.name()),
    }
}

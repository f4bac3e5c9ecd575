//! `worth.csv`: what torsional stiffness costs on each tube.

use strutwork_model::Model;
use strutwork_study::sensitivity::{Rank, Worth};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Every tube with a wall, the cheapest stiffness first; empty where no case measured a twist.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    of_tubes(run.model, run.worth)
}

/// The same of a model whose run is not at hand.
pub fn of_tubes<'a>(model: &'a Model, worth: Option<&'a Worth>) -> Table<'a> {
    let mut columns = vec![Column::text("tube", "tube"), Column::text("group", "group")];
    columns.extend(COLUMNS);
    Table {
        name: "worth",
        caption: "What torsional stiffness costs on each tube, the cheapest first".into(),
        columns,
        rows: worth.map_or_else(Vec::new, |worth| tubes(model, worth)),
    }
}

/// Every group, the cheapest stiffness first, all its tubes changed together.
pub fn of_groups<'a>(model: &Model, worth: &'a Worth) -> Table<'a> {
    let rows = worth.groups.iter().map(|rank| {
        let members = || model.tubes().iter_with_id().filter(|(_, tube)| is_of(tube, &rank.name));
        let share: f64 = members().map(|(id, _)| worth.energy[id]).sum();
        let mut row = vec![Cell::text(&rank.name), Cell::Number(members().count() as f64)];
        row.extend(cells(rank, share));
        row
    });
    let mut columns = vec![Column::text("group", "group"), Column::number("tubes", "tubes", "", Digits::Decimals(0))];
    columns.extend(COLUMNS);
    Table {
        name: "worth_of_groups",
        caption: "What torsional stiffness costs on each group of tubes, the cheapest first".into(),
        columns,
        rows: rows.collect(),
    }
}

/// Whether a tube is of a group, or by itself where it has none.
fn is_of(tube: &strutwork_model::model::Tube, name: &str) -> bool {
    if tube.group.is_empty() { tube.name == name } else { tube.group == name }
}

/// What a price rests on: thickening the wall by a tenth of a millimetre, the outside kept.
const COLUMNS: [Column; 5] = [
    Column::number("mass_kg", "weighs", "kg", Digits::Column(4)),
    Column::number("grams_per_nm_per_deg", "stiffness costs", "g per N·m/deg", Digits::Each(3)),
    Column::number("mass_g_per_tenth_mm", "0.1 mm of wall weighs", "g", Digits::Each(3)),
    Column::number("stiffness_nm_per_deg_per_tenth_mm", "and brings", "N·m/deg", Digits::Each(3)),
    Column::number("energy_share_percent", "strain energy", "%", Digits::Each(3)),
];

fn tubes<'a>(model: &'a Model, worth: &'a Worth) -> Vec<Vec<Cell<'a>>> {
    let row = |rank: &'a Rank| {
        let id = model.tube_named(&rank.name)?;
        let mut row = vec![Cell::text(&rank.name), Cell::text(&model.tubes()[id].group)];
        row.extend(cells(rank, worth.energy[id]));
        Some(row)
    };
    worth.tubes.iter().filter_map(row).collect()
}

/// The cells of [`COLUMNS`].
fn cells<'a>(rank: &Rank, share: f64) -> [Cell<'a>; 5] {
    [
        Cell::Number(rank.mass_kg),
        Cell::from(rank.grams_per_nm_per_deg),
        Cell::Number(rank.mass_g_per_mm / 10.0),
        Cell::Number(rank.stiffness_nm_per_deg_per_mm / 10.0),
        Cell::Number(share * 100.0),
    ]
}

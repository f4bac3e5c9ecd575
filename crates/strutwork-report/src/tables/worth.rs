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
pub fn of_groups(worth: &Worth) -> Table<'_> {
    let rows = worth.groups.iter().map(|rank| {
        let share: f64 = rank.tubes.iter().map(|id| worth.energy[*id]).sum();
        let mut row = vec![Cell::text(&rank.name), Cell::Number(rank.tubes.len() as f64)];
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
        // The ranking of single tubes has one in each entry.
        let id = *rank.tubes.first()?;
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

#[cfg(test)]
mod tests {
    use strutwork_model::TubeId;
    use strutwork_model::ids::Id;

    use super::*;

    #[test]
    fn a_group_counts_its_own_tubes_and_none_that_is_called_like_it() {
        let rank = |name: &str, tubes: &[usize]| Rank {
            name: name.to_owned(),
            tubes: tubes.iter().map(|tube| TubeId::new(*tube)).collect(),
            mass_kg: 1.0,
            mass_g_per_mm: 1.0,
            stiffness_nm_per_deg_per_mm: 1.0,
            stiffness_nm_per_deg_per_mm2: 1.0,
            grams_per_nm_per_deg: Some(1.0),
        };
        let worth = Worth {
            case: "twist".to_owned(),
            stiffness_nm_per_deg: 1.0,
            tubes: Vec::new(),
            groups: vec![rank("sill", &[0, 2]), rank("sill", &[1])],
            grams: (0..3).map(|_| None).collect(),
            energy: [0.25, 0.125, 0.5].into_iter().collect(),
        };
        let told: Vec<_> = of_groups(&worth).rows.iter().map(|row| [row[1].as_number(), row[6].as_number()]).collect();
        assert_eq!(told, [[Some(2.0), Some(75.0)], [Some(1.0), Some(12.5)]]);
    }
}

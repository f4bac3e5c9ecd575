//! `buckling.csv` and `buckling_reversed.csv`: load factors at which each case would buckle the frame.

use strutwork_solve::Buckling;
use strutwork_solve::buckling::BucklingMode;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Positive load factors, smallest first, with the tubes that bow.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let caption = "Load factors at which the case would buckle the frame".into();
    of(run, "buckling", caption, |buckling| &buckling.positive)
}

/// Negative load factors, nearest to 0 first: the case's loads turned round.
pub fn reversed<'a>(run: &Run<'a>) -> Table<'a> {
    let caption = "Load factors at which the case turned round would buckle the frame".into();
    of(run, "buckling_reversed", caption, |buckling| &buckling.negative)
}

fn of<'a>(run: &Run<'a>, name: &'static str, caption: String, modes: fn(&Buckling) -> &[BucklingMode]) -> Table<'a> {
    let share = Digits::Decimals(3);
    let columns = vec![
        super::CASE,
        Column::number("mode", "mode", "", Digits::Decimals(0)),
        Column::number("load_factor", "load factor", "", Digits::Each(4)),
        Column::text("tube_1", "tube that bows most"),
        Column::number("energy_share_1", "share of energy", "", share),
        Column::text("tube_2", "second"),
        Column::number("energy_share_2", "share of energy", "", share),
        Column::text("tube_3", "third"),
        Column::number("energy_share_3", "share of energy", "", share),
        Column::number("error_bound", "too high by at most", "", Digits::Each(2)),
    ];
    let mut rows = Vec::new();
    for ((case, _), buckling) in run.pairs().zip(run.asked.buckling.iter().flatten()) {
        for (place, mode) in modes(buckling).iter().enumerate() {
            let mut row = vec![Cell::text(&case.name), Cell::Number((place + 1) as f64), Cell::Number(mode.factor)];
            let bowing = mode.bowing();
            for rank in 0..3 {
                let tube = bowing.get(rank);
                row.push(tube.map_or(Cell::Empty, |(tube, _)| Cell::text(run.tube(*tube))));
                row.push(Cell::from(tube.map(|(_, share)| *share)));
            }
            row.push(Cell::from(mode.error_bound));
            rows.push(row);
        }
    }
    Table { name, caption, columns, rows }
}

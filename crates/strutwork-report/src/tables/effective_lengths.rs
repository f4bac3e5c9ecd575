//! `effective_lengths.csv`: buckling lengths of tubes from the frame's own load factors.

use strutwork_model::units::to_mm;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// A row for each case and each tube in compression that bows in one of the modes found.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let columns = vec![
        super::CASE,
        Column::text("tube", "tube"),
        Column::number("load_factor", "load factor", "", Digits::Each(4)),
        Column::number("n_cr_n", "N_cr", "N", Digits::Column(4)),
        Column::number("lcr_weak_mm", "L_cr weak", "mm", Digits::Decimals(0)),
        Column::number("lcr_strong_mm", "L_cr strong", "mm", Digits::Decimals(0)),
        Column::number("length_mm", "length", "mm", Digits::Decimals(0)),
        Column::number("energy_share", "share of energy", "", Digits::Decimals(3)),
        Column::number("lcr_y_mm", "L_cr about y", "mm", Digits::Decimals(0)),
        Column::number("lcr_z_mm", "L_cr about z", "mm", Digits::Decimals(0)),
    ];
    let mut rows = Vec::new();
    for ((case, result), buckling) in run.pairs().zip(run.asked.buckling.iter().flatten()) {
        for of in buckling.effective_lengths(run.model, result) {
            let [y, z] = of.axes.map(|axis| Cell::from(axis.map(|axis| to_mm(axis.length))));
            rows.push(vec![
                Cell::text(&case.name),
                Cell::text(run.tube(of.tube)),
                Cell::Number(of.factor),
                Cell::Number(of.critical),
                Cell::Number(to_mm(of.lengths[0])),
                Cell::Number(to_mm(of.lengths[1])),
                Cell::Number(to_mm(run.model.length(of.tube))),
                Cell::Number(of.energy),
                y,
                z,
            ]);
        }
    }
    let caption = "Buckling lengths from the load factors of the whole frame".into();
    Table { name: "effective_lengths", caption, columns, rows }
}

//! `second_order.csv`, `second_order_tubes.csv` and `second_order_passes.csv`: how much cases grow on the frame as it bends.

use strutwork_model::units::{to_mm, to_nm_per_deg};
use strutwork_solve::SolveError;
use strutwork_solve::second_order::{Grown, Pass, SecondOrder};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// A row for each case and quantity; a case that has no result has one row that says why.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let columns = vec![
        super::CASE,
        Column::text("state", "state"),
        Column::text("quantity", "greatest"),
        Column::text("item", "of"),
        Column::text("unit", "unit"),
        Column::number("first_order", "first order", "", Digits::Each(4)),
        Column::number("second_order", "second order", "", Digits::Each(4)),
        Column::number("amplification", "growth", "", Digits::Decimals(3)),
        Column::number("stands_share", "stands", "", Digits::Decimals(4)),
        Column::number("passes", "passes", "", Digits::Decimals(0)),
        Column::number("left_forces", "left of forces", "", Digits::Power),
        Column::number("left_movements", "left of movements", "", Digits::Power),
        Column::number("pieces", "pieces", "", Digits::Decimals(0)),
        Column::number("piece_error", "piece error", "", Digits::Power),
    ];
    let mut rows = Vec::new();
    for case in &run.results.cases {
        let Some(second) = &case.second_order else { continue };
        for (quantity, item, unit, to, grown) in quantities(run, second) {
            let mut row = vec![
                Cell::text(&case.name),
                Cell::text("steady"),
                Cell::text(quantity),
                item,
                Cell::text(unit),
                Cell::Number(to(grown.first)),
                Cell::Number(to(grown.second)),
                Cell::from(grown.factor()),
                Cell::Number(1.0),
            ];
            row.extend(passed(&second.passes));
            row.extend([Cell::Number(second.pieces as f64), Cell::Number(second.piece_error)]);
            rows.push(row);
        }
    }
    for refused in &run.results.refused {
        let (state, share) = match refused.error {
            SolveError::Buckles { factor, .. } => ("buckles", Some(factor)),
            SolveError::Unsteady { .. } => ("not steady", None),
            _ => ("not solved", None),
        };
        let mut row = vec![Cell::text(&refused.case), Cell::text(state)];
        row.extend((0..6).map(|_| Cell::Empty));
        row.push(Cell::from(share));
        row.extend(passed(&refused.passes));
        row.extend([Cell::Empty, Cell::Empty]);
        rows.push(row);
    }
    let caption = "First and second order: the greatest of each case on the frame as drawn and as it bends".into();
    Table { name: "second_order", caption, columns, rows }
}

/// What is compared, of what, in which unit, how it is converted, and both values.
type Quantity<'a> = (&'static str, Cell<'a>, &'static str, fn(f64) -> f64, Grown);

fn quantities<'a>(run: &Run<'a>, second: &SecondOrder) -> Vec<Quantity<'a>> {
    let growth = &second.growth;
    let (joint, moved) = growth.displacement;
    let (tube, moment) = growth.moment;
    let mut list: Vec<Quantity<'a>> = vec![
        ("displacement", Cell::text(run.joint(joint)), "mm", to_mm, moved),
        ("moment", Cell::text(run.tube(tube)), "N·m", |moment| moment, moment),
    ];
    if let Some(stiffness) = growth.stiffness {
        list.push(("torsional stiffness", Cell::text("frame"), "N·m/deg", to_nm_per_deg, stiffness));
    }
    list
}

/// How many passes, and what the last one changed.
fn passed<'a>(passes: &[Pass]) -> [Cell<'a>; 3] {
    let last = passes.last();
    [
        Cell::Number(passes.len() as f64),
        Cell::from(last.map(|pass| pass.forces)),
        Cell::from(last.map(|pass| pass.movements)),
    ]
}

/// A row for each case and tube: the greatest bending moment along it.
pub fn of_tubes<'a>(run: &Run<'a>) -> Table<'a> {
    let columns = vec![
        super::CASE,
        Column::text("tube", "tube"),
        Column::number("moment_first_nm", "first order", "N·m", Digits::Column(4)),
        Column::number("moment_second_nm", "second order", "N·m", Digits::Column(4)),
        Column::number("amplification", "growth", "", Digits::Decimals(3)),
    ];
    let mut rows = Vec::new();
    for case in &run.results.cases {
        let Some(second) = &case.second_order else { continue };
        for (tube, grown) in second.growth.tubes.iter_with_id() {
            rows.push(vec![
                Cell::text(&case.name),
                Cell::text(run.tube(tube)),
                Cell::Number(grown.first),
                Cell::Number(grown.second),
                Cell::from(grown.factor()),
            ]);
        }
    }
    let caption = "The greatest bending moment along each tube in first and in second order".into();
    Table { name: "second_order_tubes", caption, columns, rows }
}

/// A row for each pass of each case: what it changed.
pub fn passes<'a>(run: &Run<'a>) -> Table<'a> {
    let columns = vec![
        super::CASE,
        Column::number("pass", "pass", "", Digits::Decimals(0)),
        Column::number("change_forces", "change of forces", "", Digits::Power),
        Column::number("change_movements", "change of movements", "", Digits::Power),
    ];
    let solved = run.results.cases.iter().filter_map(|case| Some((&case.name, &case.second_order.as_ref()?.passes)));
    let all = solved.chain(run.results.refused.iter().map(|refused| (&refused.case, &refused.passes)));
    let rows = all.flat_map(|(name, passes)| {
        passes.iter().enumerate().map(|(place, pass)| {
            let numbers = [(place + 1) as f64, pass.forces, pass.movements].map(Cell::Number);
            std::iter::once(Cell::text(name)).chain(numbers).collect()
        })
    });
    let caption = "What each pass of second order changed".into();
    Table { name: "second_order_passes", caption, columns, rows: rows.collect() }
}

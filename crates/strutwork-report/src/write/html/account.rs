//! What acts in a case as a page of paper shows it: line by line about the centre of gravity, to be added up by hand.

use strutwork_loads::{Account, Entry, LoadCase, MassModel, account};
use strutwork_model::units::{STANDARD_GRAVITY, to_mm};
use strutwork_solve::CaseResult;

use crate::number::{fixed, power, significant};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::model::place;
use super::table::TableView;

/// Reactions that are told one by one; more are told as one line.
const SUPPORTS: usize = 12;

/// The account of a case.
pub(super) struct AccountView {
    pub(super) table: TableView,
    /// The mass, its centre, its inertia and its acceleration: what the lines of weight and inertia follow from.
    pub(super) words: Vec<String>,
}

impl AccountView {
    pub(super) fn of(run: &Run<'_>, mass: &MassModel, case: &LoadCase, result: &CaseResult) -> Self {
        let mut account = account(case, run.model, mass);
        account.react(&result.reactions, run.model, SUPPORTS);
        let mut words = words(mass, case);
        words.push(format!(
            "Out of balance by {} of all forces; up to 10⁻⁸ is put down to rounding.",
            power(result.trust.imbalance)
        ));
        Self { table: TableView::of(&table(run, case, &account), "cases.csv"), words }
    }
}

fn table<'a>(run: &Run<'a>, case: &'a LoadCase, account: &Account) -> Table<'a> {
    let tenths = Digits::Decimals(1);
    let rows = account.lines.iter().map(|line| {
        let mut row = vec![name(run, case, line.entry)];
        row.extend(match line.at {
            Some(at) => place(at),
            None => [Cell::Empty, Cell::Empty, Cell::Empty],
        });
        row.extend(line.load.map(Cell::Number));
        row
    });
    let mut rows: Vec<Vec<Cell<'a>>> = rows.collect();
    let mut sum = vec![Cell::text("sum"), Cell::Empty, Cell::Empty, Cell::Empty];
    sum.extend(account.sum.map(Cell::Number));
    rows.push(sum);
    let number = |key, title, unit, digits| Column::number(key, title, unit, digits);
    Table {
        name: "account",
        caption: "What acts, and that it is in balance. Moments about the centre of gravity: those of the line, and (r − r_cg) × F"
            .into(),
        columns: vec![
            Column::text("what", "what"),
            number("x_mm", "x", "mm", tenths),
            number("y_mm", "y", "mm", tenths),
            number("z_mm", "z", "mm", tenths),
            number("fx_n", "Fx", "N", tenths),
            number("fy_n", "Fy", "N", tenths),
            number("fz_n", "Fz", "N", tenths),
            number("mx_nm", "Mx", "N·m", tenths),
            number("my_nm", "My", "N·m", tenths),
            number("mz_nm", "Mz", "N·m", tenths),
        ],
        rows,
    }
}

fn name<'a>(run: &Run<'a>, case: &'a LoadCase, entry: Entry) -> Cell<'a> {
    match entry {
        Entry::Wheel(wheel) => Cell::from(format!("{} wheel", wheel.name())),
        Entry::Placed(place) => case.derivation.placed.get(place).map_or(Cell::Empty, |placed| Cell::text(&placed.on)),
        Entry::AllPlaced(count) => Cell::from(format!("{count} loads put one by one")),
        Entry::Weight => Cell::text("weight m·g"),
        Entry::Inertia => Cell::text("inertia −m·a, −I·α"),
        Entry::Support(joint) => Cell::from(format!("support at {}", run.joint(joint))),
        Entry::Supports(count) => Cell::from(format!("{count} supports together")),
        Entry::Else => Cell::text("all else that is applied"),
    }
}

fn words(mass: &MassModel, case: &LoadCase) -> Vec<String> {
    let mut words = Vec::new();
    let [x, y, z] = mass.centre.map(|metres| fixed(to_mm(metres), 1));
    if mass.total > 0.0 {
        let [[xx, xy, xz], [_, yy, yz], [.., zz]] = mass.inertia.map(|row| row.map(|value| significant(value, 5)));
        let mut line =
            format!("m = {} kg with its centre of gravity at {x} / {y} / {z} mm", significant(mass.total, 6));
        if case.derivation.acceleration.is_some() {
            line.push_str(&format!(
                "; I about it: xx {xx}, yy {yy}, zz {zz}, xy {xy}, xz {xz}, yz {yz} kg·m² (a tensor: I_xy is −Σ m·x·y)"
            ));
        }
        words.push(format!("{line}."));
    }
    if let Some(a) = case.derivation.acceleration {
        let [x, y, z, about_x, about_y, about_z] = a.map(|value| significant(value, 5));
        let [gx, gy, gz] = [0, 1, 2].map(|axis| fixed(a[axis] / STANDARD_GRAVITY, 3));
        words.push(format!(
            "Inertia balances the sums of all other lines: a = ΣF/m = {x} / {y} / {z} m/s² ({gx} / {gy} / {gz} g), \
             α = I⁻¹·ΣM = {about_x} / {about_y} / {about_z} rad/s². Tubes count as thin rods, panels as thin plates."
        ));
    }
    words
}

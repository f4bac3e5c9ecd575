//! How a case is in balance: accelerations first, as the check on whether the loads make sense; then how a free vehicle was
//! held inside while it was solved.

use strutwork_loads::LoadCase;
use strutwork_model::units::STANDARD_GRAVITY;
use strutwork_solve::CaseResult;
use strutwork_solve::results::Relief;

use crate::number::{fixed, power};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::summary::Fact;
use super::table::TableView;

/// Accelerations below this, g and rad/s², are rounding beside any load that a vehicle meets.
const NOTHING: f64 = 1e-6;

/// The balance of a case with inertia.
pub(super) struct BalanceView {
    pub(super) acceleration: Option<TableView>,
    pub(super) words: &'static str,
    /// Empty for a held case.
    pub(super) held_inside: String,
}

/// `None` for a case that is held and has no inertia.
pub(super) fn of(run: &Run<'_>, case: &LoadCase, result: &CaseResult) -> Option<BalanceView> {
    let acceleration = case.derivation.acceleration;
    if acceleration.is_none() && !case.free {
        return None;
    }
    let words = match acceleration {
        None => "What acts balances by itself; no inertia was added.",
        Some(a) if is_nothing(&a) => {
            "Already balanced: what acts, weight included, needs no inertia to balance it. All accelerations are zero."
        }
        Some(_) => {
            "The check to make first: these are the accelerations that the loads would give this vehicle. Where they are \
             not those of the manoeuvre, the loads or the masses are wrong."
        }
    };
    let shown = acceleration.filter(|a| !is_nothing(a));
    Some(BalanceView {
        acceleration: shown.map(|a| table(&a)),
        words,
        held_inside: result.relief.as_ref().map_or_else(String::new, |relief| held_inside(run, relief)),
    })
}

/// The accelerations of a case as large figures.
pub(super) fn fact(case: &LoadCase) -> Option<Fact> {
    let a = case.derivation.acceleration?;
    let [x, y, z] = [0, 1, 2].map(|axis| fixed(a[axis] / STANDARD_GRAVITY, 2));
    let [about_x, about_y, about_z] = [3, 4, 5].map(|axis| fixed(a[axis], 1));
    let note = if is_nothing(&a) {
        "x / y / z: already balanced".to_owned()
    } else {
        format!("x / y / z; about them {about_x} / {about_y} / {about_z} rad/s²")
    };
    Some(Fact { what: "Acceleration".into(), value: format!("{x} / {y} / {z}"), unit: "g", note, over: false })
}

fn is_nothing(a: &[f64; 6]) -> bool {
    a[..3].iter().all(|value| (value / STANDARD_GRAVITY).abs() < NOTHING) && a[3..].iter().all(|v| v.abs() < NOTHING)
}

fn held_inside(run: &Run<'_>, relief: &Relief) -> String {
    let held: Vec<String> =
        relief.held.iter().map(|(joint, dof)| format!("{} of {}", dof.name(), run.joint(*joint))).collect();
    format!(
        "Nothing holds the vehicle. While it was solved, {} were held: they fix where it is and strain nothing. Left over at \
         them: {} of the loads; up to 10⁻⁹ is put down to rounding. Displacements are given free of rigid motion: what is \
         left is the frame's own deformation.",
        held.join(", "),
        power(relief.left_over),
    )
}

fn table(a: &[f64; 6]) -> TableView {
    let mut row = vec![Cell::text("at the centre of gravity")];
    row.extend(a[..3].iter().map(|value| Cell::Number(value / STANDARD_GRAVITY)));
    row.extend(a[3..].iter().map(|value| Cell::Number(*value)));
    let linear = Digits::Decimals(3);
    let turning = Digits::Decimals(2);
    let table = Table {
        name: "acceleration",
        caption: "Acceleration of the vehicle; its inertia balances what acts".into(),
        columns: vec![
            Column::text("where", "where"),
            Column::number("ax_g", "ax", "g", linear),
            Column::number("ay_g", "ay", "g", linear),
            Column::number("az_g", "az", "g", linear),
            Column::number("arx", "about x", "rad/s²", turning),
            Column::number("ary", "about y", "rad/s²", turning),
            Column::number("arz", "about z", "rad/s²", turning),
        ],
        rows: vec![row],
    };
    TableView::of(&table, "cases.csv")
}

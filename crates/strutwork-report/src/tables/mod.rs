//! The tables of a run, one a file. What is computed elsewhere is arranged here; only units change.
//!
//! The list, in the order in which they are written:
//! - [`displacements`], [`member_forces`], [`reactions`], [`cases`], [`findings`]: the result files;
//! - [`governing`]: the check and the case nearest to its limit of every item;
//! - [`applied_loads`]: everything that acts, a value a row;
//! - [`twist`]: the twist along the frame of every case that measures it;
//! - [`envelope`]: the least and the greatest of every tube over all cases;
//! - [`mass_table`]: what it weighs, item by item;
//! - [`mounts`], [`links`], [`panels`], [`body_movements`], [`bays`], [`soft_ends`], [`welds`]: bolts of bodies, suspension
//!   links, skins, bodies, bays, soft joints, welds; written only where the model has them;
//! - [`worth`]: what stiffness costs on each tube; written only where a case measured a twist;
//! - [`modes`], [`frequency_shift`], [`buckling`], [`effective_lengths`], [`second_order`]: written only where they were asked
//!   for;
//! - [`rig`], [`weighed_parts`]: what was measured, written only where the folder holds it.

pub mod applied_loads;
pub mod bays;
pub mod body_movements;
pub mod buckling;
pub mod cases;
pub mod displacements;
pub mod effective_lengths;
pub mod envelope;
pub mod findings;
pub mod frequency_shift;
pub mod governing;
pub mod links;
pub mod mass_table;
pub mod member_forces;
pub mod modes;
pub mod mounts;
pub mod panels;
pub mod reactions;
pub mod rig;
pub mod second_order;
pub mod soft_ends;
pub mod twist;
pub mod weighed_parts;
pub mod welds;
pub mod worth;

use strutwork_model::units::{to_deg, to_mm};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Makes one table of a run.
pub type Make = for<'a> fn(&Run<'a>) -> Table<'a>;

/// Every table that is written to a file, in order, and whether it is left out where it has no rows: tables of what not
/// every model has. Each is made by itself, so that only one of them is in memory at a time.
pub const ALL: &[(Make, bool)] = &[
    (displacements::table, false),
    (member_forces::table, false),
    (reactions::table, false),
    (cases::table, false),
    (findings::table, false),
    (governing::table, false),
    (applied_loads::table, false),
    (twist::table, false),
    (envelope::table, false),
    (mass_table::table, false),
    (mounts::table, true),
    (links::table, true),
    (panels::table, true),
    (body_movements::table, true),
    (bays::table, true),
    (soft_ends::table, true),
    (welds::table, true),
    (worth::table, true),
    (modes::table, true),
    (frequency_shift::table, true),
    (modes::under, true),
    (buckling::table, true),
    (buckling::reversed, true),
    (effective_lengths::table, true),
    (second_order::table, true),
    (second_order::of_tubes, true),
    (second_order::passes, true),
    (rig::stiffness, true),
    (rig::stations, true),
    (rig::bays, true),
    (rig::readings, true),
    (weighed_parts::table, true),
];

/// The column that names the case.
const CASE: Column = Column::text("case", "case");

/// Three forces and three moments, global axes.
const FORCES: [Column; 6] = [
    Column::number("fx_n", "Fx", "N", Digits::Column(4)),
    Column::number("fy_n", "Fy", "N", Digits::Column(4)),
    Column::number("fz_n", "Fz", "N", Digits::Column(4)),
    Column::number("mx_nm", "Mx", "N·m", Digits::Column(4)),
    Column::number("my_nm", "My", "N·m", Digits::Column(4)),
    Column::number("mz_nm", "Mz", "N·m", Digits::Column(4)),
];

/// Displacements m, rad → cells in mm, degrees.
fn movement_cells<'a>(movement: &[f64; 6]) -> [Cell<'a>; 6] {
    let [x, y, z, rx, ry, rz] = *movement;
    [to_mm(x), to_mm(y), to_mm(z), to_deg(rx), to_deg(ry), to_deg(rz)].map(Cell::Number)
}

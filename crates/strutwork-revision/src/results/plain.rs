//! Tables of which each row is about one thing and each number a quantity of it: one list says how they are read.

use std::borrow::Cow;

use strutwork_model::InputFiles;

use super::table::{Met, Table};
use super::{Kind, Quantity, ResultSet};

/// How a table is read.
#[derive(Debug, Clone, Copy)]
pub struct TableOf {
    /// Its file.
    pub file: &'static str,
    /// What its numbers are of.
    pub kind: Kind,
    /// Whether it has a column `case`.
    pub by_case: bool,
    /// The columns that name what a row is about, and what is put between their names.
    pub subject: (&'static [&'static str], &'static str),
    /// The columns of numbers, each with its unit as a reader sees it.
    pub numbers: &'static [(&'static str, &'static str)],
}

const MOVEMENTS: &[(&str, &str)] =
    &[("ux_mm", "mm"), ("uy_mm", "mm"), ("uz_mm", "mm"), ("rx_deg", "deg"), ("ry_deg", "deg"), ("rz_deg", "deg")];
const FORCES: &[(&str, &str)] =
    &[("fx_n", "N"), ("fy_n", "N"), ("fz_n", "N"), ("mx_nm", "N·m"), ("my_nm", "N·m"), ("mz_nm", "N·m")];

const fn table(
    file: &'static str,
    kind: Kind,
    by_case: bool,
    subject: &'static [&'static str],
    between: &'static str,
    numbers: &'static [(&'static str, &'static str)],
) -> TableOf {
    TableOf { file, kind, by_case, subject: (subject, between), numbers }
}

/// Every table that is read so, in the order of the list of quantities.
pub const TABLES: &[TableOf] = &[
    table("buckling.csv", Kind::Buckling, true, &["mode"], "", &[("load_factor", "")]),
    table("buckling_reversed.csv", Kind::BucklingReversed, true, &["mode"], "", &[("load_factor", "")]),
    table(
        "frequency_shift.csv",
        Kind::Shift,
        false,
        &["mode", "empty_mode"],
        " driven, empty ",
        &[("empty_hz", "Hz"), ("driven_hz", "Hz"), ("shift_percent", "%"), ("mac", "")],
    ),
    table(
        "mounts.csv",
        Kind::Mount,
        true,
        &["body", "joint"],
        " at ",
        &[
            ("axial_n", "N"),
            ("shear_n", "N"),
            ("moment_nm", "N·m"),
            ("fx_n", "N"),
            ("fy_n", "N"),
            ("fz_n", "N"),
            ("mx_nm", "N·m"),
            ("my_nm", "N·m"),
            ("mz_nm", "N·m"),
        ],
    ),
    table(
        "links.csv",
        Kind::Link,
        true,
        &["corner", "link"],
        " ",
        &[("force_n", "N"), ("fx_n", "N"), ("fy_n", "N"), ("fz_n", "N")],
    ),
    table("reactions.csv", Kind::Reaction, true, &["joint"], "", FORCES),
    table("twist.csv", Kind::Twist, true, &["left", "right"], " and ", &[("twist_deg", "deg")]),
    table("displacements.csv", Kind::Joint, true, &["joint"], "", MOVEMENTS),
    table(
        "panels.csv",
        Kind::Panel,
        true,
        &["panel"],
        "",
        &[
            ("buckling_ratio", ""),
            ("flow_n_per_mm", "N/mm"),
            ("stress_mpa", "MPa"),
            ("buckling_mpa", "MPa"),
            ("fastener_n", "N"),
            ("bond_mpa", "MPa"),
        ],
    ),
    table("body_movements.csv", Kind::Body, true, &["body"], "", MOVEMENTS),
    table(
        "bays.csv",
        Kind::Bay,
        false,
        &["joints"],
        "",
        &[("stiffness_n_per_mm", "N/mm"), ("bare_n_per_mm", "N/mm"), ("along_n_per_mm", "N/mm")],
    ),
    table(
        "effective_lengths.csv",
        Kind::EffectiveLength,
        true,
        &["tube"],
        "",
        &[("n_cr_n", "N"), ("lcr_weak_mm", "mm"), ("lcr_strong_mm", "mm")],
    ),
    table(
        "second_order_tubes.csv",
        Kind::SecondOrder,
        true,
        &["tube"],
        "",
        &[("moment_second_nm", "N·m"), ("amplification", "")],
    ),
    table(
        "welds.csv",
        Kind::Weld,
        false,
        &["tube", "joint"],
        " at ",
        &[("throat_mm", "mm"), ("length_mm", "mm"), ("metal_g", "g")],
    ),
    table(
        "soft_ends.csv",
        Kind::SoftEnd,
        false,
        &["tube", "joint"],
        " at ",
        &[("ux_n_per_mm", "N/mm"), ("ry_nm_per_deg", "N·m/deg"), ("rz_nm_per_deg", "N·m/deg")],
    ),
];

impl TableOf {
    pub(super) fn read(&self, files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
        let Some(table) = Table::read(files, self.file, met) else { return };
        let case = self.by_case.then(|| table.column("case", met));
        let (names, between) = self.subject;
        let names: Vec<Option<usize>> = names.iter().map(|name| table.column(name, met)).collect();
        let numbers: Vec<Option<usize>> = self.numbers.iter().map(|(name, _)| table.column(name, met)).collect();
        let whole = case != Some(None) && names.iter().chain(&numbers).all(Option::is_some);
        if !whole {
            return;
        }
        for row in table.rows() {
            let mut subject = names.iter().flatten().map(|&name| row.text(name)).collect::<Vec<_>>().join(between);
            if self.kind == Kind::Bay {
                subject = sorted(&subject);
            }
            for (&(quantity, unit), column) in self.numbers.iter().zip(numbers.iter().flatten()) {
                let Some(value) = row.number(*column, met) else { continue };
                set.quantities.push(Quantity {
                    kind: self.kind,
                    case: case.flatten().map_or("", |case| row.text(case)).to_owned(),
                    subject: subject.clone(),
                    quantity: Cow::Borrowed(quantity),
                    unit: Cow::Borrowed(unit),
                    value,
                });
            }
        }
    }
}

/// The corners of a bay in the order of their names: at which of them it begins depends on the order of rows.
fn sorted(corners: &str) -> String {
    let mut names: Vec<&str> = corners.split(' ').collect();
    names.sort_unstable();
    names.join(" ")
}

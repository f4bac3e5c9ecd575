//! `member_forces.csv`: of all the stations along a tube, what happens at its two ends and the greatest between them.
//!
//! Stations stand where a run needs them, and so not at the same places in two runs. The ends and the greatest are what two
//! runs have in common.

use std::borrow::Cow;

use strutwork_model::InputFiles;

use super::table::{Met, Table};
use super::{Kind, Quantity, ResultSet};

/// A column of forces or stresses, its unit, and the names of what is read off it at `from`, at `to` and along the tube.
#[derive(Debug, Clone, Copy)]
pub struct Along {
    /// The column.
    pub column: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// The quantities at the `from` end and at the `to` end, with sign; `None` for stresses, of which only the greatest counts.
    pub ends: Option<[&'static str; 2]>,
    /// The quantity that is the greatest magnitude along the tube.
    pub greatest: &'static str,
}

impl Along {
    /// Whether a quantity is read off this column.
    pub fn is(&self, quantity: &str) -> bool {
        quantity == self.greatest || self.ends.is_some_and(|ends| ends.contains(&quantity))
    }
}

const fn along(
    column: &'static str,
    unit: &'static str,
    ends: Option<[&'static str; 2]>,
    greatest: &'static str,
) -> Along {
    Along { column, unit, ends, greatest }
}

/// What is read off.
pub const ALONG: [Along; 9] = [
    along("n_n", "N", Some(["n_from_n", "n_to_n"]), "n_greatest_n"),
    along("vy_n", "N", Some(["vy_from_n", "vy_to_n"]), "vy_greatest_n"),
    along("vz_n", "N", Some(["vz_from_n", "vz_to_n"]), "vz_greatest_n"),
    along("t_nm", "N·m", Some(["t_from_nm", "t_to_nm"]), "t_greatest_nm"),
    along("my_nm", "N·m", Some(["my_from_nm", "my_to_nm"]), "my_greatest_nm"),
    along("mz_nm", "N·m", Some(["mz_from_nm", "mz_to_nm"]), "mz_greatest_nm"),
    along("sigma_max_mpa", "MPa", None, "sigma_greatest_mpa"),
    along("tau_max_mpa", "MPa", None, "tau_greatest_mpa"),
    along("von_mises_mpa", "MPa", None, "von_mises_greatest_mpa"),
];

/// A tube in a case, as far as its stations were read. They stand together, from end to end.
struct Tube<'t> {
    case: &'t str,
    tube: &'t str,
    first: [Option<f64>; 9],
    last: [Option<f64>; 9],
    greatest: [Option<f64>; 9],
}

pub(super) fn read(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "member_forces.csv", met) else { return };
    let Some([case, tube]) = table.columns(["case", "tube"], met) else { return };
    let Some(columns) = table.columns(ALONG.map(|of| of.column), met) else { return };
    let mut open: Option<Tube<'_>> = None;
    for row in table.rows() {
        let values = columns.map(|column| row.number(column, met));
        match &mut open {
            Some(of) if of.case == row.text(case) && of.tube == row.text(tube) => {
                of.last = values;
                for (greatest, value) in of.greatest.iter_mut().zip(values) {
                    *greatest = larger(*greatest, value);
                }
            }
            _ => {
                close(open.take(), set);
                let greatest = values.map(|value| value.map(f64::abs));
                open = Some(Tube { case: row.text(case), tube: row.text(tube), first: values, last: values, greatest });
            }
        }
    }
    close(open, set);
}

fn larger(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    match (a, b.map(f64::abs)) {
        (Some(a), Some(b)) => Some(a.max(b)),
        (a, b) => a.or(b),
    }
}

fn close(tube: Option<Tube<'_>>, set: &mut ResultSet) {
    let Some(tube) = tube else { return };
    let mut add = |quantity: &'static str, unit: &'static str, value: Option<f64>| {
        if let Some(value) = value {
            set.quantities.push(Quantity {
                kind: Kind::Tube,
                case: tube.case.to_owned(),
                subject: tube.tube.to_owned(),
                quantity: Cow::Borrowed(quantity),
                unit: Cow::Borrowed(unit),
                value,
            });
        }
    };
    for (place, of) in ALONG.iter().enumerate() {
        if let Some([from, to]) = of.ends {
            add(from, of.unit, tube.first[place]);
            add(to, of.unit, tube.last[place]);
        }
        add(of.greatest, of.unit, tube.greatest[place]);
    }
}

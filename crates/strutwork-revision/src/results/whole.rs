//! `cases.csv`, `mass_table.csv`, `modes.csv`, `modes_under.csv`, `applied_loads.csv` and `second_order.csv`: tables of
//! which each is read in its own way.

use std::borrow::Cow;
use std::collections::BTreeMap;

use strutwork_model::InputFiles;

use super::table::{Met, Row, Table};
use super::{Kind, Quantity, ResultSet};

pub(super) fn read(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    masses(files, set, met);
    cases(files, set, met);
    modes(files, set, met);
    modes_under(files, set, met);
    second_order(files, set, met);
    loads(files, set, met);
}

/// Quantities of cases.csv that say the same in every case.
pub const OF_FRAME: [&str; 10] = [
    "static_front_left",
    "static_front_right",
    "static_rear_left",
    "static_rear_right",
    "torsional_stiffness_soft",
    "torsional_stiffness_rigid",
    "soft_ends",
    "frame_mass_per_stiffness",
    "chassis_share",
    "roll_stiffness_in_series",
];

/// Quantities of cases.csv that say how far the numbers can be trusted.
pub const OF_TRUST: [&str; 7] =
    ["imbalance", "residual", "refinements", "condition", "smallest_pivot", "equations", "relief_left_over"];

fn cases(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "cases.csv", met) else { return };
    let Some([case, quantity, value, unit]) = table.columns(["case", "quantity", "value", "unit"], met) else { return };
    let mut told_of_frame: Vec<String> = Vec::new();
    let mut stiffness = None;
    for row in table.rows() {
        let (case, name) = (row.text(case), row.text(quantity));
        if set.cases.last().is_none_or(|last| last != case) {
            set.cases.push(case.to_owned());
        }
        let Some(value) = row.number(value, met) else { continue };
        let share = name.strip_suffix("_share").is_some_and(|wheel| OF_FRAME[..4].contains(&wheel));
        // The mass is that of mass_table.csv.
        if share || name == "mass" || name.starts_with("cg_") {
            continue;
        }
        let mut kind = Kind::Case;
        let (mut of_case, mut subject, mut quantity) = (case, "", name);
        if OF_FRAME.contains(&name) {
            if told_of_frame.iter().any(|told| told == name) {
                continue;
            }
            told_of_frame.push(name.to_owned());
            (kind, of_case) = (Kind::Frame, "");
        } else if OF_TRUST.contains(&name) {
            kind = Kind::Trust;
        } else if let Some((joint, freedom)) = name.strip_prefix("movement_").and_then(|rest| rest.rsplit_once('_')) {
            (kind, subject, quantity) = (Kind::Movement, joint, freedom);
        }
        // The stiffness that sums the frame up is that of the case with the figures, which come after it.
        if name == "torsional_stiffness" {
            stiffness = Some((value, row.text(unit).to_owned()));
        }
        if name == "frame_mass_per_stiffness"
            && let Some((value, unit)) = stiffness.take()
        {
            set.quantities.push(one(Kind::Frame, "", "", "torsional_stiffness".to_owned().into(), unit.into(), value));
        }
        let (quantity, unit) = (Cow::Owned(quantity.to_owned()), Cow::Owned(row.text(unit).to_owned()));
        set.quantities.push(one(kind, of_case, subject, quantity, unit, value));
    }
}

fn one(
    kind: Kind,
    case: &str,
    subject: &str,
    quantity: Cow<'static, str>,
    unit: Cow<'static, str>,
    value: f64,
) -> Quantity {
    Quantity { kind, case: case.to_owned(), subject: subject.to_owned(), quantity, unit, value }
}

const CENTRE: [(&str, &str); 3] = [("x_mm", "cg_x"), ("y_mm", "cg_y"), ("z_mm", "cg_z")];
const INERTIA: [&str; 6] = ["ixx_kg_m2", "iyy_kg_m2", "izz_kg_m2", "ixy_kg_m2", "ixz_kg_m2", "iyz_kg_m2"];

fn masses(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "mass_table.csv", met) else { return };
    let Some([kind, item, kg]) = table.columns(["kind", "item", "kg"], met) else { return };
    let Some(centre) = table.columns(CENTRE.map(|(column, _)| column), met) else { return };
    let Some(inertia) = table.columns(INERTIA, met) else { return };
    let mut frame = 0.0;
    for row in table.rows() {
        let total = row.text(kind) == "total";
        let (of, subject) = if total {
            (Kind::Frame, String::new())
        } else {
            (Kind::Mass, format!("{} {}", row.text(kind), row.text(item)).trim_end().to_owned())
        };
        let mut add = |quantity: &'static str, unit: &'static str, value: Option<f64>| {
            if let Some(value) = value {
                set.quantities.push(one(of, "", &subject, quantity.into(), unit.into(), value));
            }
        };
        let mass = row.number(kg, met);
        if row.text(kind) == "tubes" {
            frame += mass.unwrap_or(0.0);
        }
        add("mass", "kg", mass);
        for (column, (_, quantity)) in centre.into_iter().zip(CENTRE) {
            add(quantity, "mm", row.number(column, met));
        }
        for (column, quantity) in inertia.into_iter().zip(INERTIA) {
            add(quantity, "kg·m²", row.number(column, met));
        }
    }
    set.quantities.push(one(Kind::Frame, "", "", "frame_mass".into(), "kg".into(), frame));
}

fn modes(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "modes.csv", met) else { return };
    let Some([mode, hertz, name]) = table.columns(["mode", "frequency_hz", "name"], met) else { return };
    for row in table.rows() {
        if let Ok(number) = row.text(mode).parse() {
            set.mode_names.push((number, row.text(name).to_owned()));
        }
        frequency(row, Kind::Mode, "", mode, hertz, set, met);
    }
}

fn modes_under(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "modes_under.csv", met) else { return };
    let Some([case, mode, hertz]) = table.columns(["case", "mode", "frequency_hz"], met) else { return };
    for row in table.rows() {
        frequency(row, Kind::ModeUnder, row.text(case), mode, hertz, set, met);
    }
}

/// A frequency; the rigid modes, which have none, are left out.
fn frequency(row: Row<'_>, kind: Kind, case: &str, mode: usize, hertz: usize, set: &mut ResultSet, met: &mut Met) {
    if let Some(value) = row.number(hertz, met).filter(|value| *value != 0.0) {
        set.quantities.push(one(kind, case, row.text(mode), "frequency_hz".into(), "Hz".into(), value));
    }
}

fn second_order(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "second_order.csv", met) else { return };
    let names = ["case", "state", "quantity", "unit", "second_order", "amplification", "stands_share"];
    let Some([case, state, quantity, unit, second, growth, share]) = table.columns(names, met) else { return };
    for row in table.rows() {
        let case = row.text(case);
        if row.text(state) == "steady" {
            let name = |of: &str| Cow::Owned(format!("{} {of}", row.text(quantity)));
            if let Some(value) = row.number(second, met) {
                let unit = row.text(unit).to_owned().into();
                set.quantities.push(one(Kind::SecondOrder, case, "", name("in second order"), unit, value));
            }
            if let Some(value) = row.number(growth, met) {
                set.quantities.push(one(Kind::SecondOrder, case, "", name("growth"), "".into(), value));
            }
        } else if let Some(value) = row.number(share, met) {
            set.quantities.push(one(Kind::SecondOrder, case, "", "stands_share".into(), "".into(), value));
        }
    }
}

/// What acts, summed where a place is loaded more than once.
fn loads(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "applied_loads.csv", met) else { return };
    let names = ["case", "kind", "subject", "axes", "at", "component", "value", "unit"];
    let Some([case, kind, subject, axes, at, component, value, unit]) = table.columns(names, met) else { return };
    let mut places: BTreeMap<(String, String, String), usize> = BTreeMap::new();
    for row in table.rows() {
        let Some(value) = row.number(value, met) else { continue };
        let subject = format!("{} {}", row.text(kind), row.text(subject));
        let mut quantity = row.text(component).to_owned();
        if row.text(axes) == "local" {
            quantity.push_str(" local");
        }
        if !row.text(at).is_empty() {
            quantity.push_str(&format!(" at {}", row.text(at)));
        }
        let key = (row.text(case).to_owned(), subject, quantity);
        match places.get(&key) {
            Some(&place) => set.quantities[place].value += value,
            None => {
                let unit = row.text(unit).to_owned().into();
                let (case, subject, quantity) = key.clone();
                places.insert(key, set.quantities.len());
                set.quantities.push(Quantity {
                    kind: Kind::Load,
                    case,
                    subject,
                    quantity: quantity.into(),
                    unit,
                    value,
                });
            }
        }
    }
}

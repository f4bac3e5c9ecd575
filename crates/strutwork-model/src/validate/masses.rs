//! Masses that the frame carries.

use super::{Log, Lookup, carriers, names};
use crate::codes;
use crate::model::Mass;
use crate::spec::{MassRow, ModelSpec};
use crate::units::MM;

/// The masses; `None` where one is faulty.
pub(super) fn check(spec: &ModelSpec, look: &Lookup<'_>, log: &mut Log) -> Option<Vec<Mass>> {
    names::Names::of("mass", spec.masses.iter().map(|row| &row.mass), log);
    let masses: Vec<Option<Mass>> = spec.masses.iter().map(|row| one(row, look, log)).collect();
    masses.into_iter().collect()
}

fn one(row: &MassRow, look: &Lookup<'_>, log: &mut Log) -> Option<Mass> {
    let name = &row.mass;
    let who = format!("mass `{}`", name.value);
    let mass = log.finite(&row.kg, name, "`kg`");
    if mass <= 0.0 {
        let message = format!("{who} is {mass} kg");
        log.error(
            codes::MASS_NOT_POSITIVE,
            row.kg.spot,
            name,
            message,
            "write a mass greater than 0, or take the row out",
        );
    }
    let at =
        [("x", &row.x_mm), ("y", &row.y_mm), ("z", &row.z_mm)].map(|(axis, value)| log.finite(value, name, axis) * MM);
    let inertia = inertia(row, &who, log);
    if row.carrier.is_empty() {
        let message = format!("nothing carries the {who}");
        let help = "name the joints that carry it in `joints`, separated by spaces, or write `body: NAME`";
        log.error(codes::MASS_NOT_CARRIED, name.spot, name, message, help);
        return None;
    }
    let driven = driven(row, &who, log);
    let carrier = carriers::any(&row.carrier, &who, look, log)?;
    (mass > 0.0 && at.iter().all(|value| value.is_finite())).then(|| Mass {
        name: name.value.clone(),
        mass,
        at,
        inertia,
        carrier,
        driven,
        note: row.note.clone(),
    })
}

/// Whether it is there only while the vehicle is driven.
fn driven(row: &MassRow, who: &str, log: &mut Log) -> bool {
    let written = row.when.value.as_str();
    if !matches!(written, "" | "driven") {
        let message = format!("{who}: `when` is `{written}`");
        let help =
            "write `driven` for what is there only while the vehicle is driven, or leave the cell empty for always";
        log.error(codes::UNKNOWN_WORD, row.when.spot, &row.mass, message, help);
    }
    written == "driven"
}

/// Moments of inertia about its own centre, kg·m².
fn inertia(row: &MassRow, who: &str, log: &mut Log) -> [f64; 3] {
    let names = ["ixx_kg_m2", "iyy_kg_m2", "izz_kg_m2"];
    let mut inertia = [0.0; 3];
    for ((value, written), column) in inertia.iter_mut().zip(&row.inertia_kg_m2).zip(names) {
        *value = log.finite(written, &row.mass, &format!("`{column}`"));
        if *value < 0.0 {
            let message = format!("{who}: `{column}` is {value}");
            let help = "write a moment of inertia of 0 or more; leave the cell empty for a point";
            log.error(codes::MASS_INERTIA, written.spot, &row.mass, message, help);
        }
    }
    // Ixx + Iyy − Izz = 2∫z²dm, which no body makes negative. One that is not known stays 0, and is not compared.
    for axis in 0..3 {
        let (own, a, b) = (inertia[axis], inertia[(axis + 1) % 3], inertia[(axis + 2) % 3]);
        if own > (a + b) * (1.0 + 1e-6) && a > 0.0 && b > 0.0 {
            let message = format!("{who}: `{}` is greater than the other two together", names[axis]);
            let help =
                "no solid thing has such moments of inertia: check the three, and that they are about its own centre";
            log.warning(codes::MASS_INERTIA, row.inertia_kg_m2[axis].spot, &row.mass, message, help);
        }
    }
    inertia
}

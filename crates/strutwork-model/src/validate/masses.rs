//! Masses that the frame carries.

use std::collections::BTreeSet;

use super::{Log, Lookup, names};
use crate::codes;
use crate::ids::JointId;
use crate::model::{Carrier, Mass};
use crate::spec::{MassRow, ModelSpec, Written};
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
    if let Some(body) = &row.body {
        let message = format!("{who} belongs to the body `{}`, and bodies are not supported yet", body.value);
        let help = "name the joints that carry it instead";
        log.error(codes::NOT_SUPPORTED_YET, body.spot, name, message, help);
        return None;
    }
    if row.joints.is_empty() {
        let message = format!("{who} is carried by no joint");
        let help = "name the joints that carry it in `joints`, separated by spaces";
        log.error(codes::MASS_NOT_CARRIED, name.spot, name, message, help);
        return None;
    }
    let joints = carriers(&row.joints, &who, look, log)?;
    (mass > 0.0 && at.iter().all(|value| value.is_finite())).then(|| Mass {
        name: name.value.clone(),
        mass,
        at,
        inertia: [0.0; 3],
        carrier: Carrier::Joints(joints),
        note: row.note.clone(),
    })
}

/// The joints of a list, each once.
pub(super) fn carriers(names: &[Written<String>], who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Vec<JointId>> {
    let mut joints = Vec::with_capacity(names.len());
    let mut seen = BTreeSet::new();
    let mut good = true;
    for name in names {
        let before = log.0.len();
        let found = look.joint(name, who, log);
        if let Some(fault) = log.0.get_mut(before)
            && names.len() > 1
        {
            fault
                .help
                .push_str("; names in this list are parted by spaces, so a name with a space in it cannot stand here");
        }
        match found {
            Some(joint) if !seen.insert(joint) => {
                let message = format!("{who} lists the joint `{}` twice", name.value);
                log.error(codes::JOINT_LISTED_TWICE, name.spot, name, message, "list it once");
                good = false;
            }
            Some(joint) => joints.push(joint),
            None => good = false,
        }
    }
    good.then_some(joints)
}

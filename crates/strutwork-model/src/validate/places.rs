//! Places at which standard cases act.

use super::{Log, Lookup, carriers, names, words_help};
use crate::codes;
use crate::ids::{IndexVec, JointId};
use crate::model::{Carrier, Joint, Place, Role};
use crate::spec::{ModelSpec, PlaceEntry, Written};
use crate::units::MM;

/// The places; `None` where one is faulty.
pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    joints: &IndexVec<JointId, Joint>,
    log: &mut Log,
) -> Option<Vec<Place>> {
    names::Names::of("place", spec.places.iter().map(|entry| &entry.name), log);
    let places: Vec<Option<Place>> = spec.places.iter().map(|entry| one(entry, look, joints, log)).collect();
    places.into_iter().collect()
}

fn one(entry: &PlaceEntry, look: &Lookup<'_>, joints: &IndexVec<JointId, Joint>, log: &mut Log) -> Option<Place> {
    let name = &entry.name;
    let who = format!("place `{}`", name.value);
    let role = role(entry, &who, log);
    if entry.carrier.is_empty() {
        let help = "add `joints = [\"…\"]` or `body = \"…\"`: what takes the force";
        log.error(
            codes::NO_CARRIER,
            name.spot,
            name,
            format!("nothing on the frame takes the force of the {who}"),
            help,
        );
    }
    let carrier = carriers::on_frame(&entry.carrier, &who, look, log);
    let mass = entry.mass_kg.as_ref().map(|mass| log.finite(mass, name, "`mass_kg`"));
    if let (Some(mass), Some(written)) = (mass, &entry.mass_kg)
        && mass <= 0.0
    {
        let message = format!("{who} has a mass of {mass} kg");
        log.error(
            codes::MASS_NOT_POSITIVE,
            written.spot,
            name,
            message,
            "write a mass greater than 0, or leave it out",
        );
    }
    let at = at(entry, carrier.as_ref(), joints, &who, log);
    Some(Place { name: name.value.clone(), role: role?, group: entry.group.clone(), carrier: carrier?, at: at?, mass })
}

fn role(entry: &PlaceEntry, who: &str, log: &mut Log) -> Option<Role> {
    let words = Role::ALL.map(Role::word);
    let Some(word) = &entry.role else {
        let help = format!("add `role = \"…\"`, one of: {}", words.join(", "));
        log.error(codes::MISSING_KEY, entry.name.spot, &entry.name, format!("the {who} has no `role`"), help);
        return None;
    };
    let role = Role::from_word(word);
    if role.is_none() {
        let message = format!("{who}: `{}` is not a role", word.value);
        log.error(codes::UNKNOWN_WORD, word.spot, word, message, words_help(word, &words));
    }
    role
}

/// Where the force acts, m: as given, or the mean of the joints.
fn at(
    entry: &PlaceEntry,
    carrier: Option<&Carrier>,
    joints: &IndexVec<JointId, Joint>,
    who: &str,
    log: &mut Log,
) -> Option<[f64; 3]> {
    if let Some(given) = &entry.at_mm {
        let at = given.value.map(|value| log.finite(&Written { value, spot: given.spot }, &entry.name, "`at_mm`") * MM);
        return at.iter().all(|value| value.is_finite()).then_some(at);
    }
    match carrier? {
        Carrier::Joints(list) => {
            let mean = |axis: usize| list.iter().map(|&joint| joints[joint].at[axis]).sum::<f64>() / list.len() as f64;
            Some([mean(0), mean(1), mean(2)])
        }
        Carrier::Body(_) | Carrier::Upright(_) => {
            let message = format!("the {who} is on a body, and nothing says where");
            let help = "add `at_mm = [x, y, z]`: where the force acts";
            log.error(codes::POINT_MISSING, entry.name.spot, &entry.name, message, help);
            None
        }
    }
}

//! Axles: wheels, brakes, shafts, roll stiffness.

use super::{Log, Lookup, carriers, words_help};
use crate::codes;
use crate::model::Axle;
use crate::spec::{AxleEntry, VehicleEntry, Written};
use crate::units::{MM, NM_PER_DEG};

/// How far a given share of the roll stiffness may be from what both axles' stiffnesses say.
const SHARES_AGREE: f64 = 0.005;

/// Front and rear.
pub(super) fn check(entry: &VehicleEntry, look: &Lookup<'_>, log: &mut Log) -> [Axle; 2] {
    [0, 1].map(|axle| entry.axles[axle].as_ref().map(|axle| one(axle, look, log)).unwrap_or_default())
}

fn one(entry: &AxleEntry, look: &Lookup<'_>, log: &mut Log) -> Axle {
    let name = &entry.axle;
    let who = format!("the {} axle", name.value);
    let wheel_radius = positive("wheel_radius_mm", &entry.wheel_radius_mm, &who, log);
    let roll_stiffness = positive("roll_stiffness_nm_per_deg", &entry.roll_stiffness_nm_per_deg, &who, log);
    let inboard_brakes = match entry.brakes.as_ref().map(|word| word.as_str()) {
        None | Some("outboard") => false,
        Some("inboard") => true,
        Some(word) => {
            let spot = entry.brakes.as_ref().and_then(|word| word.spot);
            let help = words_help(word, &["outboard", "inboard"]);
            log.error(codes::UNKNOWN_WORD, spot, word, format!("{who}: `{word}` is not a place for brakes"), help);
            false
        }
    };
    let shaft = !entry.shaft.is_empty();
    if inboard_brakes && !shaft {
        let message = format!("{who} has inboard brakes, and nothing says what takes their torque");
        let help = "add `shaft_joints = [\"…\"]` or `shaft_body = \"…\"`: what carries the brakes";
        let spot = entry.brakes.as_ref().and_then(|word| word.spot);
        log.error(codes::MISSING_KEY, spot, "shaft_joints", message, help);
    }
    if (inboard_brakes || shaft) && entry.wheel_radius_mm.is_none() {
        let message =
            format!("{who} has drive shafts, and nothing says how large their torque is for a force at the ground");
        let help = "add `wheel_radius_mm`: the height of the wheel's centre above the ground";
        log.error(codes::MISSING_KEY, name.spot, "wheel_radius_mm", message, help);
    }
    Axle {
        wheel_radius: wheel_radius.map(|radius| radius * MM),
        inboard_brakes,
        shaft_reaction: carriers::on_frame(&entry.shaft, &who, look, log),
        roll_stiffness: roll_stiffness.map(|stiffness| stiffness * NM_PER_DEG),
    }
}

fn positive(key: &str, value: &Option<Written<f64>>, who: &str, log: &mut Log) -> Option<f64> {
    let value = value.as_ref()?;
    let number = log.finite(value, who, &format!("`{key}`"));
    if number <= 0.0 {
        let message = format!("{who}: `{key}` is {number}");
        log.error(codes::VEHICLE_SIZE, value.spot, key, message, "write a value greater than 0, or leave the key out");
    }
    Some(number)
}

/// The front axle's share of the roll stiffness: as given, or from both axles; a fault where neither is there, or where
/// the two disagree.
pub(super) fn roll_share(entry: &VehicleEntry, given: Option<f64>, axles: &[Axle; 2], log: &mut Log) -> f64 {
    let computed = axles[0].roll_stiffness.zip(axles[1].roll_stiffness).map(|(front, rear)| front / (front + rear));
    match (given, computed) {
        (None, None) => {
            let help = "add `front_roll_share = 0.5` (0 to 1): the front axle's part of the roll stiffness; or \
                        `roll_stiffness_nm_per_deg` to both [vehicle.axles.front] and [vehicle.axles.rear]";
            let message = "the vehicle has no `front_roll_share`";
            log.error(codes::MISSING_KEY, entry.vehicle.spot, "vehicle", message, help);
        }
        (Some(given), Some(computed)) if (given - computed).abs() > SHARES_AGREE => {
            let message =
                format!("`front_roll_share` is {given}, and the roll stiffnesses of the two axles give {computed:.3}");
            let spot = entry.front_roll_share.as_ref().and_then(|share| share.spot);
            let help = "take `front_roll_share` out, or correct one of the three";
            log.error(codes::ROLL_SHARES_DISAGREE, spot, "front_roll_share", message, help);
        }
        _ => {}
    }
    given.or(computed).unwrap_or_default()
}

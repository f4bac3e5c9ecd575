//! The vehicle: where its wheels touch the ground, and what carries each.

use super::{Log, Lookup, axles, corners};
use crate::codes;
use crate::model::{Link, Vehicle, Wheel};
use crate::spec::{CornerEntry, ModelSpec, Spot, VehicleEntry, Written};
use crate::units::MM;

/// How far contact points may be from what wheelbase and tracks say, mm.
const AGREE_MM: f64 = 1.0;

/// The table is wrong, and that is said.
pub(super) struct Faulty;

/// Checks the table `[vehicle]`, where there is one. `links` are those of suspension.csv, by wheel.
pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    links: &[Option<Vec<Link>>; 4],
    log: &mut Log,
) -> Result<Option<Vehicle>, Faulty> {
    match &spec.vehicle {
        None => Ok(None),
        Some(entry) => one(entry, look, links, log).map(Some).ok_or(Faulty),
    }
}

fn one(entry: &VehicleEntry, look: &Lookup<'_>, links: &[Option<Vec<Link>>; 4], log: &mut Log) -> Option<Vehicle> {
    let before = log.0.len();
    sizes(entry, log);
    let corners = Wheel::ALL.map(|wheel| corners::check(entry, wheel, links[wheel as usize].as_deref(), look, log));
    let axles = axles::check(entry, look, log);
    let front_roll_share = share("front_roll_share", &entry.front_roll_share, log);
    let front_roll_share = axles::roll_share(entry, front_roll_share, &axles, log);
    let front_brake_share = share("front_brake_share", &entry.front_brake_share, log);
    let front_drive_share = share("front_drive_share", &entry.front_drive_share, log);
    let faulty = log.0.len() > before;
    let [Some(a), Some(b), Some(c), Some(d)] = corners else { return None };
    let vehicle = Vehicle {
        corners: [a, b, c, d],
        axles,
        front_roll_share,
        front_brake_share,
        front_drive_share: front_drive_share.unwrap_or_default(),
        cg_height: entry.cg_height_mm.as_ref().map(|height| height.value * MM),
    };
    if faulty || !sides(entry, &vehicle, log) {
        return None;
    }
    Some(vehicle)
}

/// Sizes that must be finite, and those that must be greater than 0.
fn sizes(entry: &VehicleEntry, log: &mut Log) {
    let all = [
        ("wheelbase_mm", &entry.wheelbase_mm, true),
        ("track_front_mm", &entry.track_front_mm, true),
        ("track_rear_mm", &entry.track_rear_mm, true),
        ("cg_height_mm", &entry.cg_height_mm, true),
        ("front_axle_x_mm", &entry.front_axle_x_mm, false),
        ("ground_z_mm", &entry.ground_z_mm, false),
        ("centre_y_mm", &entry.centre_y_mm, false),
    ];
    for (key, value, positive) in all {
        let Some(value) = value else { continue };
        let number = log.finite(value, "vehicle", &format!("`{key}`"));
        if positive && number <= 0.0 {
            log.error(
                codes::VEHICLE_SIZE,
                value.spot,
                key,
                format!("`{key}` is {number}"),
                "write a size greater than 0",
            );
        }
    }
}

fn share(key: &str, value: &Option<Written<f64>>, log: &mut Log) -> Option<f64> {
    let value = value.as_ref()?;
    let number = log.finite(value, "vehicle", &format!("`{key}`"));
    if !(0.0..=1.0).contains(&number) && number.is_finite() {
        let help = "a share lies between 0 and 1: 55 % is 0.55";
        log.error(codes::SHARE_RANGE, value.spot, key, format!("`{key}` is {number}"), help);
    }
    Some(number)
}

/// Where the wheel touches the ground, m: as given, or from wheelbase and tracks; both must agree.
pub(super) fn contact(entry: &VehicleEntry, corner: &CornerEntry, wheel: Wheel, log: &mut Log) -> Option<[f64; 3]> {
    let (front, left) = match wheel {
        Wheel::FrontLeft => (true, true),
        Wheel::FrontRight => (true, false),
        Wheel::RearLeft => (false, true),
        Wheel::RearRight => (false, false),
    };
    let (track_key, track) =
        if front { ("track_front_mm", &entry.track_front_mm) } else { ("track_rear_mm", &entry.track_rear_mm) };
    let number = |value: &Option<Written<f64>>| value.as_ref().map(|value| value.value);
    let x = if front {
        number(&entry.front_axle_x_mm)
    } else {
        number(&entry.front_axle_x_mm).zip(number(&entry.wheelbase_mm)).map(|(x, base)| x - base)
    };
    let centre = number(&entry.centre_y_mm).unwrap_or(0.0);
    let y = number(track).map(|track| if left { centre + track / 2.0 } else { centre - track / 2.0 });
    let z = number(&entry.ground_z_mm).unwrap_or(0.0);
    let who = corner.wheel.as_str();
    let Some(given) = &corner.contact_mm else {
        let (Some(x), Some(y)) = (x, y) else {
            let mut needed = vec!["front_axle_x_mm", track_key];
            if !front {
                needed.push("wheelbase_mm");
            }
            let message = format!("nothing says where the wheel `{who}` touches the ground");
            let help = format!("give `contact_mm = [x, y, z]` in its table, or {} in [vehicle]", needed.join(", "));
            log.error(codes::CONTACT_MISSING, corner.wheel.spot, who, message, help);
            return None;
        };
        return [x, y, z].iter().all(|number| number.is_finite()).then_some([x * MM, y * MM, z * MM]);
    };
    for axis in 0..3 {
        log.finite(&Written { value: given.value[axis], spot: given.spot }, who, "`contact_mm`");
    }
    // A ground that is not given is not compared: its default is no statement.
    let says = [("x", x), ("y", y), ("z", number(&entry.ground_z_mm))];
    for ((axis, says), given_value) in says.into_iter().zip(given.value) {
        if let Some(says) = says
            && (says - given_value).abs() > AGREE_MM
        {
            let message =
                format!("`{who}`: `contact_mm` says {axis} = {given_value} mm, wheelbase and tracks say {says} mm");
            let help = "correct one of the two, or leave one out";
            log.error(codes::CONTACTS_DISAGREE, given.spot, who, message, help);
        }
    }
    given.value.iter().all(|number| number.is_finite()).then(|| given.value.map(|number| number * MM))
}

/// Left wheels to the left of right ones, front wheels before rear ones.
fn sides(entry: &VehicleEntry, vehicle: &Vehicle, log: &mut Log) -> bool {
    let spot = |wheel: Wheel| -> Option<Spot> {
        let corner = entry.corners[wheel as usize].as_ref()?;
        corner.contact_mm.as_ref().and_then(|contact| contact.spot).or(corner.wheel.spot)
    };
    let at = |wheel: Wheel, axis: usize| vehicle.corner(wheel).contact[axis];
    let pairs = [
        (Wheel::FrontLeft, Wheel::FrontRight, 1),
        (Wheel::RearLeft, Wheel::RearRight, 1),
        (Wheel::FrontLeft, Wheel::RearLeft, 0),
        (Wheel::FrontRight, Wheel::RearRight, 0),
    ];
    let mut good = true;
    for (high, low, axis) in pairs {
        if at(high, axis) <= at(low, axis) {
            good = false;
            let (message, help) = if axis == 1 {
                let message = format!("the wheel `{}` is not to the left of `{}`", high.name(), low.name());
                (message, "y points to the left: the left wheel has the larger y")
            } else {
                let message = format!("the wheel `{}` is not before `{}`", high.name(), low.name());
                (message, "x points forward: the front wheel has the larger x")
            };
            log.error(codes::WHEEL_SIDES, spot(high), high.name(), message, help);
        }
    }
    good
}

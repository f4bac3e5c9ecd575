//! The vehicle: where its wheels touch the ground, and what carries each.

use super::masses::carriers;
use super::{Log, Lookup};
use crate::codes;
use crate::model::{Axle, Carrier, Corner, Point, Suspension, Vehicle, Wheel};
use crate::spec::{CornerEntry, ModelSpec, Spot, VehicleEntry, Written};
use crate::units::MM;

/// How far contact points may be from what wheelbase and tracks say, mm.
const AGREE_MM: f64 = 1.0;

/// The table is wrong, and that is said.
pub(super) struct Faulty;

/// Checks the table `[vehicle]`, where there is one.
pub(super) fn check(spec: &ModelSpec, look: &Lookup<'_>, log: &mut Log) -> Result<Option<Vehicle>, Faulty> {
    match &spec.vehicle {
        None => Ok(None),
        Some(entry) => one(entry, look, log).map(Some).ok_or(Faulty),
    }
}

fn one(entry: &VehicleEntry, look: &Lookup<'_>, log: &mut Log) -> Option<Vehicle> {
    let before = log.0.len();
    sizes(entry, log);
    let corners = Wheel::ALL.map(|wheel| corner(entry, wheel, look, log));
    if entry.front_roll_share.is_none() {
        let help = "add `front_roll_share = 0.5` (0 to 1): the front axle's part of the roll stiffness";
        log.error(codes::MISSING_KEY, entry.vehicle.spot, "vehicle", "the vehicle has no `front_roll_share`", help);
    }
    let front_roll_share = share("front_roll_share", &entry.front_roll_share, log);
    let front_brake_share = share("front_brake_share", &entry.front_brake_share, log);
    let front_drive_share = share("front_drive_share", &entry.front_drive_share, log);
    let faulty = log.0.len() > before;
    let [Some(a), Some(b), Some(c), Some(d)] = corners else { return None };
    let vehicle = Vehicle {
        corners: [a, b, c, d],
        axles: [Axle::default(), Axle::default()],
        front_roll_share: front_roll_share.unwrap_or_default(),
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

fn corner(entry: &VehicleEntry, wheel: Wheel, look: &Lookup<'_>, log: &mut Log) -> Option<Corner> {
    let name = wheel.name();
    let Some(corner) = &entry.corners[wheel as usize] else {
        let message = format!("the vehicle has no corner `{name}`");
        let help = format!("add `[vehicle.corners.{name}]` with `joints = [\"…\"]`; all four are needed");
        log.error(codes::MISSING_KEY, entry.vehicle.spot, name, message, help);
        return None;
    };
    let who = format!("corner `{name}`");
    let joints = if corner.joints.is_empty() {
        let help = "add `joints = [\"…\"]`: the joints that take the wheel's force";
        log.error(codes::CORNER_NOT_CARRIED, corner.wheel.spot, name, format!("{who} has no joints"), help);
        None
    } else {
        carriers_of(corner, &who, look, log)
    };
    let spring_joint = match &corner.spring_joint {
        Some(spring) => look.joint(spring, &who, log),
        None => joints.as_ref().and_then(|joints| joints.first().copied()),
    };
    let contact = contact(entry, corner, wheel, log);
    Some(Corner {
        contact: contact?,
        suspension: Suspension::Rigid(Carrier::Joints(joints?)),
        spring: Point::Joint(spring_joint?),
    })
}

/// In `model.toml` every name has its own quotes: the remark about spaces does not hold.
fn carriers_of(corner: &CornerEntry, who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Vec<crate::ids::JointId>> {
    let mut joints = Some(Vec::new());
    for name in &corner.joints {
        let one = carriers(std::slice::from_ref(name), who, look, log).and_then(|one| one.first().copied());
        let again = one.zip(joints.as_ref()).is_some_and(|(one, joints): (_, &Vec<_>)| joints.contains(&one));
        if again {
            let message = format!("{who} lists the joint `{}` twice", name.value);
            log.error(codes::JOINT_LISTED_TWICE, name.spot, name, message, "list it once");
        }
        joints = joints.zip(one).map(|(mut joints, one)| {
            joints.push(one);
            joints
        });
    }
    joints
}

/// Where the wheel touches the ground, m: as given, or from wheelbase and tracks; both must agree.
fn contact(entry: &VehicleEntry, corner: &CornerEntry, wheel: Wheel, log: &mut Log) -> Option<[f64; 3]> {
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

//! The tables of `model.toml` that describe the vehicle.

use super::keys::{Document, Keys};
use super::vehicle_entries::{AxleEntry, CornerEntry, PlaceEntry, VehicleEntry, WeighedEntry};
use super::{CarrierWritten, Written};
use crate::codes;
use crate::model::Wheel;
use crate::reference;

/// The axles by their names in files, in the order of [`crate::model::Vehicle::axles`].
const AXLES: [&str; 2] = ["front", "rear"];

pub(super) fn vehicle(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> Option<VehicleEntry> {
    let (table, spot) = root.table("vehicle", document)?;
    let keys = Keys { called: "[vehicle]", table, spot };
    keys.known(&reference::VEHICLE, document);
    Some(VehicleEntry {
        vehicle: Written::at((), spot),
        wheelbase_mm: keys.number("wheelbase_mm", document),
        track_front_mm: keys.number("track_front_mm", document),
        track_rear_mm: keys.number("track_rear_mm", document),
        front_axle_x_mm: keys.number("front_axle_x_mm", document),
        ground_z_mm: keys.number("ground_z_mm", document),
        centre_y_mm: keys.number("centre_y_mm", document),
        front_roll_share: keys.number("front_roll_share", document),
        front_brake_share: keys.number("front_brake_share", document),
        front_drive_share: keys.number("front_drive_share", document),
        cg_height_mm: keys.number("cg_height_mm", document),
        corners: below(&keys, "corners", Wheel::ALL.map(Wheel::name), document, corner),
        axles: below(&keys, "axles", AXLES, document, axle),
    })
}

/// The tables `[vehicle.ABOVE.NAME]` of a few known names.
fn below<T, const N: usize>(
    vehicle: &Keys<'_, '_>,
    above: &str,
    names: [&'static str; N],
    document: &mut Document<'_, '_>,
    one: impl Fn(Written<String>, &Keys<'_, '_>, &mut Document<'_, '_>) -> T,
) -> [Option<T>; N] {
    let Some((table, spot)) = vehicle.table(above, document) else { return [const { None }; N] };
    let called = format!("[vehicle.{above}]");
    let keys = Keys { called: &called, table, spot };
    keys.only(&names, document);
    names.map(|name| {
        let (table, spot) = keys.table(name, document)?;
        let called = format!("[vehicle.{above}.{name}]");
        Some(one(Written::at(name.to_owned(), spot), &Keys { called: &called, table, spot }, document))
    })
}

fn corner(wheel: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> CornerEntry {
    keys.known(&reference::CORNER, document);
    CornerEntry {
        wheel,
        contact_mm: keys.point("contact_mm", document),
        carrier: carrier(keys, "joints", "body", document),
        spring_joint: keys.text("spring_joint", document),
    }
}

fn axle(axle: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> AxleEntry {
    keys.known(&reference::AXLE, document);
    AxleEntry {
        axle,
        wheel_radius_mm: keys.number("wheel_radius_mm", document),
        brakes: keys.text("brakes", document),
        shaft: carrier(keys, "shaft_joints", "shaft_body", document),
        roll_stiffness_nm_per_deg: keys.number("roll_stiffness_nm_per_deg", document),
    }
}

pub(super) fn place(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> PlaceEntry {
    keys.known(&reference::PLACE, document);
    PlaceEntry {
        name,
        role: keys.text("role", document),
        carrier: carrier(keys, "joints", "body", document),
        at_mm: keys.point("at_mm", document),
        group: keys.text("group", document).map(|text| text.value).unwrap_or_default(),
        mass_kg: keys.number("mass_kg", document),
    }
}

/// Joints or a body, each by its key; both are a fault.
fn carrier(keys: &Keys<'_, '_>, joints: &str, body: &str, document: &mut Document<'_, '_>) -> CarrierWritten {
    let found = keys.texts(joints, document);
    let Some(name) = keys.text(body, document) else { return CarrierWritten::Joints(found) };
    if let (true, Some(spot)) = (keys.has(joints), name.spot) {
        let message = format!("{} has both `{joints}` and `{body}`", keys.called);
        document.fault(codes::KEYS_DISAGREE, spot, &name.value, message, "keep the one that takes the force");
    }
    CarrierWritten::Body(name)
}

pub(super) fn weighed(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> WeighedEntry {
    let Some((table, spot)) = root.table("weighed", document) else { return WeighedEntry::default() };
    let keys = Keys { called: "[weighed]", table, spot };
    keys.known(&reference::WEIGHED, document);
    let corners_kg = match keys.table("corners_kg", document) {
        None => [None; 4],
        Some((table, spot)) => {
            let corners = Keys { called: "[weighed.corners_kg]", table, spot };
            corners.known(&reference::WEIGHED_CORNERS, document);
            Wheel::ALL.map(|wheel| corners.number(wheel.name(), document))
        }
    };
    WeighedEntry {
        frame_kg: keys.number("frame_kg", document),
        vehicle_kg: keys.number("vehicle_kg", document),
        corners_kg,
        tolerance_kg: keys.number("tolerance_kg", document),
        raised_axle: keys.text("raised_axle", document),
        raised_mm: keys.number("raised_mm", document),
        lower_axle_kg: keys.number("lower_axle_kg", document),
    }
}

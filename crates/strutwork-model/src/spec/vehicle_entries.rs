//! The tables of `model.toml` that describe the vehicle, as the user wrote them.

use serde::Serialize;

use super::{CarrierWritten, Written};
use crate::model::Wheel;

/// A table `[vehicle.corners.WHEEL]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct CornerEntry {
    /// Where the table stands; the wheel's name.
    pub wheel: Written<String>,
    /// The centre of the contact patch, mm.
    pub contact_mm: Option<Written<[f64; 3]>>,
    /// What takes the wheel's force; nothing where the corner is linked.
    pub carrier: CarrierWritten,
    /// The name of the joint at which twist is applied, held and read.
    pub spring_joint: Option<Written<String>>,
}

/// The table `[vehicle]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct VehicleEntry {
    /// Where the table stands.
    pub vehicle: Written<()>,
    /// Distance between the axles, mm.
    pub wheelbase_mm: Option<Written<f64>>,
    /// Distance between the front contact patches, mm.
    pub track_front_mm: Option<Written<f64>>,
    /// Distance between the rear contact patches, mm.
    pub track_rear_mm: Option<Written<f64>>,
    /// x of the front axle, mm.
    pub front_axle_x_mm: Option<Written<f64>>,
    /// z of the ground, mm; 0 where not given.
    pub ground_z_mm: Option<Written<f64>>,
    /// y of the vehicle's centre plane, mm; 0 where not given.
    pub centre_y_mm: Option<Written<f64>>,
    /// The front axle's share of the roll stiffness, 0 to 1.
    pub front_roll_share: Option<Written<f64>>,
    /// The front axle's share of the braking force, 0 to 1.
    pub front_brake_share: Option<Written<f64>>,
    /// The front axle's share of the driving force, 0 to 1; 0 where not given.
    pub front_drive_share: Option<Written<f64>>,
    /// Height of the centre of gravity above the ground, mm.
    pub cg_height_mm: Option<Written<f64>>,
    /// In the order of [`Wheel::ALL`]; `None` where not given.
    pub corners: [Option<CornerEntry>; Wheel::ALL.len()],
    /// Front and rear; `None` where not given.
    pub axles: [Option<AxleEntry>; 2],
}

/// A table `[vehicle.axles.AXLE]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct AxleEntry {
    /// Where the table stands; `front` or `rear`.
    pub axle: Written<String>,
    /// Height of the wheel's centre above the contact patch, mm.
    pub wheel_radius_mm: Option<Written<f64>>,
    /// `outboard` or `inboard`; outboard where not given.
    pub brakes: Option<Written<String>>,
    /// What takes the reaction of the drive shafts' torque; empty for nothing.
    pub shaft: CarrierWritten,
    /// Roll stiffness of springs, bars and tyres, N·m/deg.
    pub roll_stiffness_nm_per_deg: Option<Written<f64>>,
}

/// A table `[places.NAME]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct PlaceEntry {
    /// Its name.
    pub name: Written<String>,
    /// What it is for: a word of [`Role`](crate::model::Role).
    pub role: Option<Written<String>>,
    /// What takes the force.
    pub carrier: CarrierWritten,
    /// Where the force acts, mm; the mean of the joints where not given.
    pub at_mm: Option<Written<[f64; 3]>>,
    /// Places that act together; empty for none.
    pub group: String,
    /// Mass that counts at this place, kg.
    pub mass_kg: Option<Written<f64>>,
}

/// The table `[weighed]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct WeighedEntry {
    /// The bare frame, kg.
    pub frame_kg: Option<Written<f64>>,
    /// The whole vehicle, kg.
    pub vehicle_kg: Option<Written<f64>>,
    /// Each wheel, kg, in the order of [`Wheel::ALL`].
    pub corners_kg: [Option<Written<f64>>; Wheel::ALL.len()],
    /// How far the scales may be out either way, kg.
    pub tolerance_kg: Option<Written<f64>>,
    /// `front` or `rear`: the axle that was raised for the height of the centre of gravity.
    pub raised_axle: Option<Written<String>>,
    /// How far its wheels were raised, mm.
    pub raised_mm: Option<Written<f64>>,
    /// What the wheels of the other axle weighed then, both together, kg.
    pub lower_axle_kg: Option<Written<f64>>,
}

//! Wheels and corners of a vehicle.

use super::{Axle, Point, Suspension};

/// One of the four wheels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wheel {
    /// Front axle, +y side.
    FrontLeft,
    /// Front axle, −y side.
    FrontRight,
    /// Rear axle, +y side.
    RearLeft,
    /// Rear axle, −y side.
    RearRight,
}

impl Wheel {
    /// All four, in order.
    pub const ALL: [Self; 4] = [Self::FrontLeft, Self::FrontRight, Self::RearLeft, Self::RearRight];

    /// Its name in files and scripts: `front-left` … `rear-right`.
    pub const fn name(self) -> &'static str {
        ["front-left", "front-right", "rear-left", "rear-right"][self as usize]
    }

    /// Its axle: 0 front, 1 rear.
    pub const fn axle(self) -> usize {
        self as usize / 2
    }

    /// The wheel with this name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|wheel| wheel.name() == name)
    }
}

/// A corner: a wheel, and what takes its load.
#[derive(Debug, Clone, PartialEq)]
pub struct Corner {
    /// The centre of the contact patch, m, global axes.
    pub contact: [f64; 3],
    /// What stands between the wheel and the frame.
    pub suspension: Suspension,
    /// Where twist is applied, held and read (spring or damper pick-up).
    pub spring: Point,
}

/// What the case scripts know of the vehicle.
#[derive(Debug, Clone, PartialEq)]
pub struct Vehicle {
    /// In the order of [`Wheel::ALL`].
    pub corners: [Corner; 4],
    /// Front and rear.
    pub axles: [Axle; 2],
    /// The front axle's share of the roll stiffness, 0 to 1.
    pub front_roll_share: f64,
    /// The front axle's share of the braking force, 0 to 1; `None`: in proportion to the axle loads under braking.
    pub front_brake_share: Option<f64>,
    /// The front axle's share of the driving force, 0 to 1 (0: rear drive).
    pub front_drive_share: f64,
    /// Height of the centre of gravity above the contact patches, m, where the user overrides what the masses give.
    pub cg_height: Option<f64>,
}

impl Vehicle {
    /// The corner of this wheel.
    pub fn corner(&self, wheel: Wheel) -> &Corner {
        &self.corners[wheel as usize]
    }

    /// Distance between the axles along x, m.
    pub fn wheelbase(&self) -> f64 {
        let x = |w: Wheel| self.corner(w).contact[0];
        (x(Wheel::FrontLeft) + x(Wheel::FrontRight) - x(Wheel::RearLeft) - x(Wheel::RearRight)) / 2.0
    }

    /// Distance between the front contact patches along y, m.
    pub fn track_front(&self) -> f64 {
        self.corner(Wheel::FrontLeft).contact[1] - self.corner(Wheel::FrontRight).contact[1]
    }

    /// Distance between the rear contact patches along y, m.
    pub fn track_rear(&self) -> f64 {
        self.corner(Wheel::RearLeft).contact[1] - self.corner(Wheel::RearRight).contact[1]
    }
}

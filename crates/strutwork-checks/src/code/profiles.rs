//! Profiles for the tests, from sizes in mm and yield strength in MPa. Tests only.

use strutwork_model::model::{Section, Shape};

use super::profile::Profile;
use crate::design::steel_tube::profile_of;

fn of(section: Section, f_y: f64) -> Profile {
    profile_of(&section, f_y * 1e6, 210e9).expect("a shape with sizes")
}

/// A rectangular tube with the corner radii of EN 10219-2.
pub(crate) fn rectangular(height: f64, width: f64, wall: f64, f_y: f64) -> Profile {
    of(Section::hollow("r", height * 1e-3, width * 1e-3, wall * 1e-3, None).expect("a tube"), f_y)
}

/// A rectangular tube with sharp corners.
pub(crate) fn sharp(height: f64, width: f64, wall: f64, f_y: f64) -> Profile {
    of(Section::hollow("s", height * 1e-3, width * 1e-3, wall * 1e-3, Some(0.0)).expect("a tube"), f_y)
}

/// A round tube.
pub(crate) fn round(diameter: f64, wall: f64, f_y: f64) -> Profile {
    of(Section::round("o", diameter * 1e-3, wall * 1e-3).expect("a tube"), f_y)
}

/// A flat bar.
pub(crate) fn flat(height: f64, width: f64, f_y: f64) -> Profile {
    let shape = Shape::Flat { height: height * 1e-3, width: width * 1e-3 };
    of(Section::from_shape("f", shape).expect("a bar"), f_y)
}

/// A solid round bar.
pub(crate) fn solid_round(diameter: f64, f_y: f64) -> Profile {
    of(Section::from_shape("b", Shape::SolidRound { diameter: diameter * 1e-3 }).expect("a bar"), f_y)
}

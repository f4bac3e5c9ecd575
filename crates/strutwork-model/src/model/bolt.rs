//! Bolts of bodies: what they are, and what they clamp.

use crate::bolts::{BoltClass, BoltSize};
use crate::ids::MaterialId;
use crate::units::MM;

/// A kind of bolt: a table `[bolts.NAME]`.
#[derive(Debug, Clone, PartialEq)]
pub struct Bolt {
    /// Its name, unique.
    pub name: String,
    /// Its size; `None` where not given: it cannot be checked then.
    pub size: Option<&'static BoltSize>,
    /// Its property class; `None` where not given: it cannot be checked then.
    pub class: Option<&'static BoltClass>,
    /// Unit vector along the bolt, global axes, where the table gives it.
    pub axis: Option<[f64; 3]>,
    /// What is in the shear plane.
    pub shear_plane: ShearPlane,
    /// How many planes share the shear force, 1 or 2.
    pub shear_planes: u8,
    /// What it goes through on the frame's side; `None` where not given.
    pub clamps: Option<Clamps>,
    /// From the middle of the hole to the nearest edge, along and across the force alike, m; `None` where not given.
    pub edge: Option<f64>,
    /// Diameter of the hole, m, where given; [`Bolt::hole`] has the normal one else.
    pub hole: Option<f64>,
    /// Preload that the bolt is tightened to, N; `None` where not given.
    pub preload: Option<f64>,
    /// Slip factor μ of the clamped faces; `None` where not given.
    pub friction: Option<f64>,
    /// Whether its head is countersunk.
    pub countersunk: bool,
}

/// What is in the shear plane of a bolt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShearPlane {
    /// The thread.
    Thread,
    /// The shank, which has none.
    Shank,
}

impl ShearPlane {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Thread => "thread",
            Self::Shank => "shank",
        }
    }
}

/// What a bolt goes through on the frame's side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Clamps {
    /// The tube itself, through both walls, with nothing inside.
    Tube,
    /// A sleeve (crush tube) that is welded into both walls of the tube.
    Sleeve {
        /// Outer diameter, m.
        outer: f64,
        /// Wall, m.
        wall: f64,
    },
    /// A plate or bracket that is welded to the tube.
    Plate {
        /// Thickness, m.
        thickness: f64,
        /// Its material; `None`: that of the tube.
        material: Option<MaterialId>,
    },
}

impl Clamps {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tube => "tube",
            Self::Sleeve { .. } => "sleeve",
            Self::Plate { .. } => "plate",
        }
    }
}

impl Bolt {
    /// Diameter of the hole, m: as given, else the bolt's own and the normal clearance of its size; `None` without a size.
    pub fn hole(&self) -> Option<f64> {
        let diameter = self.size?.diameter_mm * MM;
        Some(self.hole.unwrap_or(diameter + normal_clearance(diameter)))
    }
}

/// Clearance of a normal round hole: 1 mm up to 14 mm of diameter, 2 mm above it, m.
///
/// # Source
/// EN 1090-2 Table 11 (read as quoted): 1 mm up to M14, 2 mm from M16 to M24.
pub fn normal_clearance(diameter: f64) -> f64 {
    // No size stands between 14 and 16 mm.
    if diameter <= 14.5 * MM { 1.0 * MM } else { 2.0 * MM }
}

//! Panels: thin skins that stiffen bays, and how they are fixed to the tubes.

use crate::ids::{FixingId, JointId, MaterialId};

/// A thin skin that carries shear in its own plane between 3 or 4 joints.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// Its name, unique.
    pub name: String,
    /// Its corners in order round the edge: 3 or 4.
    pub joints: Vec<JointId>,
    /// Its material.
    pub material: MaterialId,
    /// m, > 0.
    pub thickness: f64,
    /// How its edges are fixed; `None`: without any compliance.
    pub fixing: Option<FixingId>,
    /// The user's note; empty for none.
    pub note: String,
}

/// A way of fixing panel edges to tubes: a table `[fixings.NAME]`.
#[derive(Debug, Clone, PartialEq)]
pub struct Fixing {
    /// Its name, unique.
    pub name: String,
    /// What it is.
    pub kind: FixingKind,
    /// Where its values come from; empty where not said.
    pub source: String,
}

/// What holds the edge of a panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FixingKind {
    /// A line of adhesive.
    Bond {
        /// Thickness of the adhesive, m, > 0.
        thickness: f64,
        /// Width of the line, m, > 0.
        width: f64,
        /// Shear modulus of the adhesive, Pa, > 0.
        shear: f64,
        /// Shear strength of the adhesive, Pa; `None` where not given.
        strength: Option<f64>,
    },
    /// Rivets or screws.
    Fasteners {
        /// Distance from one to the next, m, > 0.
        pitch: f64,
        /// Slip of one under its shear load, m/N, > 0.
        slip: f64,
        /// Shear strength of one, N; `None` where not given.
        strength: Option<f64>,
    },
}

impl FixingKind {
    /// Slip of the edge per unit of shear flow, m²/N: t_a/(G_a·w) of a bond line, p·s of fasteners.
    pub fn compliance(&self) -> f64 {
        match *self {
            Self::Bond { thickness, width, shear, .. } => thickness / (shear * width),
            Self::Fasteners { pitch, slip, .. } => pitch * slip,
        }
    }
}

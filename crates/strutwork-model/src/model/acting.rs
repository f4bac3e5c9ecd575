//! What acts on the frame as the load files say it: plain cases.

use crate::dof::{Dof, DofMap};
use crate::ids::{BodyId, JointId, TubeId};

/// The axes that a tube load is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axes {
    /// The tube's own.
    Local,
    /// The frame's.
    Global,
}

impl Axes {
    /// Its word in files: `local` or `global`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Local => "local",
            Self::Global => "global",
        }
    }
}

/// A force and a moment at a joint, global axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointLoad {
    /// The joint.
    pub joint: JointId,
    /// Fx, Fy, Fz in N; Mx, My, Mz in N·m.
    pub load: DofMap<f64>,
}

/// A force and a moment on a body, global axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BodyLoad {
    /// The body.
    pub body: BodyId,
    /// Fx, Fy, Fz in N; Mx, My, Mz in N·m about the body's reference point.
    pub load: DofMap<f64>,
}

/// A load along a tube, uniform or linear from end to end, N per metre of tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeLoad {
    /// The tube.
    pub tube: TubeId,
    /// The axes of `from` and `to`.
    pub axes: Axes,
    /// Intensity at the `from` end, N/m.
    pub from: [f64; 3],
    /// Intensity at the `to` end, N/m.
    pub to: [f64; 3],
}

/// A force and a moment at a place along a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubePointLoad {
    /// The tube.
    pub tube: TubeId,
    /// The axes of `force` and `moment`.
    pub axes: Axes,
    /// Place along the tube, 0 at `from` to 1 at `to`.
    pub at: f64,
    /// N.
    pub force: [f64; 3],
    /// N·m.
    pub moment: [f64; 3],
}

/// A change of a tube's temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Temperature {
    /// The tube.
    pub tube: TubeId,
    /// Uniform rise, K.
    pub rise: f64,
    /// K/m along local y; positive: the +y side is hotter.
    pub gradient_y: f64,
    /// K/m along local z; positive: the +z side is hotter.
    pub gradient_z: f64,
}

/// A prescribed movement of a fixed freedom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settlement {
    /// The joint.
    pub joint: JointId,
    /// The freedom; the joint's support holds it fixed.
    pub dof: Dof,
    /// m, or rad.
    pub value: f64,
}

/// One load case as the load files say it. Self weight is not in it: the options say whether it acts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlainCase {
    /// Its name, unique.
    pub name: String,
    /// From `loads.csv`.
    pub joint_loads: Vec<JointLoad>,
    /// From `loads.csv`, on bodies.
    pub body_loads: Vec<BodyLoad>,
    /// From `tube_loads.csv`.
    pub tube_loads: Vec<TubeLoad>,
    /// From `tube_point_loads.csv`.
    pub tube_point_loads: Vec<TubePointLoad>,
    /// From `temperatures.csv`.
    pub temperatures: Vec<Temperature>,
    /// From `settlements.csv`.
    pub settlements: Vec<Settlement>,
}

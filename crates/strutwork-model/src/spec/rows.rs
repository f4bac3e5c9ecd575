//! The rows of the CSV files as the user wrote them: names as text, numbers in door units.

use serde::Serialize;

use super::{BucklingWritten, CarrierWritten, LoadedWritten, TubeEndWritten, Written};

/// A row of `joints.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct JointRow {
    /// Its name.
    pub joint: Written<String>,
    /// x, mm.
    pub x_mm: Written<f64>,
    /// y, mm.
    pub y_mm: Written<f64>,
    /// z, mm.
    pub z_mm: Written<f64>,
    /// The user's note; empty for none.
    pub note: String,
}

/// A row of `tubes.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct TubeRow {
    /// Its name.
    pub tube: Written<String>,
    /// The joint where local x starts.
    pub from: Written<String>,
    /// The joint where local x ends.
    pub to: Written<String>,
    /// The name of its section.
    pub section: Written<String>,
    /// The name of its material.
    pub material: Written<String>,
    /// Tubes that share a gauge; empty for none.
    pub group: Written<String>,
    /// Turn about local x, degrees.
    pub roll_deg: Written<f64>,
    /// Freedoms freed at the `from` end, space-separated: `ry rz`; empty for none.
    pub release_from: Written<String>,
    /// Freedoms freed at the `to` end.
    pub release_to: Written<String>,
    /// Offset and springs at the `from` end.
    pub end_from: TubeEndWritten,
    /// Offset and springs at the `to` end.
    pub end_to: TubeEndWritten,
    /// Buckling lengths for bending about local y and about local z.
    pub buckling: [BucklingWritten; 2],
    /// The user's note; empty for none.
    pub note: String,
}

/// How a freedom is held, as written in `supports.csv`.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum HoldWritten {
    /// `free`.
    #[default]
    Free,
    /// `fixed`.
    Fixed,
    /// A stiffness, N/mm for ux, uy, uz and N·m/deg for rx, ry, rz.
    Stiffness(f64),
}

/// A row of `supports.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SupportRow {
    /// The name of the joint.
    pub joint: Written<String>,
    /// In the order ux, uy, uz, rx, ry, rz, global axes.
    pub holds: [Written<HoldWritten>; 6],
}

/// A row of `loads.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct LoadRow {
    /// The name of the load case.
    pub case: Written<String>,
    /// What it acts on.
    pub on: LoadedWritten,
    /// Fx, Fy, Fz in N and Mx, My, Mz in N·m, global axes.
    pub load: [Written<f64>; 6],
    /// Where the force on a body acts, x, y, z in mm: all three or none.
    pub at_mm: [Option<Written<f64>>; 3],
}

/// A row of `tube_loads.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct TubeLoadRow {
    /// The name of the load case.
    pub case: Written<String>,
    /// The name of the tube.
    pub tube: Written<String>,
    /// `local` or `global`.
    pub axes: Written<String>,
    /// Intensity at the `from` end along x, y, z, N per metre of tube.
    pub from_n_per_m: [Written<f64>; 3],
    /// Intensity at the `to` end; `None` where it is that of the `from` end.
    pub to_n_per_m: [Option<Written<f64>>; 3],
}

/// A row of `tube_point_loads.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct TubePointLoadRow {
    /// The name of the load case.
    pub case: Written<String>,
    /// The name of the tube.
    pub tube: Written<String>,
    /// `local` or `global`.
    pub axes: Written<String>,
    /// Place along the tube, 0 at `from` to 1 at `to`.
    pub at: Written<f64>,
    /// Fx, Fy, Fz in N and Mx, My, Mz in N·m.
    pub load: [Written<f64>; 6],
}

/// A row of `temperatures.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct TemperatureRow {
    /// The name of the load case.
    pub case: Written<String>,
    /// The name of the tube.
    pub tube: Written<String>,
    /// Uniform rise, K.
    pub rise_k: Written<f64>,
    /// K/m along local y; positive: the +y side is hotter.
    pub gradient_y_k_per_m: Written<f64>,
    /// K/m along local z; positive: the +z side is hotter.
    pub gradient_z_k_per_m: Written<f64>,
}

/// A row of `settlements.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SettlementRow {
    /// The name of the load case.
    pub case: Written<String>,
    /// The name of the joint.
    pub joint: Written<String>,
    /// ux, uy, uz in mm and rx, ry, rz in degrees; `None` where not moved.
    pub moves: [Option<Written<f64>>; 6],
}

/// A row of `masses.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct MassRow {
    /// Its name.
    pub mass: Written<String>,
    /// kg.
    pub kg: Written<f64>,
    /// x of its centre, mm.
    pub x_mm: Written<f64>,
    /// y of its centre, mm.
    pub y_mm: Written<f64>,
    /// z of its centre, mm.
    pub z_mm: Written<f64>,
    /// What carries it.
    pub carrier: CarrierWritten,
    /// Moments of inertia about its own centre, x, y, z, kg·m²; 0 for a point.
    pub inertia_kg_m2: [Written<f64>; 3],
    /// `driven`, or empty for always.
    pub when: Written<String>,
    /// The user's note; empty for none.
    pub note: String,
}

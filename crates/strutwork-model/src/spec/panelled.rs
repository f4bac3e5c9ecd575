//! Panels, their fixings, the ends of tubes and soft joints, as the user wrote them.

use serde::Serialize;

use super::Written;

/// Offset and springs at one end of a tube, from `tubes.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct TubeEndWritten {
    /// From the joint to the tube's end along x, y, z, mm, global axes.
    pub offset_mm: [Written<f64>; 3],
    /// Springs ux in N/mm and rx, ry, rz in N·m/deg, local axes; `None` where there is none.
    pub springs: [Option<Written<f64>>; 4],
}

/// A row of `panels.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct PanelRow {
    /// Its name.
    pub panel: Written<String>,
    /// The names of its corners in order round the edge.
    pub joints: Vec<Written<String>>,
    /// The name of its material.
    pub material: Written<String>,
    /// mm.
    pub thickness_mm: Written<f64>,
    /// The name of its fixing; empty for edges that do not slip.
    pub fixing: Written<String>,
    /// The user's note; empty for none.
    pub note: String,
}

/// A table `[fixings.NAME]`: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct FixingEntry {
    /// Its name.
    pub name: Written<String>,
    /// `bond` or `fasteners`.
    pub kind: Option<Written<String>>,
    /// Thickness of the adhesive, mm.
    pub thickness_mm: Option<Written<f64>>,
    /// Width of the line of adhesive, mm.
    pub width_mm: Option<Written<f64>>,
    /// Shear modulus of the adhesive, MPa.
    pub shear_mpa: Option<Written<f64>>,
    /// Shear strength of the adhesive, MPa.
    pub strength_mpa: Option<Written<f64>>,
    /// From one fastener to the next, mm.
    pub pitch_mm: Option<Written<f64>>,
    /// Slip of one fastener under its shear load, mm/kN.
    pub slip_mm_per_kn: Option<Written<f64>>,
    /// Shear strength of one fastener, N.
    pub strength_n: Option<Written<f64>>,
    /// Where the values come from.
    pub source: Option<Written<String>>,
}

/// The table `[soft_joints]`: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SoftJointsEntry {
    /// `off`, `band` or `always`.
    pub when: Option<Written<String>>,
    /// The rule acts where the tube is narrower than this share of the one that it meets.
    pub narrower_than: Option<Written<f64>>,
}

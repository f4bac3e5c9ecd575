//! Rows of bodies.csv and suspension.csv as the user wrote them.

use serde::Serialize;

use super::{CarrierWritten, Written};

/// How a freedom of a joint follows a body, as written in `bodies.csv`.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BondWritten {
    /// An empty cell.
    #[default]
    Blank,
    /// `rigid`.
    Rigid,
    /// `free`.
    Free,
    /// A stiffness, N/mm for the first three freedoms and N·m/deg for the others.
    Stiffness(f64),
}

/// A row of `bodies.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct BodyRow {
    /// The name of the body.
    pub body: Written<String>,
    /// The name of the joint that it bolts to.
    pub joint: Written<String>,
    /// In the order ux, uy, uz, rx, ry, rz, global axes.
    pub bonds: [Written<BondWritten>; 6],
    /// The name of the bolt.
    pub bolt: Option<Written<String>>,
    /// Along the bolt, global axes, of any length; that of the bolt where not given.
    pub axis: Option<Written<[f64; 3]>>,
    /// The user's note; empty for none.
    pub note: String,
}

/// A row of `suspension.csv`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct LinkRow {
    /// The name of the wheel.
    pub corner: Written<String>,
    /// The name of the link.
    pub link: Written<String>,
    /// What takes its force on the frame's side.
    pub carrier: CarrierWritten,
    /// Its end on the upright, x, y, z, mm.
    pub upright_mm: [Written<f64>; 3],
    /// Its end on the frame, x, y, z, mm: all three or none.
    pub chassis_mm: [Option<Written<f64>>; 3],
    /// `link`, `spring`, `strut`, `pivot` or `guide`; empty: link.
    pub kind: Written<String>,
    /// The user's note; empty for none.
    pub note: String,
}

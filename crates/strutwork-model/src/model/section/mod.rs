//! A tube's cross-section: its shape and everything the shape gives.

mod build;
mod hollow;
mod round;
mod solid;

use super::judging::Route;

pub use build::SectionError;
pub use hollow::standard_outer_radius;

/// The shape as the user gave it, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// Square or rectangular hollow section.
    Hollow {
        /// Along local z.
        height: f64,
        /// Along local y.
        width: f64,
        /// Wall.
        wall: f64,
        /// Outer corner radius; 0 for a sharp-cornered idealisation.
        outer_radius: f64,
    },
    /// Circular hollow section.
    Round {
        /// Outside.
        diameter: f64,
        /// Wall.
        wall: f64,
    },
    /// Solid round bar.
    SolidRound {
        /// Diameter.
        diameter: f64,
    },
    /// Solid flat bar.
    Flat {
        /// Along local z.
        height: f64,
        /// Along local y.
        width: f64,
    },
    /// Given by its properties alone; no stresses.
    Properties,
}

/// A cross-section: y and z are the local axes of the tube, height along z, width along y.
///
/// Properties that a shape does not give (a section given by `properties`) are `None`: what needs them says so.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The user's name for it, unique.
    pub name: String,
    /// What it is.
    pub shape: Shape,
    /// In plain words for tables: `square 30 × 2`, `round 42.4 × 2.6`.
    pub label: String,
    /// A, m².
    pub area: f64,
    /// Iy = ∫z²dA, bending in the local x–z plane, m⁴.
    pub iy: f64,
    /// Iz = ∫y²dA, bending in the local x–y plane, m⁴.
    pub iz: f64,
    /// St-Venant torsion constant J, m⁴.
    pub j: f64,
    /// Elastic modulus about y, m³.
    pub wel_y: Option<f64>,
    /// Elastic modulus about z, m³.
    pub wel_z: Option<f64>,
    /// Plastic modulus about y, m³.
    pub wpl_y: Option<f64>,
    /// Plastic modulus about z, m³.
    pub wpl_z: Option<f64>,
    /// Torsion modulus: greatest shear stress τ = T / `torsion_modulus`, m³.
    pub torsion_modulus: Option<f64>,
    /// Shear area for Vy, m².
    pub shear_area_y: Option<f64>,
    /// Shear area for Vz, m².
    pub shear_area_z: Option<f64>,
    /// Surface for paint, m² a metre.
    pub surface: Option<f64>,
    /// Points of the outline where the normal stress can be greatest, (y, z) in m; empty for `Properties`.
    /// For round sections empty too: their extreme fibre lies at [`Section::round_radius`] in the direction of bending.
    pub fibres: Vec<[f64; 2]>,
    /// Outer radius of a round section, m.
    pub round_radius: Option<f64>,
    /// How a hollow section was made; `None` for the other shapes.
    pub route: Option<Route>,
    /// Where the formulas come from, as the report prints it.
    pub source: String,
}

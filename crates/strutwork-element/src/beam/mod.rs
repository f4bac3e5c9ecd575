//! The 2-node Euler-Bernoulli space-frame element.

mod chain;
mod deformation;
mod ends;
mod excess;
mod fixed_end;
mod geometric;
mod mass;
mod recovery;
mod slip;
mod stiffness;

pub use chain::{Chain, Cut, Division, LoadedChain};
pub use deformation::{Mat6, Vec6};
pub use ends::{EndSprings, Ends, Joined};
pub use excess::Excess;
pub use fixed_end::SpanLoad;
pub use mass::LineMass;
pub use recovery::{Along, Forces, Piece};

#[cfg(test)]
mod end_laws;
#[cfg(test)]
mod laws;

/// A straight prismatic tube, thin-beam theory: shear deformation and warping are left out.
///
/// # Units and shapes
/// | field | unit | meaning |
/// |---|---|---|
/// | `youngs`, `shear` | Pa | E, G |
/// | `area` | m² | A |
/// | `iy`, `iz` | m⁴ | ∫z²dA (bending in x–z), ∫y²dA (bending in x–y) |
/// | `j` | m⁴ | St-Venant torsion constant |
/// | `length` | m | > 0 |
///
/// # Assumes
/// Small displacements; plane sections stay plane and normal to the axis (length well above depth, about 10 times);
/// centroid and shear centre coincide (doubly symmetric sections); unrestrained warping.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// Young's modulus E, Pa.
    pub youngs: f64,
    /// Shear modulus G, Pa.
    pub shear: f64,
    /// A, m².
    pub area: f64,
    /// Iy, m⁴.
    pub iy: f64,
    /// Iz, m⁴.
    pub iz: f64,
    /// J, m⁴.
    pub j: f64,
    /// L, m.
    pub length: f64,
}

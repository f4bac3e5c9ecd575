//! Mechanics of one piece: numbers in (SI), small dense matrices out. Knows no model.
//!
//! ```text
//!            y
//!            |   z          end 1 (from)                end 2 (to)
//!            |  /             o===========================o ----> x
//!            | /              u1 v1 w1                    u2 v2 w2      displacements along x, y, z
//!            |/_____ x        θx1 θy1 θz1                 θx2 θy2 θz2   rotations, right-handed
//! ```
//!
//! The twelve freedoms of a tube stand in the order `u1 v1 w1 θx1 θy1 θz1 u2 v2 w2 θx2 θy2 θz2`. End forces act **on the
//! tube** in the same directions. Section forces at a station are what the part on the end-2 side exerts on the part on
//! the end-1 side: N tension positive, Vy, Vz along +y, +z, T, My, Mz right-handed about +x, +y, +z.

mod axes;
pub mod beam;
pub mod panel;

pub use axes::{LocalAxes, NoLength};
pub use beam::Beam;
pub use panel::Panel;

/// Twelve values, one for each freedom of a tube.
pub type Vec12 = nalgebra::SVector<f64, 12>;
/// A matrix over the twelve freedoms of a tube.
pub type Mat12 = nalgebra::SMatrix<f64, 12, 12>;

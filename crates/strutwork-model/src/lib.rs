//! What the frame is: as written (`spec`), checked (`validate`), and valid (`model`).
//!
//! # Conventions of the whole project
//! - Axes (ISO 8855): x forward, y left, z up, right-handed. The origin is the user's.
//! - Freedoms at a joint: ux, uy, uz, rx, ry, rz, in global axes ([`Dof`]).
//! - Inside: SI (m, N, kg, Pa, rad, K). At the doors: mm, kg, N, N·m, MPa, degrees, g ([`units`]).
//! - Local axes of a tube: x from `from` to `to`; z in the vertical plane that contains x, on the side of global +z
//!   (a tube within 0.1° of vertical: z is global −x pointing up, global +x pointing down); y = z × x;
//!   then y and z turn about x by the roll angle, right-handed.
//! - Section: height along local z, width along local y. Iy is the second moment for bending in the local x–z plane.
//!
//! The way in is [`read_model`]: the texts of a model folder go in, a [`Model`] or every fault comes out.

pub mod bolts;
pub mod codes;
pub mod diagnostic;
pub mod explain;
pub mod files;
pub mod fixings;
pub mod gauges;
pub mod grades;
pub mod ids;
pub mod model;
pub mod nearest;
pub mod reference;
pub mod spec;
pub mod stock;
pub mod units;
pub mod validate;

mod dof;
mod read;
mod soft;
mod subdivide;

pub use diagnostic::{Code, Diagnostic, Faults, Place, Severity, Warned};
pub use dof::{Dof, DofMap};
pub use files::{InputFile, InputFiles};
pub use ids::{BodyId, BoltId, FixingId, IndexVec, JointId, MaterialId, MountId, PanelId, SectionId, TubeId};
pub use model::Model;
pub use read::read_model;
pub use soft::SoftEnd;
pub use subdivide::Subdivided;

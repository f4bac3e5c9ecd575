//! From displacements back to what the user asks for.

mod measures;
mod movement;
mod panels;
mod reactions;
mod stress;
mod tubes;

pub(crate) use measures::measure;
pub(crate) use movement::Movement;
pub(crate) use panels::panels;
pub(crate) use reactions::{Bearing, bearing};
pub use stress::stress;
pub use tubes::{forces_at, recover_tubes};
pub(crate) use tubes::{joint_values, stations};

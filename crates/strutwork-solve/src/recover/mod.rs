//! From displacements back to what the user asks for.

mod measures;
mod reactions;
mod stress;
mod tubes;

pub(crate) use measures::measure;
pub(crate) use reactions::reactions;
pub(crate) use tubes::{end_forces, joint_values};
pub use tubes::{forces_at, recover_tubes};

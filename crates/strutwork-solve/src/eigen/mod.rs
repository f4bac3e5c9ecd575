//! Eigenvalues of a frame: what natural modes and buckling share.

mod counted;
mod held;
mod lanczos;
mod rigid_part;
mod tridiagonal;

pub(crate) use counted::{Counted, counted_pairs};
pub(crate) use held::{Held, rigid_motions};
pub(crate) use lanczos::{Pair, Pencil, dot, pairs};
pub(crate) use rigid_part::RigidPart;

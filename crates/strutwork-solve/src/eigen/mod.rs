//! Eigenvalues of a frame: what natural modes and buckling share.

mod border;
mod counted;
mod held;
mod lanczos;
mod rigid_part;
mod tridiagonal;

pub(crate) use border::Border;
pub(crate) use counted::{Counted, counted_pairs};
pub(crate) use held::{Held, rigid_motions};
pub(crate) use lanczos::{Pair, Pencil, dot, pairs};
pub(crate) use rigid_part::RigidPart;

/// The value of the greatest size; of nearly equal ones the first, so that rounding does not choose.
pub(crate) fn greatest(values: impl IntoIterator<Item = f64>) -> f64 {
    values.into_iter().fold(0.0, |best: f64, value| if value.abs() > best.abs() * (1.0 + 1e-6) { value } else { best })
}

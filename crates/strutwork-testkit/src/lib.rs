//! Fixtures and closeness for tests.

mod buggy;
mod close;
mod folder;
mod frames;
mod linked;
pub mod rig;

pub use buggy::buggy;
pub use close::{assert_close, assert_close_by};
pub use folder::{Folder, solve};
pub use frames::Lattice;
pub use linked::linked_buggy;

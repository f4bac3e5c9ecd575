//! Fixtures and closeness for tests.

mod buggy;
mod close;
mod evaluate;
mod folder;
mod frames;
mod linked;
pub mod rig;

pub use buggy::buggy;
pub use close::{assert_close, assert_close_by};
pub use evaluate::{Range, evaluate, printed};
pub use folder::{Folder, solve};
pub use frames::Lattice;
pub use linked::linked_buggy;

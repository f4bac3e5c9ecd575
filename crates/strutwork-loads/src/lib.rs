//! What acts on the frame: from a model's load files, or built by a case script, to [`LoadCases`].
//!
//! The list of derivations, in reading order:
//! - [`case`]: what a load case is, and the story of how it was derived;
//! - [`derive_plain`]: the cases of the load files, with self weight where the options ask for it;
//! - [`masses`]: total mass, centre of gravity, inertia;
//! - [`spread()`]: a force and a moment shared among joints, statically equivalent;
//! - [`wheels`]: wheel loads of a standing, cornering or braking vehicle;
//! - [`build`]: the builder that case scripts use;
//! - [`factors`]: factors of `model.toml` that no case asked for;
//! - [`error`]: what can be wrong with loads, with its codes and pages.

pub mod build;
pub mod case;
pub mod error;
pub mod explain;
pub mod factors;
pub mod masses;
pub mod wheels;

mod body;
mod plain;
mod spread;

pub use build::CaseBuilder;
pub use case::{LoadCase, LoadCases};
pub use error::LoadError;
pub use explain::PAGES;
pub use masses::MassModel;
pub use plain::derive_plain;
pub use spread::spread;

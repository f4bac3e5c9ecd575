//! What acts on the frame: from a model's load files, or built by a case script, to [`LoadCases`].
//!
//! The list of derivations, in reading order:
//! - [`case`]: what a load case is, and the story of how it was derived;
//! - [`derive_plain`]: the cases of the load files, with self weight where the options ask for it;
//! - [`account()`]: what acts in a case, entry by entry, to be added up by hand;
//! - [`masses`]: total mass, centre of gravity, inertia; the comparison with the scales;
//! - [`loads`]: a force and a moment onto what carries them, a body force onto everything;
//! - [`spread()`]: a force and a moment shared among joints, statically equivalent;
//! - [`suspension`]: from what acts on an upright to the forces of its links;
//! - [`wheels`]: wheel loads of a standing, cornering or braking vehicle;
//! - [`roll`]: how a frame that twists shares the roll couple;
//! - [`carried_inertia`]: what the frame carries, as inertia on joints and bodies, for natural modes;
//! - [`inertia`]: the inertia of the six unit accelerations, for the solver;
//! - [`build`]: the builder that case scripts use;
//! - [`factors`]: factors of `model.toml` that no case asked for;
//! - [`error`]: what can be wrong with loads, with its codes and pages.

pub mod build;
pub mod case;
pub mod error;
pub mod explain;
pub mod factors;
pub mod field;
pub mod inertia;
pub mod loads;
pub mod masses;
pub mod roll;
pub mod suspension;
pub mod wheels;

mod account;
mod basis;
mod carried;
mod plain;
mod spread;

pub use account::{Account, Entry, Line, account};
pub use build::CaseBuilder;
pub use carried::{CarriedInertia, CarriedShare, carried_inertia};
pub use case::{LoadCase, LoadCases};
pub use error::LoadError;
pub use explain::PAGES;
pub use field::Field;
pub use inertia::{InertiaLoads, UnitInertia, unit_inertia};
pub use loads::{Loads, PointLoad};
pub use masses::MassModel;
pub use plain::derive_plain;
pub use roll::RollModel;
pub use spread::spread;
pub use suspension::{Uprights, check_suspension};

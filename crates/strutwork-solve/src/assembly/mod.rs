//! From elements to equations.

mod coupled;
mod load_vectors;
mod pattern;
mod system;

pub(crate) use coupled::{Coupled, plain};
pub use load_vectors::{LoadVectors, SpanLoads};
pub(crate) use load_vectors::{end_loads, node_loads};
pub use pattern::Pattern;
pub use system::System;

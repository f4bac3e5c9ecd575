//! From elements to equations.

mod load_vectors;
mod pattern;
mod system;

pub(crate) use load_vectors::raw_end_loads;
pub use load_vectors::{LoadVectors, SpanLoads};
pub use pattern::Pattern;
pub use system::System;

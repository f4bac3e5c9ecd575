//! From elements to equations.

mod load_vectors;
mod pattern;
mod system;

pub use load_vectors::LoadVectors;
pub(crate) use load_vectors::SpanLoads;
pub(crate) use load_vectors::raw_end_loads;
pub use pattern::Pattern;
pub use system::System;

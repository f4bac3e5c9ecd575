//! Sparse linear algebra behind our own types.

mod factor;
mod ordering;

pub use factor::{Factored, NotPositive, Symbolic};

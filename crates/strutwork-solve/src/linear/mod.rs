//! Sparse linear algebra behind our own types.

mod dense;
mod factor;
mod fronts;
mod groups;
mod layout;
mod library;
mod ordering;
mod passes;
mod plan;
mod pool;
mod reroot;
mod signs;
mod solve;
#[cfg(test)]
mod tests;
mod tiles;
mod tree;

pub(crate) use factor::elimination_order;
pub use factor::{Factored, NotPositive, Symbolic};
pub(crate) use signs::Signs;

/// Multiplications of columns eliminated together: their square, the rows below, and the update of the rest.
fn work(width: usize, below: usize) -> f64 {
    let (width, below) = (width as f64, below as f64);
    width * width * width / 3.0 + width * width * below + width * below * below
}

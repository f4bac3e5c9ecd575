//! Several variants of one topology factored and solved side by side, one a lane of the processor's registers.

#![allow(clippy::needless_range_loop, reason = "indices of rows and columns are how such arithmetic is read")]

mod assemble;
mod kernels;
mod solution;
mod sweep;

pub(super) use solution::{Case, Solution};
pub(super) use sweep::Sweep;

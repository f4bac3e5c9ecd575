//! Whether the numbers can be trusted.

pub mod condition;
pub mod equilibrium;
pub mod left_out;
pub mod residual;
pub mod slender;
pub mod small_rotations;
pub mod wheels;

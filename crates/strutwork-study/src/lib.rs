//! Variants of a frame: which tube, which gauge, which diagonal earns its weight.
//!
//! - [`sensitivity`]: what each tube is worth, from one more solution a response;
//! - [`sizing`]: the lightest or cheapest sizes from a stock list that meet limits;
//! - [`robustness`]: the band of the answers when walls, sizes and joints vary within tolerances.

mod random;
pub mod robustness;
pub mod sensitivity;
pub mod sizing;

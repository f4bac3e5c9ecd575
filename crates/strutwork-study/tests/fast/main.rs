//! Variants solved together are what the whole way gives.

mod agree;
#[path = "../common/bracket.rs"]
mod bracket;
mod frames;
mod ways;

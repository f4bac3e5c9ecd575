//! Variants solved together are what the whole way gives.

mod agree;
mod frames;
mod ways;

//! Studies as a whole, on models written as folders.

mod bracket;
mod common;
mod fast;
mod robustness;
mod sensitivity;
mod sizing;
mod variants;

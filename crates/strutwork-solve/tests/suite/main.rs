//! The solver as a whole, on models written as folders.

mod counters;
mod laws;
mod mechanisms;
mod spans;

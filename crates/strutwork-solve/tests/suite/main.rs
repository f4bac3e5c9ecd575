//! The solver as a whole, on models written as folders.

mod bays;
mod bodies;
mod body_laws;
mod counters;
mod free;
mod laws;
mod mechanisms;
mod mounts;
mod panels;
mod random;
mod spans;

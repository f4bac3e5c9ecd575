//! The solver as a whole, on models written as folders.

mod bays;
mod bodies;
mod body_laws;
mod buckling;
mod counters;
mod exact_buckling;
mod free;
mod laws;
mod mechanisms;
mod mode_names;
mod mode_states;
mod modes;
mod mounts;
mod panels;
mod random;
mod reanalysis;
mod second_order;
mod second_order_frames;
mod second_order_laws;
mod spans;

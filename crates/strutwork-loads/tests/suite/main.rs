//! Masses, loads and load cases as a whole, on models written as folders.

mod balance;
mod masses;
mod uprights;
mod vehicle;

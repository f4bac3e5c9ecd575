//! The model crate from the outside: whole folders in, a model or every fault out.

mod faults;
mod folder;
mod laws;
mod reading;
mod sections;

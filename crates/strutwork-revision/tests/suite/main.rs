//! What is a change of a model, and what is none.

mod common;
mod demo;
mod laws;
mod one_by_one;
mod results;

//! What differs between two revisions of a frame. Texts and models go in, data comes out; files are read and pages are
//! written elsewhere.
//!
//! In reading order:
//! - [`results`]: the files of a result folder as named quantities;
//! - [`inputs`]: what differs between two models;
//! - [`differences`]: what differs between their results, and what a change did to the frame;
//! - [`baseline`]: expected values, kept in a file and held against later runs;
//! - [`codes`] and [`explain`]: what can be wrong with them.

pub mod baseline;
pub mod codes;
pub mod differences;
pub mod explain;
pub mod inputs;
pub mod results;

mod number;
mod sheet;

pub use differences::{Comparison, Revision, compare};
pub use inputs::{Change, Inputs, compare_models};
pub use results::{Kind, Quantity, ResultSet, read_results};

//! Expected values of a model, kept in a text file beside it: recorded once, held against every later run.
//!
//! ```text
//! a run's tables ──choose──▶ quantities ──tolerance──▶ Baseline ──write──▶ baseline.csv
//! baseline.csv ──read──▶ Baseline ──hold, against a new run's quantities──▶ Held ──▶ text, JUnit XML, annotations
//! ```
//!
//! In reading order: [`quantity`] what is kept; [`usual`] the choice that a frame is judged by; [`keep`] other choices;
//! [`tolerance`] how far a value may lie off, and why; [`record`](mod@record) the whole; [`file`](mod@file) as data,
//! [`read`](mod@read) and [`write`](mod@write) as text; [`hold`](mod@hold) the comparison; [`junit`](mod@junit) and
//! [`annotations`](mod@annotations) what CI services read.

pub mod annotations;
pub mod codes;
pub mod explain;
pub mod file;
pub mod hold;
pub mod junit;
pub mod keep;
pub mod quantity;
pub mod read;
pub mod record;
pub mod tolerance;
pub mod usual;
pub mod wording;
pub mod write;

pub use annotations::{Service, annotations};
pub use file::{Baseline, Entry, FILE, Setting};
pub use hold::{Departure, Held, InputChange, Row, Standing, hold};
pub use junit::{Checked, Outcome, junit};
pub use keep::Pattern;
pub use quantity::{Kept, Key, Value};
pub use read::read_baseline;
pub use record::{Circumstances, every, idle, record};
pub use tolerance::Rule;
pub use write::write_baseline;

#[cfg(test)]
mod tests;

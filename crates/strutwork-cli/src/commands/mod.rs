//! One file a command. Each takes what was typed and the terminal, and ends in an outcome or a failure.

pub mod check;
pub mod completions;
pub mod explain;
pub mod man;
pub mod new;
pub mod reference;
pub mod run;
pub mod script;
pub mod summary;
pub mod validate;

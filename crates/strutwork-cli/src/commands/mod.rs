//! One file a command. Each takes what was typed and the terminal, and ends in an outcome or a failure.

pub mod completions;
pub mod man;
pub mod new;

//! One file a command. Each takes what was typed and the terminal, and ends in an outcome or a failure.

pub(crate) mod baseline;
pub(crate) mod beside;
pub(crate) mod check;
pub(crate) mod compare;
pub(crate) mod completions;
pub(crate) mod explain;
pub(crate) mod man;
mod measured;
pub(crate) mod new;
pub(crate) mod reference;
pub(crate) mod run;
pub(crate) mod script;
mod second_order;
pub(crate) mod study;
pub(crate) mod summary;
pub(crate) mod validate;
pub(crate) mod working;

//! Judgements: whether the numbers can be trusted (`trust`), and whether the frame is strong enough (`design`).

pub mod finding;

pub use finding::{Finding, Subject};

//! The code of practice, one subject a file: numbers in (SI), a judgement out; it knows no model.
//!
//! Every check is generic over a [`Sink`](crate::calculation::Sink): [`Silent`](crate::calculation::Silent) for the sweep,
//! [`Pages`](crate::calculation::Pages) to write it out. Clauses are those of EN 1993; which sentences were read and which
//! are recalled stands beside each.

pub mod bolt;
pub mod class;
pub mod effective;
pub mod elastic;
pub mod fatigue;
pub mod haz;
pub mod joint;
pub mod member;
pub mod movement;
pub mod panel;
pub mod profile;
#[cfg(test)]
pub(crate) mod profiles;
mod ratios;
pub mod section;
pub mod steel;
pub mod weld;
#[cfg(test)]
pub(crate) mod worked;

pub use steel::{Partial, Verdict};

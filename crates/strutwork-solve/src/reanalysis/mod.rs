//! Many variants of one topology, solved exactly: what they share is prepared once, and each variant costs only what it changes.
//!
//! ```text
//! Model + LoadCases ──prepare──▶ Family ──▶ Worker (one a thread) ◀── Variants
//!                                             │ side by side in lanes · by update of the kept solutions · one by one
//!                                             ▼
//!                                          Outcomes
//! ```
//!
//! A [`Family`] is a frame whose joints, tubes and panels stay where they are; a [`Variant`] gives some tubes another section
//! or material, or takes them out, and makes panels stiffer or softer. Elimination order, pattern, index work, geometry and
//! right-hand sides are found once. Each variant then goes the way that takes the fewest operations, counted beforehand:
//!
//! - **lanes**: as many variants as the processor's registers hold numbers are assembled, factored and solved side by side;
//! - **update**: where few of the tubes named in [`Family::keep`] change, the solutions of the family itself are corrected
//!   for them, exactly;
//! - **whole**: a very large frame is factored by itself, as [`solve_cases`](crate::solve_cases) would;
//! - **singly**: what does not fit the others, or came out doubtful, goes through all steps of
//!   [`solve_cases`](crate::solve_cases), which also tells a mechanism by its joints.
//!
//! A variant's bits do not depend on which variants stand beside it, nor on the number of threads.

mod alone;
mod blocks;
mod buffers;
mod ends;
mod family;
mod group;
mod lanes;
mod moved;
mod parallel;
mod pieces;
mod recovered;
mod update;
mod variant;
mod worker;

pub use family::{Family, Rights, RightsError};
pub use moved::{Moved, Movements, Outcome, Route};
pub use parallel::Workers;
pub use recovered::Recovered;
pub use variant::{TubeSet, TubeStiffness, Variant};
pub use worker::{Work, Worker};

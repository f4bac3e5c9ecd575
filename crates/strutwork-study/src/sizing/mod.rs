//! The lightest or cheapest sizes that keep to limits.
//!
//! ```text
//! task ──relax──▶ sizes between those of the list ──round up, repair──▶ a frame that keeps to the limits
//!          moving asymptotes, exact derivatives        ──exchange, checked by whole solutions──▶ best found
//!                                                      ──every cheaper choice tried──▶ proven, where there are few enough
//! ```
//!
//! A design is told only on a whole solution of the frame made of it. What guides the search (solutions side by side on one
//! analysis, derivatives carried on by reciprocals) may be wrong; it then costs time, never a false answer.

mod checked;
mod choice;
mod continuous;
mod convex;
mod descent;
mod discrete;
mod engine;
mod fault;
mod frame;
mod front;
mod hunt;
mod limits;
mod moves;
mod outcome;
mod proof;
mod relaxed;
mod rows;
mod task;

pub(crate) use checked::worst_utilisation;
pub(crate) use choice::entry;
pub use choice::{AxialLimit, Choice, Size, Variable};
pub use fault::SizingFault;
pub use front::{FrontPoint, front};
pub use limits::{LimitUse, Limits, MovementCap, Strength};
pub use outcome::{Chosen, Effort, Proof, SizedDesign, SizingOutcome};
pub use relaxed::with_wall;
pub use task::{Aim, Derive, Search, Task, variables_of_groups, variables_of_mirrored_tubes};

/// Works on a task.
///
/// # Errors
/// [`SizingFault`] where the task says no sense. That no choice keeps to the limits is no fault: the outcome has no best design then,
/// and says how near the search came.
pub fn size(task: &Task<'_>) -> Result<SizingOutcome, SizingFault> {
    task.check()?;
    if task.is_continuous() { continuous::size(task) } else { discrete::size(task) }
}

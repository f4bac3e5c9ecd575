//! Numbering, assembly, factorisation, solution, recovery: from load cases to results.
//!
//! ```text
//! Model + LoadCases ──number──▶ Numbering ──assemble──▶ System ──factor──▶ Factored ──solve──▶ Solution ──recover──▶ Results
//! ```
//!
//! [`solve_cases`] takes all the steps. Cases with the same supports share one factorisation and are solved in one block,
//! in the order in which they were built, so that the same input gives the same bits on any number of threads.
//!
//! The unknowns are the movements of the joints and of the bodies. A rigid bolt makes a joint's freedoms follow from its
//! body's, exactly; a free frame is held at six freedoms that strain nothing, and its displacements are freed of the choice.

mod analysis;
mod assembly;
pub mod bays;
pub mod buckling;
pub mod counters;
mod eigen;
mod elements;
mod equilibrium;
pub mod error;
pub mod explain;
mod linear;
mod mechanism;
pub mod modes;
mod numbering;
pub mod quantity;
pub mod reanalysis;
pub mod recover;
mod registers;
mod relief;
pub mod results;
mod rigid;
pub mod second_order;
mod trust;

pub use analysis::solve_cases;
pub use bays::{Bays, find_bays};
pub use buckling::{Buckling, BucklingWanted, FrameLengths, Pieces, buckle_cases, buckling};
pub use counters::Counters;
pub use elements::{Element, Elements, panel_sides};
pub use error::SolveError;
pub use mechanism::size as half_diagonal;
pub use modes::{
    FrequencyShift, Modes, ModesWanted, frequency_shift, natural_modes, natural_modes_of_each, natural_modes_under,
};
pub use results::{CaseResult, Results};
pub use second_order::{SecondOrder, SecondOrderWanted, solve_second_order};

/// The stages one by one, for benches that time each.
pub mod stages {
    pub use crate::assembly::{LoadVectors, Pattern, SpanLoads, System};
    pub use crate::linear::{Factored, NotPositive, Symbolic};
    pub use crate::numbering::Numbering;
    pub use crate::recover::recover_tubes;
}

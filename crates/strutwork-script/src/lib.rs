//! The Rhai surface: the standard load cases, a model's own, and free-standing scripts.
//!
//! The only crate that names Rhai. A script function is a thin wrapper of a public Rust function; the list of subjects is
//! in `api/mod.rs`. Outside itself a script reaches only what its [`Host`] gives it.
//!
//! - [`run_cases`]: case scripts on one model, to load cases;
//! - [`run_script`]: a free-standing script;
//! - [`STANDARD_CASES`]: the standard load cases of a vehicle, themselves scripts;
//! - [`VariantCases`], [`StudyJob`]: the load cases of the variants of a study, and a host's part in its run;
//! - [`reference_markdown`], [`definitions`]: the manual, from the functions themselves;
//! - [`ScriptError`]: where a script ended and why, with the typed error of what it called.

mod api;
mod closures;
mod engine;
mod error;
pub mod explain;
mod fault;
mod handle;
mod host;
mod limits;
mod number;
mod operators;
mod reference;
mod resolver;
mod run;
mod session;
mod standard;
mod studies;
mod suggest;

pub use error::{ScriptError, ScriptErrorKind};
pub use fault::Fault;
pub use host::{Host, HostError, NoHost, ScriptHost};
pub use limits::Limits;
pub use reference::{Function, definitions, functions, reference_markdown};
pub use run::{CaseScript, Outcome, run_cases, run_cases_on, run_script};
pub use standard::STANDARD_CASES;
pub use studies::{StudyEnd, StudyJob, VariantCases, run_in_memory};

//! Variants of a frame: which tube, which gauge, which diagonal earns its weight.
//!
//! ```text
//! Study ──variant(i)──▶ values ──apply──▶ ModelSpec ──evaluate──▶ Outcome ──line──▶ journal ──rows──▶ tables
//! ```
//!
//! In reading order:
//! - [`Study`]: what is varied ([`Parameter`]), which variants ([`Design`]), what is asked of each ([`Response`]), what must
//!   hold ([`Constraint`]), as data;
//! - [`mod@change`]: a parameter's value, put into a spec;
//! - [`Evaluate`], [`Exact`]: from a variant to its [`Outcome`]; what cannot be built or solved is an outcome too;
//! - [`run()`]: many variants side by side, handed over in their order;
//! - [`journal`]: outcomes as lines that are only ever added, each with a checksum; shards and their union;
//! - [`Tally`]: what came out, counted while it passes by; [`Overview`]: what a page tells of it;
//! - [`Start`]: the model that a study starts from, and what its tubes are worth;
//! - [`usual`]: the questions that need no script;
//! - [`sensitivity`]: what each tube is worth, from one more solution a response;
//! - [`sizing`]: the lightest or cheapest sizes from a stock list that meet limits;
//! - [`robustness`]: the band of the answers when walls, sizes and joints vary within tolerances.
//!
//! A study keeps no more than a batch of variants: variants are made from their numbers, and outcomes pass on.

pub mod change;
pub mod design;
pub mod evaluate;
pub mod exact;
pub mod fast;
pub mod fault;
pub mod identity;
pub mod journal;
pub mod outcome;
pub mod overview;
pub mod parameter;
mod random;
pub mod read_off;
pub mod response;
pub mod robustness;
pub mod run;
pub mod sensitivity;
pub mod sizing;
pub mod solved;
pub mod start;
pub mod study;
pub mod tally;
pub mod usual;
pub mod value;

pub use design::Design;
pub use evaluate::{CaseSource, Evaluate, Own, Trouble};
pub use exact::Exact;
pub use fast::Fast;
pub use fault::StudyFault;
pub use outcome::{Outcome, Row, Status, Way, Why};
pub use overview::Overview;
pub use parameter::{Change, Levels, Parameter, Tubes};
pub use response::{Asked, MountForce, Response};
pub use run::{Pace, Paused, run};
pub use solved::Solved;
pub use start::Start;
pub use study::{Cases, Constraint, Limit, Study};
pub use tally::Tally;
pub use value::Value;

//! What was measured on the real frame, held against the model: readings of a twist rig, and what the scales say.
//!
//! ```text
//! RigSheet ──screen, suspect──▶ Readings ──twist, fit──▶ lines ──judge──▶ Judgement
//! Model + RigSheet ──modelled──▶ Modelled ─────────────────────▲
//! ```
//!
//! - [`evidence()`]: all that a model's folder holds of measurements, judged;
//! - [`judge()`]: from a sheet to a judgement;
//! - [`modelled()`]: the model loaded as the rig loads the frame;
//! - [`fit_line`]: the least-squares line that stiffness comes from;
//! - [`mass_sheet`]: the scales against the model;
//! - [`Remark`]: what is said, with its code; [`PAGES`]: what the codes mean.
//!
//! Nothing is mended in silence: what is left out, or read otherwise than written, is a remark with its line and its reason.

mod evidence;
mod explain;
mod judge;
pub mod line;
mod modelled;
mod readings;
mod remark;
mod screen;
mod suspect;
mod twist;
mod weights;
mod words;

pub use evidence::{Evidence, RigEvidence, evidence, rig_evidence};
pub use explain::PAGES;
pub use judge::{Against, Bay, Curvature, CycleZero, Hysteresis, Judgement, Measured, Standing, StationLine, judge};
pub use line::{Line, Sample, SteadyLine, fit_line};
pub use modelled::{Modelled, NotModelled, modelled};
pub use readings::Side;
pub use remark::{Remark, codes};
pub use weights::{MassSheet, WeighedCentre, WeighedHeight, WeighedPartRow, mass_sheet};

//! The codes of baselines.

use strutwork_model::Code;

/// The file is no baseline.
pub const NO_BASELINE: Code = Code("B001");
/// A row that cannot be read.
pub const BAD_ROW: Code = Code("B002");
/// A quantity that stands there twice.
pub const TWICE: Code = Code("B003");
/// An option that cannot be repeated.
pub const BAD_OPTION: Code = Code("B004");
/// A pattern that keeps nothing.
pub const KEEPS_NOTHING: Code = Code("B005");
/// A value lies further off than its tolerance.
pub const DEPARTS: Code = Code("B010");
/// A quantity that the run does not have.
pub const MISSING: Code = Code("B011");
/// A quantity that the baseline does not have.
pub const NEW: Code = Code("B012");
/// The model is not the one that was recorded.
pub const MODEL_CHANGED: Code = Code("B013");
/// Recorded by another version of the program.
pub const OTHER_VERSION: Code = Code("B014");

/// Every code of baselines, in order.
pub const ALL: &[Code] =
    &[NO_BASELINE, BAD_ROW, TWICE, BAD_OPTION, KEEPS_NOTHING, DEPARTS, MISSING, NEW, MODEL_CHANGED, OTHER_VERSION];

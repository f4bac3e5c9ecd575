//! The codes of this crate: what is wrong with files of results.

use strutwork_model::Code;

/// A table of results is not UTF-8 text.
pub const NOT_TEXT: Code = Code("C001");
/// A table of results lacks a column.
pub const NO_COLUMN: Code = Code("C002");
/// A row of a table of results has too few or too many cells.
pub const CELL_COUNT: Code = Code("C003");
/// Something else where a number belongs.
pub const NOT_A_NUMBER: Code = Code("C004");
/// `run.json` cannot be read.
pub const BAD_RUN: Code = Code("C005");
/// A folder of results without `run.json`.
pub const NO_RUN: Code = Code("C006");
/// A table that every run writes is not there.
pub const NO_TABLE: Code = Code("C007");
/// A file of results that was changed after the run that wrote it, or is gone.
pub const CHANGED_SINCE: Code = Code("C008");
/// A folder of results that keeps no copy of its inputs.
pub const NO_INPUTS: Code = Code("C009");
/// Kept inputs that this version cannot read as a model.
pub const INPUTS_UNREADABLE: Code = Code("C010");

/// Every code of this crate, in order.
pub const ALL: &[Code] = &[
    NOT_TEXT,
    NO_COLUMN,
    CELL_COUNT,
    NOT_A_NUMBER,
    BAD_RUN,
    NO_RUN,
    NO_TABLE,
    CHANGED_SINCE,
    NO_INPUTS,
    INPUTS_UNREADABLE,
];

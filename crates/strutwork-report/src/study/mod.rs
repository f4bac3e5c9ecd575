//! The variants of a study as files, written row by row: a study may have more of them than fit into memory.
//!
//! Columns: `variant`, the parameters, the responses, `feasible` where the study has constraints, `status`, `note`. The unit
//! is in every name.

mod csv;
mod parquet;

pub use csv::{csv_header, csv_row};
pub use parquet::ParquetRows;

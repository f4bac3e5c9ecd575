//! A finished study ([`StudyRun`], of which the page is made), and its variants as files, written row by row: a study may have more of them than fit into memory.
//!
//! Columns: `variant`, the parameters, the responses, `feasible` where the study has constraints, `status`, `note`. The unit
//! is in every name.

mod csv;
mod parquet;
mod told;

pub use csv::{csv_header, csv_row};
pub use parquet::ParquetRows;
pub use told::StudyRun;

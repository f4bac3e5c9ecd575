//! A finished run as tables, figures and the text of files. The report computes no result: it converts units, rounds and
//! picks maxima. It reads no file and no clock; the command line writes what it returns.
//!
//! In reading order:
//! - [`run`]: what a report is made of;
//! - [`table`] and [`tables`]: tables as data, one a file;
//! - [`figures`]: pictures and charts;
//! - [`compare`]: two revisions side by side;
//! - [`study`]: a finished study, and its variants as CSV and Parquet, row by row;
//! - [`write`](mod@write): CSV, JSON, HTML and PDF.

pub mod basis;
pub mod compare;
pub mod envelope;
pub mod extremes;
pub mod figures;
pub mod lists;
pub mod number;
mod opening;
pub mod run;
pub mod study;
pub mod table;
pub mod tables;
pub mod tally;
pub mod utilisation;
pub mod write;

pub use compare::Compared;
pub use run::{Asked, InputDigest, Run, RunInfo, Since, Validated};
pub use strutwork_paper::{PaperError, Sheet};
pub use write::csv::csv_files;
pub use write::html::compared::compare_html;
pub use write::html::report_html;
pub use write::json::compare::compare_json;
pub use write::json::run_json;
pub use write::pdf::report_pdf;
pub use write::study::study_files;

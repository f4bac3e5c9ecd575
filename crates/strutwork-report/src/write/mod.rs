//! The writers: tables and figures to the text of files.

pub mod csv;
pub mod html;
pub mod json;
pub mod pdf;
pub mod study;

//! From a finished run to the text of every file.

mod beside;
mod csv;
mod fixture;
mod html;
mod json;
mod judging;
mod large;
mod pdf;
mod pictures;
mod read_again;
mod rolling;
mod study;
mod turn;
mod vehicle;

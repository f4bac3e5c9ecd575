//! End to end: the program is run as a user runs it, and its files, its text and its exit code are looked at.
//!
//! New cases belong into `tests/suite/`, as data; a module here is for what a folder of text cannot say.

mod harness;

mod asked;
mod baseline;
mod book;
mod browser;
mod by_hand;
mod codes;
mod commands;
mod demos;
mod determinism;
mod driven;
mod fixtures;
mod mutations;
mod outputs;
mod pdf;
mod report;
mod revisions;
mod scripts;
mod second;
mod second_order;
mod studies;
mod study_page;
mod study_pictures;
mod suite;
mod turn;
mod working;

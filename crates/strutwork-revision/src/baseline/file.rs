//! A baseline as data.

use super::keep::Pattern;
use super::quantity::Kept;
use super::tolerance::Rule;
use crate::results::InputHash;

/// The file's name in a model's folder. It is no file of the model's.
pub const FILE: &str = "baseline.csv";

/// The version of the file's format that is written and read.
pub const FORMAT: &str = "1";

/// Expected values of a model, how they were made, and how far new ones may lie off.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Baseline {
    /// Version of the program that recorded it.
    pub recorded_by: String,
    /// How the run was asked for; a check repeats it.
    pub options: Vec<Setting>,
    /// Which quantities are kept.
    pub keep: Vec<Pattern>,
    /// Files that the run read.
    pub inputs: Vec<InputHash>,
    /// Why tolerances are what they are.
    pub rules: Vec<Rule>,
    /// The expected values, in the order of the run's tables.
    pub entries: Vec<Entry>,
}

/// An option of `run`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Setting {
    /// Its name without dashes: `modes`.
    pub name: String,
    /// Its value; empty where it has none.
    pub value: String,
    /// Its line in the file, counted from 1; 0 where it was not read from one.
    pub line: usize,
}

/// One expected value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// What it is, and its value.
    pub kept: Kept,
    /// How far a new value may lie from it, in the quantity's unit; 0 for words and counts.
    pub tolerance: f64,
    /// The name of a rule, or a reason of the author's own.
    pub why: String,
    /// Its line in the file, counted from 1; 0 where it was not read from one.
    pub line: usize,
}

impl Baseline {
    /// The rule of this name.
    pub fn rule(&self, name: &str) -> Option<&Rule> {
        self.rules.iter().find(|rule| rule.name == name)
    }
}

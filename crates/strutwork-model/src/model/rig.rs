//! Readings of a twist rig, as they were taken.

use crate::ids::JointId;

/// The sheet of a twist rig: `rig.csv` and `[rig]`, checked for form, not judged.
///
/// # Units and shapes
/// m, N·m; readings positive where the frame rises.
///
/// # Signs and order
/// A positive couple raises the left side at the loaded station. Steps stand in the order in which they were taken.
#[derive(Debug, Clone, PartialEq)]
pub struct RigSheet {
    /// The stations, in the order in which they first appear.
    pub stations: Vec<RigStation>,
    /// The steps, in the order in which they first appear.
    pub steps: Vec<RigStep>,
    /// The readings, in the order of the file.
    pub readings: Vec<RigReading>,
    /// Whether the dials as written grow when the frame sinks: they are turned round in the readings.
    pub dials_down: bool,
    /// Smallest step of a dial, m.
    pub resolution: f64,
    /// How far two readings of one state differ, m.
    pub repeatability: f64,
    /// How well the couple is known, a share either way.
    pub couple_tolerance: f64,
    /// How well the spacing of two dials is known, m either way.
    pub spacing_tolerance: f64,
    /// Cycles at the beginning that are left out; `None`: by rule.
    pub settling_cycles: Option<usize>,
    /// The stations between which K is stated, by place; `None`: the loaded and the nearest held one.
    pub between: Option<[usize; 2]>,
    /// Whether the model's panels were on the frame.
    pub panels_fitted: bool,
    /// What the report prints of the rig.
    pub words: RigWords,
}

/// What the user says of the rig.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RigWords {
    /// What was held where; empty where not said.
    pub held: String,
    /// How the couple was applied; empty where not said.
    pub loaded: String,
    /// What was on the frame; empty where not said.
    pub fitted: String,
}

/// A left and a right dial at one x.
#[derive(Debug, Clone, PartialEq)]
pub struct RigStation {
    /// Its name.
    pub name: String,
    /// Where it is, m, the model's axes.
    pub x: f64,
    /// Distance between its dials along y, m, above zero.
    pub spacing: f64,
    /// What it is for.
    pub role: RigRole,
    /// Its left and its right joint; `None` where the model is to be asked.
    pub joints: Option<[JointId; 2]>,
    /// The line of `rig.csv` where it first appears; 0 where it comes from elsewhere.
    pub line: usize,
}

/// What a station is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RigRole {
    /// Only read.
    Read,
    /// At a point that is held: it reads how far the rig itself yields.
    Held,
    /// Where the couple acts.
    Loaded,
}

impl RigRole {
    /// Its word in files; empty for a station that is only read.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Read => "",
            Self::Held => "held",
            Self::Loaded => "loaded",
        }
    }
}

/// A state in which every station was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigStep {
    /// Its cycle, as numbered in the file.
    pub cycle: u32,
    /// Its number, as in the file.
    pub number: u32,
    /// Whether the couple is being taken off.
    pub unloading: bool,
    /// The couple, N·m.
    pub couple: f64,
    /// The line of `rig.csv` where it first appears; 0 where it comes from elsewhere.
    pub line: usize,
}

/// One station in one step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigReading {
    /// The station, by its place in [`RigSheet::stations`].
    pub station: usize,
    /// The step, by its place in [`RigSheet::steps`].
    pub step: usize,
    /// The left dial, m, up positive; `None` where it was not read.
    pub left: Option<f64>,
    /// The right dial.
    pub right: Option<f64>,
    /// The line of `rig.csv`; 0 where it comes from elsewhere.
    pub line: usize,
}

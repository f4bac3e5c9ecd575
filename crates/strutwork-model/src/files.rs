//! The files of a model folder: which there may be, and their bytes as the caller read them.

/// One file of the model folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputFile {
    /// Its name relative to the model folder: `model.toml`, `joints.csv`, …
    pub name: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

impl InputFile {
    /// A file with this name and content.
    pub fn new(name: impl Into<String>, bytes: impl Into<Vec<u8>>) -> Self {
        Self { name: name.into(), bytes: bytes.into() }
    }
}

/// The files of the model folder that exist.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct InputFiles(pub Vec<InputFile>);

impl InputFiles {
    /// The bytes of the file with this exact name.
    pub fn get(&self, name: &str) -> Option<&[u8]> {
        self.0.iter().find(|file| file.name == name).map(|file| file.bytes.as_slice())
    }

    /// The text of the model's own case script; what is no UTF-8 in it is replaced. `None` where it has none.
    pub fn own_cases(&self) -> Option<String> {
        self.get(CASES).map(|bytes| String::from_utf8_lossy(bytes).into_owned())
    }
}

/// A file that a model folder may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct KnownFile {
    /// Its name.
    pub name: &'static str,
    /// Whether there is no model without it.
    pub required: bool,
    /// What it says, in a few words.
    pub holds: &'static str,
}

/// The settings: title, sections, materials, vehicle.
pub const MODEL: &str = "model.toml";
/// Where tubes meet.
pub const JOINTS: &str = "joints.csv";
/// What runs from joint to joint.
pub const TUBES: &str = "tubes.csv";
/// How joints are held.
pub const SUPPORTS: &str = "supports.csv";
/// Loads at joints.
pub const LOADS: &str = "loads.csv";
/// Loads along tubes.
pub const TUBE_LOADS: &str = "tube_loads.csv";
/// Loads at places along tubes.
pub const TUBE_POINT_LOADS: &str = "tube_point_loads.csv";
/// Warm and cold tubes.
pub const TEMPERATURES: &str = "temperatures.csv";
/// Prescribed movements of supports.
pub const SETTLEMENTS: &str = "settlements.csv";
/// What the frame carries.
pub const MASSES: &str = "masses.csv";
/// Skins that stiffen bays.
pub const PANELS: &str = "panels.csv";
/// Rigid modules and the joints they bolt to.
pub const BODIES: &str = "bodies.csv";
/// Links that hold the uprights of linked corners.
pub const SUSPENSION: &str = "suspension.csv";
/// Readings of a twist rig.
pub const RIG: &str = "rig.csv";
/// Parts on the scales.
pub const WEIGHED: &str = "weighed.csv";
/// The model's own load cases.
pub const CASES: &str = "cases.rhai";

/// Every file that a model folder may hold, in the order in which faults are listed.
pub const KNOWN_FILES: &[KnownFile] = &[
    known(MODEL, true, "title, materials, sections, vehicle"),
    known(JOINTS, true, "where tubes meet"),
    known(TUBES, true, "what runs from joint to joint"),
    known(SUPPORTS, false, "how joints are held"),
    known(LOADS, false, "forces and moments at joints and on bodies"),
    known(TUBE_LOADS, false, "loads along tubes"),
    known(TUBE_POINT_LOADS, false, "forces and moments along tubes"),
    known(TEMPERATURES, false, "warm and cold tubes"),
    known(SETTLEMENTS, false, "movements of supports"),
    known(MASSES, false, "what the frame carries"),
    known(PANELS, false, "skins that stiffen bays"),
    known(BODIES, false, "rigid modules and the joints they bolt to"),
    known(SUSPENSION, false, "links that hold the uprights of linked corners"),
    known(RIG, false, "readings of a twist rig, to hold against the model"),
    known(WEIGHED, false, "parts on the scales, to hold against the model"),
    known(CASES, false, "the model's own load cases, a script"),
];

const fn known(name: &'static str, required: bool, holds: &'static str) -> KnownFile {
    KnownFile { name, required, holds }
}

//! The files of a result folder as named quantities: what of, in which case, which quantity, in which unit, how much.
//!
//! The way in is [`read_results`]: the bytes of the files that `run` writes go in, a [`ResultSet`] or every fault comes out.
//! A run of now is read through the same door, from the texts that it would write.

mod about;
mod along;
mod judged;
mod plain;
mod table;
#[cfg(test)]
mod tests;
mod whole;

use std::borrow::Cow;

use strutwork_model::{Diagnostic, Faults, InputFiles, Severity, Warned};

pub use about::{About, InputHash};
pub use along::ALONG;
pub use judged::{FindingRow, ItemRow};
pub use plain::TABLES;
pub use whole::{OF_FRAME, OF_TRUST};

use table::Met;

use crate::codes;

/// The file that says when, with what and from which inputs a run was made.
pub const RUN: &str = "run.json";

/// Tables that every run writes; where one is not there, a warning says that it is not compared.
pub const ALWAYS: [&str; 7] = [
    "displacements.csv",
    "member_forces.csv",
    "reactions.csv",
    "cases.csv",
    "findings.csv",
    "governing.csv",
    "mass_table.csv",
];

/// What a quantity is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// The frame as a whole: torsional stiffness, mass, centre of gravity, worst utilisation.
    Frame,
    /// The greatest utilisation of an item over all cases; the quantity says of which kind of item.
    Utilisation,
    /// A case as a whole: its torsional stiffness, its worst utilisation, its greatest movement and stress.
    Case,
    /// Natural modes.
    Mode,
    /// Natural modes under the forces of a case.
    ModeUnder,
    /// Load factors at which a case would buckle the frame.
    Buckling,
    /// Load factors at which a case turned round would buckle the frame.
    BucklingReversed,
    /// What the driver does to the natural modes.
    Shift,
    /// Loads of the bolts of bodies; the subject is `BODY at JOINT`.
    Mount,
    /// Forces of suspension links; the subject is `CORNER LINK`.
    Link,
    /// Reactions of supports.
    Reaction,
    /// Movements that a case measures.
    Movement,
    /// Twist between the joints of a station; the subject is `LEFT and RIGHT`.
    Twist,
    /// Forces and stresses of a tube, at its ends and their greatest along it.
    Tube,
    /// Movements of a joint.
    Joint,
    /// Shear of a panel.
    Panel,
    /// Movements of a body.
    Body,
    /// Stiffness of a bay; the subject is its corner joints.
    Bay,
    /// Buckling lengths of a tube from the frame's own load factors.
    EffectiveLength,
    /// How a case grows on the frame as it bends.
    SecondOrder,
    /// What an item weighs, and where its centre is.
    Mass,
    /// A weld; the subject is `TUBE at JOINT`.
    Weld,
    /// An end that the rule for soft joints makes less than rigid; the subject is `TUBE at JOINT`.
    SoftEnd,
    /// What acts.
    Load,
    /// How far the numbers can be trusted: residual, condition, imbalance. Noise beside the results.
    Trust,
}

impl Kind {
    /// All, in the order of lists: what matters most first.
    pub const ALL: [Self; 25] = [
        Self::Frame,
        Self::Utilisation,
        Self::Case,
        Self::Mode,
        Self::ModeUnder,
        Self::Buckling,
        Self::BucklingReversed,
        Self::Shift,
        Self::Mount,
        Self::Link,
        Self::Reaction,
        Self::Movement,
        Self::Twist,
        Self::Tube,
        Self::Joint,
        Self::Panel,
        Self::Body,
        Self::Bay,
        Self::EffectiveLength,
        Self::SecondOrder,
        Self::Mass,
        Self::Weld,
        Self::SoftEnd,
        Self::Load,
        Self::Trust,
    ];

    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Frame => "frame",
            Self::Utilisation => "utilisation",
            Self::Case => "case",
            Self::Mode => "mode",
            Self::ModeUnder => "mode-under",
            Self::Buckling => "buckling",
            Self::BucklingReversed => "buckling-reversed",
            Self::Shift => "frequency-shift",
            Self::Mount => "mount",
            Self::Link => "link",
            Self::Reaction => "reaction",
            Self::Movement => "movement",
            Self::Twist => "twist",
            Self::Tube => "tube",
            Self::Joint => "joint",
            Self::Panel => "panel",
            Self::Body => "body",
            Self::Bay => "bay",
            Self::EffectiveLength => "effective-length",
            Self::SecondOrder => "second-order",
            Self::Mass => "mass",
            Self::Weld => "weld",
            Self::SoftEnd => "soft-end",
            Self::Load => "load",
            Self::Trust => "trust",
        }
    }

    /// The kind with this word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }
}

/// A number among the results, and what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// What it is of.
    pub kind: Kind,
    /// The load case; empty where it holds for all.
    pub case: String,
    /// The name of what it is of; empty for the frame or the case as a whole.
    pub subject: String,
    /// Which quantity: the name of the column, `ux_mm`, or of the quantity in cases.csv, `torsional_stiffness`.
    pub quantity: Cow<'static, str>,
    /// Its unit as a reader sees it; empty for a ratio.
    pub unit: Cow<'static, str>,
    /// In that unit.
    pub value: f64,
}

/// Everything that the files of a result folder say.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ResultSet {
    /// When, with what and from which inputs it was made.
    pub about: About,
    /// Every number, table by table, in the order of the files. What tells one from another is kind, case, subject and
    /// quantity together.
    pub quantities: Vec<Quantity>,
    /// The rows of findings.csv.
    pub findings: Vec<FindingRow>,
    /// The rows of governing.csv: what governs each item, the worst first.
    pub items: Vec<ItemRow>,
    /// Natural modes by number, with their plain names.
    pub mode_names: Vec<(usize, String)>,
    /// The cases, in the order of the files.
    pub cases: Vec<String>,
}

impl ResultSet {
    /// The value of a quantity of the frame as a whole.
    pub fn of_frame(&self, quantity: &str) -> Option<f64> {
        self.quantities.iter().find(|one| one.kind == Kind::Frame && one.quantity == quantity).map(|one| one.value)
    }
}

/// Reads the files of a result folder. Other files are left alone, and tables that only some runs write may be missing.
///
/// # Units and shapes
/// Numbers are taken as they stand, in the units of the files.
///
/// # Errors
/// Every fault, each with its file and line: no `run.json` (C006) or one that cannot be read (C005), a table that is no text
/// (C001), lacks a column (C002), or has a row (C003) or a cell (C004) that cannot be read. A table that every run writes
/// and that is missing is a warning (C007).
pub fn read_results(files: &InputFiles) -> Result<Warned<ResultSet>, Faults> {
    let mut met = Met::default();
    let mut set = ResultSet { about: about::read(files, &mut met), ..ResultSet::default() };
    for name in ALWAYS {
        if files.get(name).is_none() {
            let help = "copy the folder whole, or run the model again";
            met.warning(
                codes::NO_TABLE,
                name,
                format!("`{name}` is not there: what stands in it is not compared"),
                help,
            );
        }
    }
    judged::read(files, &mut set, &mut met);
    whole::read(files, &mut set, &mut met);
    along::read(files, &mut set, &mut met);
    for of in TABLES {
        of.read(files, &mut set, &mut met);
    }
    let Met(all) = met;
    if all.iter().any(|one: &Diagnostic| one.severity == Severity::Error) {
        return Err(Faults(all));
    }
    Ok(Warned { value: set, warnings: all })
}

//! A published problem: its source, its model, the values that are printed.

use strutwork_model::files::InputFiles;
use strutwork_model::model::Wheel;

use crate::formula::Formula;
use crate::printed::Printed;
use crate::refine::Refine;
use crate::sizing::Sizing;
use crate::unit::Unit;
use crate::what::What;

/// All cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Suite {
    /// By family and name.
    pub cases: Vec<Case>,
}

/// A published problem.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// The folder it stands in: `beams`, `sections`, …
    pub family: String,
    /// Its own folder's name.
    pub name: String,
    /// One line for headings.
    pub title: String,
    /// What a reader must know.
    pub notes: Vec<String>,
    /// Where it comes from.
    pub source: Source,
    /// Whether the load cases are brought to balance by the frame's own inertia.
    pub balance: bool,
    /// Forces on wheels, which no load file can hold; they make load cases of their own.
    pub wheel_forces: Vec<WheelForce>,
    /// The model folder, in the file contract of every model; empty where formulas alone are asked for.
    pub files: InputFiles,
    /// Sizes that are to be chosen.
    pub sizing: Option<Sizing>,
    /// Formulas of strength that are asked for without a frame.
    pub formulas: Vec<Formula>,
    /// The printed values, in the order of the case.
    pub quantities: Vec<Quantity>,
    /// Studies of answers that are limits.
    pub refinements: Vec<Refine>,
}

/// A force on a wheel.
#[derive(Debug, Clone, PartialEq)]
pub struct WheelForce {
    /// The load case that it makes, with those of the same name.
    pub case: String,
    /// The wheel.
    pub wheel: Wheel,
    /// Where and how it acts.
    pub how: How,
    /// N, global axes.
    pub force: [f64; 3],
}

/// How a force acts on a wheel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// At the contact point, the wheel one piece with its upright.
    Road,
    /// Through the wheel's centre.
    Centre,
    /// Of the brake: along x.
    Brake,
    /// Of the drive: along x.
    Drive,
}

impl How {
    /// All, with their names in files.
    pub const NAMED: [(Self, &'static str); 4] =
        [(Self::Road, "road"), (Self::Centre, "centre"), (Self::Brake, "brake"), (Self::Drive, "drive")];
}

/// Where a case comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Who wrote it.
    pub author: String,
    /// The work.
    pub title: String,
    /// Edition or year; empty for none.
    pub edition: String,
    /// Example, table or page.
    pub place: String,
    /// What the values rest on.
    pub basis: Basis,
    /// How they came to us.
    pub seen: Seen,
}

/// What a printed value rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// A formula; the value is written out to the digits given.
    ClosedForm,
    /// A table of the source.
    PrintedTable,
    /// A worked example of the source.
    PrintedValues,
    /// Derived apart from this program.
    Derived,
}

impl Basis {
    /// All, in order.
    pub const ALL: [Self; 4] = [Self::ClosedForm, Self::PrintedTable, Self::PrintedValues, Self::Derived];

    /// Its words in files and reports.
    pub const fn word(self) -> &'static str {
        match self {
            Self::ClosedForm => "closed form",
            Self::PrintedTable => "printed table",
            Self::PrintedValues => "printed values",
            Self::Derived => "derived",
        }
    }
}

/// How a source came to us.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// The text was read.
    TextRead,
    /// Quoted from memory: nobody had the text at hand.
    FromMemory,
    /// Derived for this suite.
    DerivedHere,
}

impl Seen {
    /// All, in order.
    pub const ALL: [Self; 3] = [Self::TextRead, Self::FromMemory, Self::DerivedHere];

    /// Its words in files and reports.
    pub const fn word(self) -> &'static str {
        match self {
            Self::TextRead => "text read",
            Self::FromMemory => "from memory",
            Self::DerivedHere => "derived here",
        }
    }
}

/// One printed value.
#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    /// Which result of ours it is compared with.
    pub what: What,
    /// The unit it is printed in.
    pub unit: Unit,
    /// The value as it is printed.
    pub printed: Printed,
    /// The formula it was written out from; empty for none.
    pub formula: String,
    /// A tolerance other than half a unit of the last printed digit.
    pub allowed: Option<Allowed>,
    /// Where this value came to us another way than its case.
    pub seen: Option<Seen>,
}

/// A tolerance with its reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowed {
    /// Greatest difference, in the printed value's unit.
    pub difference: f64,
    /// Why it is not half a unit of the last printed digit.
    pub because: String,
}

//! What a frame must keep to, and how near it comes.

use strutwork_model::Dof;

/// What a frame must keep to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Limits {
    /// Least torsional stiffness, N·m/rad, of a case that measures twist, by its name.
    pub stiffness: Vec<(String, f64)>,
    /// Greatest movements.
    pub movements: Vec<MovementCap>,
    /// Least frequency of the first elastic mode, Hz; the frame is held by its own supports.
    pub frequency: Option<f64>,
    /// How strong it must be.
    pub strength: Strength,
}

/// How far a joint may move.
#[derive(Debug, Clone, PartialEq)]
pub struct MovementCap {
    /// The case's name; `None`: in every case.
    pub case: Option<String>,
    /// The joint's name.
    pub joint: String,
    /// The component, global axes.
    pub dof: Dof,
    /// Either way, m or rad, > 0.
    pub at_most: f64,
}

/// How strong a frame must be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Strength {
    /// Not looked at, but for the axial limits of the variables.
    #[default]
    None,
    /// Elastic stress within yield, in every case: check D001 with its margins.
    Yield,
    /// No design check exceeds its limit. A check whose clause does not cover an item is no pass: such items are counted beside
    /// the design.
    Checks,
}

/// How near a design comes to one limit.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitUse {
    /// What is limited, in words.
    pub what: String,
    /// The case; empty where it holds for all.
    pub case: String,
    /// What it comes to, in `unit`.
    pub value: f64,
    /// The limit, in `unit`.
    pub limit: f64,
    /// The door unit.
    pub unit: &'static str,
    /// Value over limit, or limit over value where the limit is a least one: above 1 it is broken.
    pub utilisation: f64,
}

impl LimitUse {
    /// Whether the limit is kept, to the rounding of the solution.
    pub fn kept(&self) -> bool {
        self.utilisation <= 1.0 + KEPT
    }
}

/// A utilisation above 1 by less than this is rounding of the solution.
pub(crate) const KEPT: f64 = 1e-9;

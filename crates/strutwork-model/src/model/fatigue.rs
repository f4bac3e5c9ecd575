//! What the screening for fatigue rests on: pairs of cases with cycles, and how the tubes are welded.

use super::Model;
use crate::ids::TubeId;

/// Everything about fatigue that the user said.
#[derive(Debug, Clone, PartialEq)]
pub struct Fatigue {
    /// Pairs of cases, in input order; without any nothing is screened.
    pub pairs: Vec<FatiguePair>,
    /// The detail of tubes whose group has none of its own.
    pub detail: Detail,
    /// The details of groups of tubes, in input order.
    pub groups: Vec<(String, Detail)>,
    /// Factor on every stress range, ≥ 1: 1 where the moments at joints are modelled, as they are unless tubes are released.
    pub moment_factor: f64,
}

/// Two cases that the frame goes between.
#[derive(Debug, Clone, PartialEq)]
pub struct FatiguePair {
    /// Its name, unique.
    pub name: String,
    /// The name of a load case. Which cases there are is only known when they have been derived.
    pub from: String,
    /// The name of another; `None` for the unloaded frame.
    pub to: Option<String>,
    /// How often the frame goes there and back, > 0.
    pub cycles: f64,
    /// Share of the range between the two cases, > 0.
    pub share: f64,
    /// Where the cycles come from; empty where not said.
    pub source: String,
    /// The user's note; empty for none.
    pub note: String,
}

/// How a tube's ends are welded, as a class of fatigue strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Detail {
    /// Δσ_C, the stress range that 2 million cycles may have, Pa.
    pub category: f64,
    /// The curve through it.
    pub curve: FatigueCurve,
    /// Whether the user named the category.
    pub named: bool,
}

/// The kinds of S–N curves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FatigueCurve {
    /// Slope 3, from 5 million cycles 5: details of members, EN 1993-1-9 Tables 8.1 to 8.6.
    Member,
    /// Slope 5 throughout: joints of lattice girders, EN 1993-1-9 Table 8.7.
    NodeJoint,
}

impl FatigueCurve {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Member => "member",
            Self::NodeJoint => "node-joint",
        }
    }
}

/// Detail categories, MPa.
///
/// # Source
/// EN 1993-1-9:2005, Figure 7.1 (from memory).
pub const CATEGORIES: [f64; 14] =
    [160.0, 140.0, 125.0, 112.0, 100.0, 90.0, 80.0, 71.0, 63.0, 56.0, 50.0, 45.0, 40.0, 36.0];

impl Model {
    /// How the ends of a tube are welded: as its group, else as all.
    pub fn fatigue_detail(&self, id: TubeId) -> Detail {
        let group = &self.tubes[id].group;
        let own = self.fatigue.groups.iter().find(|(name, _)| name == group);
        own.map_or(self.fatigue.detail, |(_, detail)| *detail)
    }
}

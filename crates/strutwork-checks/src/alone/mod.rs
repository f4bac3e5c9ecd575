//! One part by itself: a section, a member, a welded joint, a fillet, a bolt, under forces that the caller gives.
//!
//! No frame, no load case, no margin: the forces are design values. Each gives the calculation written out, by the same
//! functions that judge a frame. For trying sizes before there is a frame, and for scripts.

mod bolt;
mod joint;
mod steel;
mod weld;

#[cfg(test)]
mod tests;

pub use bolt::{Plate, bolt};
pub use joint::{Met, Way, chord_forces, joint};
pub use steel::{member, section};
pub use weld::fillet;

use strutwork_model::model::{Material, Section, WeldProcess};

use crate::design::beside_weld::{BesideWeld, made};

/// What a tube is made of.
#[derive(Debug, Clone, Copy)]
pub struct Part<'a> {
    /// Its section.
    pub section: &'a Section,
    /// Its material.
    pub material: &'a Material,
    /// How it is welded, which decides on what aluminium keeps beside a weld.
    pub process: WeldProcess,
}

impl Part<'_> {
    /// `square 30 × 2, mild`.
    fn label(&self) -> String {
        format!("{}, {}", self.section.label, self.material.name)
    }

    /// What it keeps of its strength beside a weld.
    fn beside_weld(&self) -> Result<BesideWeld, Missing> {
        made(self.section, self.material, self.process).ok_or(Missing::Strength)
    }
}

/// What is missing where nothing can be computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// The section is given by its properties alone, or its shape is none that the clause knows.
    Shape,
    /// The material has no strength.
    Strength,
}

impl Missing {
    /// In words, after the part's name.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Shape => "section of a shape that the clauses know",
            Self::Strength => "material with yield and ultimate strength",
        }
    }
}

/// Where the forces come from, as a page prints it.
const GIVEN: &str = "given as design value";

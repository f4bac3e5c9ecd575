//! What the frame is judged by: the basis of the checks, buckling lengths, checks switched off.

use super::Model;
use crate::dof::Dof;
use crate::ids::TubeId;

/// Where the margin between loads and strength comes from: one basis holds for a whole model.
#[derive(Debug, Clone, PartialEq)]
pub struct Basis {
    /// Which.
    pub kind: BasisKind,
    /// γ_F, on the loads of service cases that are derived from the vehicle. Like the next four it is used with
    /// [`BasisKind::Eurocode`] alone.
    pub gamma_f: Gamma,
    /// γ_M0, for cross-sections.
    pub gamma_m0: Gamma,
    /// γ_M1, for members against buckling.
    pub gamma_m1: Gamma,
    /// γ_M2, for fracture, bolts and welds.
    pub gamma_m2: Gamma,
    /// γ_M5, for joints of hollow sections.
    pub gamma_m5: Gamma,
    /// γ_Mf, for fatigue; used with either basis.
    pub gamma_mf: Gamma,
}

/// The two bases.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BasisKind {
    /// Vehicle practice: dynamic factors in the cases, `[options] yield_margin` on strength for service cases, plastic or
    /// ultimate resistance for cases that are ultimate by nature.
    Vehicle,
    /// Partial factors of EN 1993 on strength, and γ_F on the loads of cases that are derived from the vehicle; cases of
    /// `loads.csv` give design values.
    Eurocode,
}

impl BasisKind {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Vehicle => "vehicle",
            Self::Eurocode => "eurocode",
        }
    }
}

/// A partial factor.
#[derive(Debug, Clone, PartialEq)]
pub struct Gamma {
    /// Its value, ≥ 1.
    pub value: f64,
    /// Where it comes from.
    pub source: String,
}

/// How the tubes are judged as members.
#[derive(Debug, Clone, PartialEq)]
pub struct Members {
    /// Groups whose tubes are braces: buckling length 0.75 of the tube's.
    pub braces: Vec<String>,
    /// Groups whose tubes are chords: buckling length 0.9 of the tube's.
    pub chords: Vec<String>,
    /// Slenderness L_cr/i that a tube in compression should not exceed.
    pub slenderness_limit: f64,
    /// Whether the ends of tubes may shift sideways as they buckle: a frame that is not braced.
    pub sway: bool,
}

/// How a tube's buckling length is known, for one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Buckling {
    /// By the rule of its group, else the tube's own length.
    Rule,
    /// Given, m.
    Length(f64),
    /// Given as a factor on the tube's own length.
    Factor(f64),
}

/// A check that the user switched off.
#[derive(Debug, Clone, PartialEq)]
pub struct SwitchedOff {
    /// Its code: `D023`.
    pub check: String,
    /// Why.
    pub reason: String,
}

/// How a hollow section was made: it decides on the buckling curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Route {
    /// Formed cold and welded along its seam (EN 10219, EN 10305).
    ColdFormed,
    /// Finished hot (EN 10210).
    HotFinished,
}

impl Route {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::ColdFormed => "cold-formed",
            Self::HotFinished => "hot-finished",
        }
    }
}

/// Codes of the checks that may be switched off. D002, which says what is not checked, is not among them.
pub const SWITCHABLE: &[&str] = &[
    "D001", "D003", "D004", "D005", "D006", "D007", "D008", "D009", "D010", "D011", "D020", "D021", "D022", "D023",
    "D030", "D031", "D032", "D040", "D041", "D050", "D060",
];

/// A buckling length, and how it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BucklingLength {
    /// L_cr, m.
    pub length: f64,
    /// How it is known, as a page prints it.
    pub why: &'static str,
}

impl Model {
    /// Buckling lengths of a tube for bending about its y and about its z.
    ///
    /// ```text
    /// given in tubes.csv, else 0.75 L for a brace, 0.9 L for a chord of [members], else L
    /// ```
    ///
    /// An end that is released or on a spring about the axis is not held by the weld all round that the rule for braces
    /// rests on: such a brace keeps L.
    ///
    /// # Source
    /// EN 1993-1-1 BB.1.3 (from memory).
    pub fn buckling_lengths(&self, id: TubeId) -> [BucklingLength; 2] {
        let tube = &self.tubes[id];
        let own = self.length(id);
        let is = |groups: &[String]| groups.contains(&tube.group);
        [(Dof::Ry, tube.buckling[0]), (Dof::Rz, tube.buckling[1])].map(|(turn, buckling)| {
            let welded = !tube.release_from[turn]
                && !tube.release_to[turn]
                && tube.end_from.springs[turn].is_none()
                && tube.end_to.springs[turn].is_none();
            match buckling {
                Buckling::Length(length) => BucklingLength { length, why: "given in tubes.csv" },
                Buckling::Factor(factor) => BucklingLength { length: factor * own, why: "factor given in tubes.csv" },
                Buckling::Rule if is(&self.members.braces) && welded => {
                    BucklingLength { length: 0.75 * own, why: "0.75 L, brace, EN 1993-1-1 BB.1.3 (from memory)" }
                }
                Buckling::Rule if is(&self.members.chords) => {
                    BucklingLength { length: 0.9 * own, why: "0.9 L, chord, EN 1993-1-1 BB.1.3 (from memory)" }
                }
                Buckling::Rule => BucklingLength { length: own, why: "the tube's own length" },
            }
        })
    }
}

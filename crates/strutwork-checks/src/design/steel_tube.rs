//! What the rules for steel need of a tube: its section and strength, and why EN 1993 does not cover it.

use strutwork_model::model::{BasisKind, Material, Section, Shape};
use strutwork_model::{IndexVec, TubeId};
use strutwork_solve::results::Station;

use super::cases;
use crate::aside;
use crate::code::Verdict;
use crate::code::profile::{Forces, Form, Profile};
use crate::code::section::CrossSection;
use crate::{Finding, Judged, Subject};

/// Below this Young's modulus a material is no steel, Pa: aluminium has 70 GPa, titanium 110 GPa, cast iron up to 170 GPa.
pub const LEAST_YOUNGS: f64 = 170e9;

/// Greatest yield strength that EN 1993-1-12 brings under the rules of EN 1993-1-1 (from memory), Pa.
const MOST_YIELD: f64 = 700e6;

/// Least wall that EN 1993-1-1 gives its rules for, 1.1.2(1) (from memory), m.
pub const LEAST_WALL: f64 = 3e-3;

/// A section as the formulas take it; `None` for one that is given by its properties alone.
pub fn profile_of(section: &Section, yield_stress: f64, youngs: f64) -> Option<Profile> {
    let form = match section.shape {
        Shape::Hollow { height, width, wall, .. } => Form::Rectangular { height, width, wall },
        Shape::Round { diameter, wall } => Form::Round { diameter, wall },
        Shape::SolidRound { diameter } => Form::SolidRound { diameter },
        Shape::Flat { height, width } => Form::Flat { height, width },
        Shape::Properties => return None,
    };
    let corner = match section.shape {
        Shape::Hollow { outer_radius, .. } => outer_radius,
        Shape::Round { .. } | Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => 0.0,
    };
    Some(Profile {
        form,
        corner,
        area: section.area,
        second: [section.iy, section.iz],
        elastic: [section.wel_y?, section.wel_z?],
        plastic: [section.wpl_y?, section.wpl_z?],
        torsion: section.torsion_modulus?,
        shear: [section.shear_area_y?, section.shear_area_z?],
        yield_stress,
        youngs,
    })
}

/// A tube that the rules of EN 1993-1-1 are worked out for, away from its welds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteelTube {
    /// Its section with the parent material's strength.
    pub section: CrossSection,
    /// Why EN 1993 does not cover its material or its wall; the formulas then are no more than a screening.
    pub outside: Option<&'static str>,
    /// Whether its material is a steel that EN 1993 covers.
    pub is_steel: bool,
}

impl SteelTube {
    /// Of one tube; `None` where its section is given by properties alone, or its material has no strength.
    pub fn of(judged: Judged<'_>, tube: TubeId) -> Option<Self> {
        let row = &judged.model.tubes()[tube];
        Self::made(&judged.model.sections()[row.section], &judged.model.materials()[row.material])
    }

    /// Of a section and a material; `None` as for [`SteelTube::of`].
    pub fn made(section: &Section, material: &Material) -> Option<Self> {
        let yield_stress = material.strength?.yield_stress;
        let profile = profile_of(section, yield_stress, material.youngs)?;
        let is_thin = match section.shape {
            Shape::Hollow { wall, .. } | Shape::Round { wall, .. } => wall < LEAST_WALL * (1.0 - 1e-9),
            Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => false,
        };
        let outside = if material.youngs < LEAST_YOUNGS {
            Some("EN 1993 is for steel")
        } else if yield_stress > MOST_YIELD {
            Some("EN 1993 goes up to a yield strength of 700 MPa")
        } else if is_thin {
            Some("the wall is under 3 mm, from which on EN 1993-1-1 gives its rules")
        } else {
            None
        };
        let is_steel = material.youngs >= LEAST_YOUNGS && yield_stress <= MOST_YIELD;
        Some(Self { section: CrossSection::new(profile), outside, is_steel })
    }

    /// Of every tube.
    pub fn all(judged: Judged<'_>) -> IndexVec<TubeId, Option<Self>> {
        judged.model.tubes().ids().map(|tube| Self::of(judged, tube)).collect()
    }

    /// A verdict with the tube's own reason for being outside.
    pub fn scoped(&self, verdict: Verdict) -> Verdict {
        Verdict { outside: self.outside.or(verdict.outside), ..verdict }
    }
}

/// Section forces at a station, with their signs.
pub fn forces(station: &Station) -> Forces {
    let forces = &station.forces;
    Forces { n: forces.n, moment: [forces.my, forces.mz], shear: [forces.vy, forces.vz], torque: forces.t }
}

/// Section forces at a station that count: without rounding.
pub fn counted(station: &Station, profile: &Profile) -> Forces {
    profile.without_rounding(forces(station))
}

/// The clause of a finding: a verdict outside of the standard's scope says so first.
pub fn clause(verdict: &Verdict) -> String {
    verdict.outside.map_or_else(|| verdict.clause.to_owned(), |why| format!("outside scope: {why}; {}", verdict.clause))
}

/// What a message adds where the standard does not cover what was found; empty where it does.
pub fn caution(verdict: &Verdict) -> String {
    verdict.outside.map_or_else(String::new, |why| format!("{} {why}", aside::NO_PROOF))
}

/// Where the margin of a case comes from, as a page prints it.
pub fn margin_source(judged: Judged<'_>, case: usize) -> String {
    let basis = judged.model.basis();
    match (basis.kind, judged.is_ultimate(case)) {
        (_, true) => "none: an ultimate case".to_owned(),
        (BasisKind::Vehicle, false) => "vehicle practice, [options] yield_margin".to_owned(),
        (BasisKind::Eurocode, false) if judged.margin(case) == 1.0 => "none: the loads are design values".to_owned(),
        (BasisKind::Eurocode, false) => format!("γ_F, {}", basis.gamma_f.source),
    }
}

/// The place of the case that a finding names.
pub fn case_of(judged: Judged<'_>, finding: &Finding) -> Option<usize> {
    cases::find(judged, &finding.case)
}

/// The tube that a finding is about.
pub fn tube_of(finding: &Finding) -> Option<TubeId> {
    match finding.subject {
        Subject::Tube(tube) => Some(tube),
        Subject::Frame | Subject::Joint(_) | Subject::End { .. } | Subject::Panel(_) | Subject::Mount(_) => None,
    }
}

//! Joints of hollow sections.

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Pages;
use strutwork_checks::code::joint::{self, Acting, Balance, Brace, Chord, ChordForces, Kind, Outline, check};
use strutwork_model::model::{Section, Shape};

use super::{MM, MPA, profile};
use crate::fault::CaseFault;
use crate::read::Entry;

/// A brace on a chord: `h0_mm` … `t0_mm`, `fy0_mpa`, `h1_mm` … `t1_mm`, `fy1_mpa`, `theta1_deg`, `kind` (`Y X gap overlap`),
/// for a gap or an overlap the other brace likewise with 2 and `gap_mm` or `overlap_pct`; `hot_finished`; what acts: `n1_n`
/// (tension positive), `mip_nm`, `mop_nm`, `n0_n` in the chord; `gamma_m5`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct JointAsked {
    chord: Chord,
    brace: Brace,
    kind: Kind,
    acting: Acting,
    gamma: f64,
}

/// Imperfection factors of curves a and c.
const HOT: f64 = 0.21;
const COLD: f64 = 0.49;

impl JointAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        let chord = profile::section(entry, "0")?;
        let hot = entry.has("hot_finished") && entry.truth("hot_finished")?;
        let elastic = moduli(&chord);
        let forces = ChordForces {
            axial: entry.maybe("n0_n")?.unwrap_or(0.0),
            moments: [0.0; 2],
            elastic,
            round: matches!(chord.shape, Shape::Round { .. }),
        };
        let outline_0 = outline(&chord).ok_or_else(|| entry.missing("t0_mm"))?;
        let chord = Chord {
            outline: outline_0.0,
            wall: outline_0.1,
            yield_stress: entry.number("fy0_mpa")? * MPA,
            youngs: profile::STEEL,
            area: chord.area,
            imperfection: if hot { HOT } else { COLD },
            stress_ratio: 0.0,
        };
        let one = brace(entry, "1", ["fy1_mpa", "theta1_deg"])?;
        let kind = match entry.text("kind")?.as_str() {
            "Y" => Kind::Y,
            "X" => Kind::X,
            "gap" => Kind::Gap {
                partner: brace(entry, "2", ["fy2_mpa", "theta2_deg"])?.as_partner(),
                gap: entry.number("gap_mm")? * MM,
                eccentricity: 0.0,
            },
            "overlap" => Kind::Overlap {
                partner: brace(entry, "2", ["fy2_mpa", "theta2_deg"])?.as_partner(),
                share: entry.number("overlap_pct")? / 100.0,
                on_top: true,
                eccentricity: 0.0,
            },
            written => return Err(CaseFault::Word { kind: "kind of joint", written: written.to_owned() }),
        };
        let acting = Acting {
            axial: entry.number("n1_n")?,
            moments: [entry.maybe("mip_nm")?.unwrap_or(0.0), entry.maybe("mop_nm")?.unwrap_or(0.0)],
            chord: forces,
            chord_axial: forces.axial.abs(),
            margin: 1.0,
        };
        Ok(Self { chord, brace: one, kind, acting, gamma: entry.number("gamma_m5")? })
    }

    pub(super) fn page(&self) -> Calculation {
        let mut pages = Pages::default();
        let balance = Balance { ways: &[(1.0, self.kind)], across: self.kind == Kind::X };
        let outcome = check(&self.chord, &self.brace, balance, &self.acting, self.gamma, &mut pages);
        pages.finish("Joint", "EN 1993-1-8 section 7", joint::SOURCE, outcome.utilisation)
    }
}

/// Sizes and wall.
fn outline(section: &Section) -> Option<(Outline, f64)> {
    match section.shape {
        Shape::Hollow { height, width, wall, .. } => Some((Outline::Rectangular { depth: height, width }, wall)),
        Shape::Round { diameter, wall } => Some((Outline::Round { diameter }, wall)),
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => None,
    }
}

fn moduli(section: &Section) -> [f64; 2] {
    [section.wel_y, section.wel_z].map(Option::unwrap_or_default)
}

fn brace(entry: &mut Entry, tail: &'static str, [strength, angle]: [&'static str; 2]) -> Result<Brace, CaseFault> {
    let section = profile::section(entry, tail)?;
    let (outline, wall) = outline(&section).ok_or_else(|| entry.missing("t1_mm"))?;
    Ok(Brace {
        outline,
        wall,
        yield_stress: entry.number(strength)? * MPA,
        area: section.area,
        plastic: [section.wpl_y, section.wpl_z].map(Option::unwrap_or_default),
        elastic: moduli(&section),
        angle: entry.number(angle)?.to_radians(),
        compressed: false,
    })
}

//! Examples of panel fixings with their sources, to copy into `model.toml`. A test of the real joint beats each of them.

use crate::model::FixingKind;
use crate::units::{MM, MPA};

/// An example of a fixing, in the words of `[fixings.NAME]`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FixingExample {
    /// What it is.
    pub name: &'static str,
    /// What holds the edge; strengths where the source has them.
    pub kind: FixingKind,
    /// Where the values come from.
    pub source: &'static str,
    /// Whether a text of the source was read; `false`: from memory.
    pub verified: bool,
}

const fn bond(name: &'static str, thickness_mm: f64, width_mm: f64, shear_mpa: f64) -> FixingExample {
    let kind =
        FixingKind::Bond { thickness: thickness_mm * MM, width: width_mm * MM, shear: shear_mpa * MPA, strength: None };
    FixingExample { name, kind, source: ADHESIVE, verified: false }
}

const fn fasteners(
    name: &'static str,
    pitch_mm: f64,
    slip_mm_per_kn: f64,
    strength: Option<f64>,
    source: &'static str,
) -> FixingExample {
    let kind = FixingKind::Fasteners { pitch: pitch_mm * MM, slip: slip_mm_per_kn * MM / 1000.0, strength };
    FixingExample { name, kind, source, verified: false }
}

const ADHESIVE: &str = "common practice, no source: measure the adhesive, its line and its age";
const RIVET: &str = "slip of a blind rivet seam 0.30 mm/kN, ECCS No. 88 (from memory); shear strength of a 4.8 mm rivet, order of \
                     ISO 15977 (from memory)";
const RIVET_STEEL: &str = "slip of a blind rivet seam 0.30 mm/kN, ECCS No. 88 (from memory); shear strength of a 4.8 mm rivet, \
                           order of ISO 15979 (from memory)";
const SCREW: &str = "slip of a screw 0.25 mm/kN, ECCS No. 88 (from memory)";

/// Every example.
pub const FIXINGS: &[FixingExample] = &[
    bond("elastic polyurethane 3 x 20", 3.0, 20.0, 1.0),
    bond("polyurethane 2 x 25", 2.0, 25.0, 2.0),
    bond("methyl methacrylate 1 x 20", 1.0, 20.0, 200.0),
    fasteners("blind rivets 4.8 Al/steel at 50", 50.0, 0.30, Some(1800.0), RIVET),
    fasteners("blind rivets 4.8 Al/steel at 25", 25.0, 0.30, Some(1800.0), RIVET),
    fasteners("blind rivets 4.8 steel/steel at 50", 50.0, 0.30, Some(2900.0), RIVET_STEEL),
    fasteners("screws at 50", 50.0, 0.25, None, SCREW),
];

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;

    /// What is left of 1 mm aluminium (Gt = 26.3 kN/mm) on a bay of 500 × 400 mm: 1/(Gt)eff = 1/(Gt) + 2c(1/a + 1/b).
    #[test]
    fn the_fixing_governs_what_is_left_of_a_sheet() {
        let left = |place: usize| {
            let c = FIXINGS[place].kind.compliance();
            1.0 / (1.0 + 26.3e6 * 2.0 * c * (1.0 / 0.5 + 1.0 / 0.4))
        };
        for (place, expected) in [(0, 0.03), (1, 0.10), (2, 0.94), (3, 0.22), (4, 0.36)] {
            assert_relative_eq!(left(place), expected, epsilon = 0.006);
        }
    }

    #[test]
    fn every_example_is_named_once_with_its_source() {
        for (place, fixing) in FIXINGS.iter().enumerate() {
            assert_eq!(FIXINGS.iter().position(|other| other.name == fixing.name), Some(place));
            assert!(fixing.verified || fixing.source.contains("from memory") || fixing.source.contains("no source"));
        }
    }
}

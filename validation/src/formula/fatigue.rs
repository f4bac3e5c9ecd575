//! Lives under stress ranges.

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Pages;
use strutwork_checks::code::fatigue::{Curve, Detail, End, Swing, damage};

use super::MPA;
use crate::fault::CaseFault;
use crate::read::Entry;

/// A detail: `category_mpa`, `curve` (`member node`), `gamma_mf`; up to three stress ranges with their cycles: `range_mpa` and
/// `cycles`, lists of three, the ranges that are not there 0.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct FatigueAsked {
    detail: Detail,
    ranges: [f64; 3],
    cycles: [f64; 3],
}

/// Area of the bar that is pulled, m²: stress ranges are what is given.
const AREA: f64 = 1e-4;

impl FatigueAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        let detail = Detail {
            category: entry.number("category_mpa")? * MPA,
            curve: entry.one_of("curve", &[(Curve::Member, "member"), (Curve::NodeJoint, "node")])?,
            gamma_mf: entry.number("gamma_mf")?,
            moment_factor: 1.0,
        };
        let (ranges, cycles) = (entry.numbers("range_mpa")?, entry.numbers("cycles")?);
        Ok(Self { detail, ranges, cycles })
    }

    pub(super) fn page(&self) -> Calculation {
        let end =
            End { area: AREA, elastic: [1e-6; 2], round: false, wall: Some(5e-3), steel: true, yield_stress: None };
        let swings: Vec<Swing<'_>> = (0..3)
            .filter(|&at| self.ranges[at] > 0.0)
            .map(|at| Swing {
                name: "range",
                cases: ["up", "down"],
                forces: [[self.ranges[at] * MPA * AREA, 0.0, 0.0], [0.0; 3]],
                share: 1.0,
                cycles: self.cycles[at],
            })
            .collect();
        let mut pages = Pages::default();
        let found = damage(&end, &self.detail, &swings, &mut pages);
        pages.finish("Fatigue", found.verdict.clause, "EN 1993-1-9:2005", found.verdict.utilisation)
    }
}

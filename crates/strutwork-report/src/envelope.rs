//! The least and the greatest over all cases, picked from results; nothing is computed.

use strutwork_loads::LoadCase;
use strutwork_model::{IndexVec, TubeId};
use strutwork_solve::quantity::Quantity;

use crate::run::Run;

/// A value and the case in which it occurs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InCase<'a> {
    /// N, N·m or Pa.
    pub value: f64,
    /// The case; of equals, the first.
    pub case: &'a LoadCase,
}

/// The least and the greatest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range<'a> {
    /// The least, sign counted.
    pub least: InCase<'a>,
    /// The greatest, sign counted.
    pub greatest: InCase<'a>,
}

/// The ranges of every tube over all its stations and all cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Envelope<'a> {
    /// In the order of [`Quantity::ALL`]; `None` where there is no case or no stress.
    pub tubes: IndexVec<TubeId, [Option<Range<'a>>; 8]>,
}

impl<'a> Envelope<'a> {
    /// Picks the ranges out of a run.
    pub fn of(run: &Run<'a>) -> Self {
        let mut tubes: IndexVec<TubeId, [Option<Range<'a>>; 8]> = run.model.tubes().ids().map(|_| [None; 8]).collect();
        for (case, result) in run.pairs() {
            for (tube, along) in result.tubes.iter_with_id() {
                for station in &along.stations {
                    for (slot, quantity) in tubes[tube].iter_mut().zip(Quantity::ALL) {
                        if let Some(value) = quantity.at(station) {
                            widen(slot, InCase { value, case });
                        }
                    }
                }
            }
        }
        Self { tubes }
    }

    /// The range of one quantity of one tube.
    pub fn range(&self, tube: TubeId, quantity: Quantity) -> Option<Range<'a>> {
        self.tubes[tube][quantity as usize]
    }
}

fn widen<'a>(slot: &mut Option<Range<'a>>, next: InCase<'a>) {
    match slot {
        None => *slot = Some(Range { least: next, greatest: next }),
        Some(range) => {
            if next.value < range.least.value {
                range.least = next;
            }
            if next.value > range.greatest.value {
                range.greatest = next;
            }
        }
    }
}

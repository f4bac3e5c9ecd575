//! The least and the greatest over all cases, picked from results; nothing is computed.

use strutwork_loads::LoadCase;
use strutwork_model::{IndexVec, TubeId};
use strutwork_solve::results::Station;

use crate::run::Run;

/// What is followed along a tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Axial force, tension positive.
    N,
    /// Shear along local y.
    Vy,
    /// Shear along local z.
    Vz,
    /// Torque.
    T,
    /// Moment about local y.
    My,
    /// Moment about local z.
    Mz,
    /// Normal stress of the greatest magnitude over the fibres, with its sign.
    Sigma,
    /// von Mises stress.
    VonMises,
}

impl Quantity {
    /// All, in the order of the file.
    pub const ALL: [Self; 8] = [Self::N, Self::Vy, Self::Vz, Self::T, Self::My, Self::Mz, Self::Sigma, Self::VonMises];

    /// Its word in files.
    pub const fn word(self) -> &'static str {
        ["n", "vy", "vz", "t", "my", "mz", "sigma_max", "von_mises"][self as usize]
    }

    /// Its unit in files.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::N | Self::Vy | Self::Vz => "N",
            Self::T | Self::My | Self::Mz => "N·m",
            Self::Sigma | Self::VonMises => "MPa",
        }
    }

    /// Whether it is a stress, Pa inside.
    pub const fn is_stress(self) -> bool {
        matches!(self, Self::Sigma | Self::VonMises)
    }

    fn at(self, station: &Station) -> Option<f64> {
        let forces = &station.forces;
        match self {
            Self::N => Some(forces.n),
            Self::Vy => Some(forces.vy),
            Self::Vz => Some(forces.vz),
            Self::T => Some(forces.t),
            Self::My => Some(forces.my),
            Self::Mz => Some(forces.mz),
            Self::Sigma => station.stress.map(|stress| stress.sigma_max),
            Self::VonMises => station.stress.map(|stress| stress.von_mises),
        }
    }
}

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

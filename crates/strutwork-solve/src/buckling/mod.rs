//! Linear buckling: (K + λ K_g) φ = 0 for the axial forces of a case, with a count that no load factor was missed and a bound
//! on how far the pieces put it too high.

mod bound;
mod count;
mod division;
mod forces;
mod length;
mod ready;
mod recover;
mod side;

use strutwork_loads::{CarriedInertia, LoadCases};
use strutwork_model::model::Support;
use strutwork_model::{IndexVec, JointId, Model, TubeId};

use crate::counters::Counters;
use crate::error::SolveError;
use crate::results::{CaseResult, Results};
pub use forces::axial_at;
pub use length::{AxisLength, EffectiveLength, FrameLengths};
use ready::Hung;
pub(crate) use ready::axial_stiffness;

/// What is wanted of buckling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BucklingWanted {
    /// How many load factors of each sign; where the last has others equal to it, these are given too.
    pub count: usize,
    /// Pieces that tubes are divided into.
    pub pieces: Pieces,
}

/// Into how many pieces tubes are divided. Where the axial force of a case jumps within a tube it is cut in either case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pieces {
    /// Each tube into as many: one cubic piece puts a pinned tube's own load 21.6 % too high, two 0.75 %, four 0.05 %; whole
    /// frames less.
    Each(usize),
    /// Each tube into as many as its own bowing needs, so that every load factor found is above the exact one by no more than
    /// this share of it.
    Bounded(f64),
}

impl Pieces {
    /// Bounded by 0.0005.
    pub const AUTOMATIC: Self = Self::Bounded(5e-4);
}

impl Default for BucklingWanted {
    /// Three of each sign, tubes in as many pieces as they need.
    fn default() -> Self {
        Self { count: 3, pieces: Pieces::AUTOMATIC }
    }
}

/// Load factors at which a case's axial forces would buckle the frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Buckling {
    /// The case.
    pub case: String,
    /// Positive load factors, smallest first: the case's loads times this.
    pub positive: Vec<BucklingMode>,
    /// Negative ones, nearest to 0 first: the case's loads turned round.
    pub negative: Vec<BucklingMode>,
    /// Positive load factors up to the last found: counted by the signs of pivots and found; `None` where there is none, or the
    /// frame is free and has no inertia against a rigid motion.
    pub proof: Option<[usize; 2]>,
    /// The same of negative ones.
    pub reversed_proof: Option<[usize; 2]>,
    /// Where each tube was cut into pieces, 0 to 1 along it.
    pub cuts: IndexVec<TubeId, Vec<f64>>,
}

/// One way of buckling.
#[derive(Debug, Clone, PartialEq)]
pub struct BucklingMode {
    /// λ: the case's loads times this. Above 1 there is a margin; what lies between 0 and 1 has buckled.
    pub factor: f64,
    /// The exact load factor lies between λ and λ times 1 less this: cubic pieces are never too soft, and a count shows that
    /// they are no more than this too stiff. `None` where the pieces are too long to say.
    pub error_bound: Option<f64>,
    /// Movement of the joints of the subdivided frame, the frame's own first; the largest displacement is 1.
    pub joints: IndexVec<JointId, [f64; 6]>,
    /// Movement of the bodies, in the same measure.
    pub bodies: Vec<[f64; 6]>,
    /// Share of the strain energy in each tube: the tubes with much of it bow, the others hold them.
    pub energy: IndexVec<TubeId, f64>,
    /// The part of that in bending about the tube's y, and about its z.
    pub bending: IndexVec<TubeId, [f64; 2]>,
    /// Share of the work of the axial forces in each tube as it bows in the same two ways, all tubes together 1: positive where
    /// its own force presses it out, negative where it pulls it straight.
    pub pressing: IndexVec<TubeId, [f64; 2]>,
    /// What is left of the equation, over its size.
    pub residual: f64,
}

/// Load factors of all cases.
#[derive(Debug, Clone, PartialEq)]
pub struct FrameBuckling {
    /// In the order of the cases.
    pub cases: Vec<Buckling>,
    /// Work done.
    pub counters: Counters,
}

impl BucklingMode {
    /// Tubes with their shares of the strain energy, most first; of equal shares the first tube first.
    pub fn bowing(&self) -> Vec<(TubeId, f64)> {
        let mut tubes: Vec<(TubeId, f64)> = self.energy.iter_with_id().map(|(tube, share)| (tube, *share)).collect();
        tubes.sort_by(|a, b| b.1.total_cmp(&a.1));
        tubes
    }
}

impl Buckling {
    /// The proof of the count in words: `3 load factors up to 2.31 counted, 3 found`; `None` without one.
    pub fn proof_words(&self) -> Option<String> {
        let [counted, found] = self.proof?;
        let last = self.positive.last()?;
        let factors = if counted == 1 { "load factor" } else { "load factors" };
        Some(format!("{counted} {factors} up to {:.4} counted, {found} found", last.factor))
    }

    /// The greatest bound of the positive load factors; `None` where one has none, or there are none.
    pub fn error_bound(&self) -> Option<f64> {
        let bounds: Option<Vec<f64>> = self.positive.iter().map(|mode| mode.error_bound).collect();
        bounds?.into_iter().reduce(f64::max)
    }

    /// The least and the greatest number of pieces of a tube.
    pub fn pieces_range(&self) -> [usize; 2] {
        let pieces = || self.cuts.iter().map(|cuts| cuts.len() + 1);
        [pieces().min().unwrap_or(1), pieces().max().unwrap_or(1)]
    }
}

/// The lowest load factors of a case, from its solved axial forces: see [`buckle_cases`].
///
/// # Errors
/// As [`buckle_cases`].
pub fn buckling(
    model: &Model,
    supports: &[Support],
    carried: &[CarriedInertia],
    result: &CaseResult,
    wanted: BucklingWanted,
) -> Result<Buckling, SolveError> {
    let mut counters = Counters::default();
    let hung = Hung { model, supports, carried };
    let mut found = division::together(hung, &[result], wanted, &mut counters)?;
    Ok(found.remove(0))
}

/// The lowest load factors of every case, from its solved axial forces. Cases with the same supports share their pieces and their
/// factorisations; the bits of an answer do not depend on the number of threads.
///
/// ```text
/// (K + λ K_g) φ = 0,   K_g from N/L (6/5, L/10, …) of every piece of every tube, N as the linear case has it
/// ```
///
/// # Assumes
/// Forces grow in proportion and keep their directions; the frame is straight before; small displacements before buckling.
/// A free frame (no supports) is balanced by the inertia of its masses, before and after: `carried` is needed for it. The
/// axial force runs linearly along a piece.
///
/// # Errors
/// [`SolveError::Mechanism`] where the frame can move without resistance.
///
/// # Source
/// Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, ch. 15 (from memory).
pub fn buckle_cases(
    model: &Model,
    cases: &LoadCases,
    carried: &[CarriedInertia],
    results: &Results,
    wanted: BucklingWanted,
) -> Result<FrameBuckling, SolveError> {
    let mut counters = Counters::default();
    let mut found: Vec<Option<Buckling>> = cases.0.iter().map(|_| None).collect();
    for first in 0..cases.0.len() {
        if found[first].is_some() {
            continue;
        }
        let supports = &cases.0[first].supports;
        let group: Vec<usize> =
            (first..cases.0.len()).filter(|i| found[*i].is_none() && cases.0[*i].supports == *supports).collect();
        let members: Vec<&CaseResult> = group.iter().map(|i| &results.cases[*i]).collect();
        let buckled = division::together(Hung { model, supports, carried }, &members, wanted, &mut counters)?;
        for (place, buckling) in group.into_iter().zip(buckled) {
            found[place] = Some(buckling);
        }
    }
    Ok(FrameBuckling { cases: found.into_iter().flatten().collect(), counters })
}

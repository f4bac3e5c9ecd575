//! Buckling lengths of tubes from the frame's own load factors.

use std::f64::consts::PI;

use strutwork_model::{IndexVec, Model, TubeId};

use super::forces::greatest_compression;
use super::{Buckling, BucklingMode};
use crate::results::CaseResult;

/// Share of the strain energy over the mean share above which a tube counts as one that buckles, not one that holds: below 1, so
/// that tubes that bow alike all count (common practice, no source).
const BOWS: f64 = 0.5;
/// The same against the tube that bows most (common practice, no source).
const BESIDE_MOST: f64 = 0.1;
/// What a tube's own compression must do of the work that its bending costs. Below, others bend it: the length from the load
/// factor would be over twice (1/√¼) the one that its own compression could bend.
const OWN_WORK: f64 = 0.25;
/// No joint holds better than a clamp: L_cr ≥ L/2 (Timoshenko & Gere (1961), § 2.1, from memory).
const CLAMPED: f64 = 0.5;

/// The length that a pinned tube would have that buckles at the same axial force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EffectiveLength {
    /// The tube.
    pub tube: TubeId,
    /// N_cr = λ |N|, N: its greatest compression in the case times the load factor.
    pub critical: f64,
    /// L_cr = π √(E I / N_cr) with the smaller and the greater second moment, m.
    pub lengths: [f64; 2],
    /// The load factor.
    pub factor: f64,
    /// Share of the strain energy of the mode in this tube.
    pub energy: f64,
    /// For bending about its y, and about its z; `None` where it bows in no mode found that way.
    pub axes: [Option<AxisLength>; 2],
}

/// A buckling length for bending about one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxisLength {
    /// L_cr, m.
    pub length: f64,
    /// Which of the case's modes, from 1.
    pub mode: usize,
    /// Its load factor, as computed.
    pub factor: f64,
    /// How far the exact one may be below, as a share of it.
    pub error_bound: f64,
    /// The greatest compression along the tube in the case, N.
    pub compression: f64,
    /// N_cr = λ (1 − bound) N, N.
    pub critical: f64,
}

/// Buckling lengths of every tube in every case, about its y and about its z; `None` where the frame's load factors give none.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FrameLengths(Vec<IndexVec<TubeId, [Option<AxisLength>; 2]>>);

impl FrameLengths {
    /// From the load factors of the cases, in the order of the results.
    pub fn of<'a>(model: &Model, cases: impl IntoIterator<Item = (&'a CaseResult, &'a Buckling)>) -> Self {
        let of_case = |(result, buckling): (&CaseResult, &Buckling)| {
            let mut lengths: IndexVec<TubeId, [Option<AxisLength>; 2]> =
                model.tubes().ids().map(|_| [None; 2]).collect();
            for of in buckling.effective_lengths(model, result) {
                lengths[of.tube] = of.axes;
            }
            lengths
        };
        Self(cases.into_iter().map(of_case).collect())
    }

    /// Those of a tube in a case, by its place.
    pub fn get(&self, case: usize, tube: TubeId) -> [Option<AxisLength>; 2] {
        self.0.get(case).map_or([None; 2], |lengths| lengths[tube])
    }
}

impl BucklingMode {
    /// Whether a tube buckles by itself in this mode, bending about its y, and about its z: it takes a good part of the strain
    /// energy, and its own compression does a good part of that work. Others are bent by those, or hold them.
    pub fn bows(&self, tube: TubeId) -> [bool; 2] {
        let most = self.energy.iter().copied().fold(0.0, f64::max);
        let least = (BOWS / self.energy.len().max(1) as f64).max(BESIDE_MOST * most);
        [0, 1].map(|axis| {
            let bending = self.bending[tube][axis];
            bending > least && self.pressing[tube][axis] > OWN_WORK * bending
        })
    }
}

impl Buckling {
    /// For each tube in compression that bows in one of the modes found the buckling lengths from the lowest positive load factor
    /// in which it does, in the order of tubes.
    ///
    /// A tube that only holds others, or is bent by them, is left out: the length from the formula would be too long without
    /// meaning. So is a load factor whose error has no bound. The length is that of the least load factor that the bound
    /// leaves possible, and at least half the tube's own.
    ///
    /// # Source
    /// N_cr = π²EI/L_cr² (Euler), EN 1993-1-1 6.3.1.2 with N_cr from a buckling analysis of the frame (from memory).
    pub fn effective_lengths(&self, model: &Model, result: &CaseResult) -> Vec<EffectiveLength> {
        let of_tube = |tube: TubeId| {
            let compression = greatest_compression(result, tube, 1.0);
            if compression <= 0.0 {
                return None;
            }
            let row = &model.tubes()[tube];
            let (section, material) = (&model.sections()[row.section], &model.materials()[row.material]);
            let least = CLAMPED * model.length(tube);
            let length = |inertia: f64, critical: f64| (PI * (material.youngs * inertia / critical).sqrt()).max(least);
            let mut axes = [None; 2];
            let mut first = None;
            for (place, mode) in self.positive.iter().enumerate() {
                let Some(error_bound) = mode.error_bound else { continue };
                let bows = mode.bows(tube);
                let critical = mode.factor * (1.0 - error_bound) * compression;
                for (axis, inertia) in [section.iy, section.iz].into_iter().enumerate().filter(|(axis, _)| bows[*axis])
                {
                    first.get_or_insert((mode, critical));
                    axes[axis].get_or_insert(AxisLength {
                        length: length(inertia, critical),
                        mode: place + 1,
                        factor: mode.factor,
                        error_bound,
                        compression,
                        critical,
                    });
                }
            }
            let (mode, critical) = first?;
            let lengths =
                [section.iy.min(section.iz), section.iy.max(section.iz)].map(|inertia| length(inertia, critical));
            Some(EffectiveLength { tube, critical, lengths, factor: mode.factor, energy: mode.energy[tube], axes })
        };
        model.tubes().ids().filter_map(of_tube).collect()
    }
}

//! Buckling lengths of tubes from the frame's own load factor.

use std::f64::consts::PI;

use strutwork_model::{Model, TubeId};

use super::Buckling;
use crate::results::CaseResult;

/// Share of the strain energy over the mean share above which a tube counts as one that buckles, not one that holds: below 1, so
/// that tubes that bow alike all count (common practice, no source).
const BOWS: f64 = 0.5;

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
}

impl Buckling {
    /// For each tube in compression the buckling length from the lowest positive load factor in which it bows, in the order
    /// of tubes.
    ///
    /// A tube that takes less than half the mean share of the energy of every mode found is left out: it only holds others, and the
    /// length from the formula would be too long without meaning.
    ///
    /// # Source
    /// N_cr = π²EI/L_cr² (Euler), EN 1993-1-1 6.3.1.2 with N_cr from a buckling analysis of the frame (from memory).
    pub fn effective_lengths(&self, model: &Model, result: &CaseResult) -> Vec<EffectiveLength> {
        let mean = BOWS / model.tubes().len().max(1) as f64;
        let of_tube = |tube: TubeId| {
            let most = result.tubes[tube].stations.iter().map(|station| -station.forces.n).fold(0.0, f64::max);
            if most <= 0.0 {
                return None;
            }
            let mode = self.positive.iter().find(|mode| mode.energy[tube] > mean)?;
            let row = &model.tubes()[tube];
            let (section, material) = (&model.sections()[row.section], &model.materials()[row.material]);
            let critical = mode.factor * most;
            let length = |inertia: f64| PI * (material.youngs * inertia / critical).sqrt();
            let lengths = [length(section.iy.min(section.iz)), length(section.iy.max(section.iz))];
            Some(EffectiveLength { tube, critical, lengths, factor: mode.factor, energy: mode.energy[tube] })
        };
        model.tubes().ids().filter_map(of_tube).collect()
    }
}

//! How many load factors lie below one, counted by the signs of pivots.

use super::ready::Ready;
use crate::assembly::System;
use crate::eigen::Border;

impl Ready<'_> {
    /// Negative eigenvalues of K plus `added`, over the motions that are in balance; `None` where a pivot is zero to the last
    /// digit, or a free frame has no inertia against a rigid motion.
    ///
    /// A held frame: as many as pivots. A free one, which six springs S hold at freedoms E, and whose motions u have RᵀMu = 0:
    ///
    /// ```text
    /// A = K + added    A' = A + E S Eᵀ    B = MR
    /// negative of A with Bᵀu = 0  =  negative of A'  +  negative of [0 0; 0 S⁻¹] − [B E]ᵀ A'⁻¹ [B E]  −  6
    /// ```
    ///
    /// # Source
    /// Sylvester's law of inertia and Haynsworth's additivity for Schur complements, twice: the bordered matrix
    /// [A' B E; Bᵀ 0 0; Eᵀ 0 S⁻¹] (derived from both; from memory).
    pub(super) fn negative(&self, added: &System) -> Option<usize> {
        let held = self.held;
        let mut whole = held.sound.clone();
        whole.add_multiple(1.0, added);
        let signs = held.symbolic.signs(whole.stiffness()).ok()?;
        if held.rigid.is_empty() {
            return Some(signs.negative());
        }
        let constraints = self.rigid.constraints()?;
        let mut columns: Vec<f64> = constraints.concat();
        let mut corner = vec![0.0; constraints.len()];
        for (column, stiffness) in &held.springs {
            columns.extend(column);
            corner.push(1.0 / stiffness);
        }
        let more = Border::of(&signs, &columns, &corner).negative()?;
        (signs.negative() + more).checked_sub(constraints.len())
    }
}

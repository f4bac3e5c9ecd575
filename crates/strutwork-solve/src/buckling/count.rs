//! How many load factors lie below one, counted by the signs of pivots.

use nalgebra::{DMatrix, SymmetricEigen};

use super::ready::Ready;
use crate::assembly::System;

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
        let n = held.numbering.len();
        let mut columns: Vec<f64> = constraints.concat();
        for (column, _) in &held.springs {
            columns.extend(column);
        }
        let count = constraints.len() + held.springs.len();
        let mut solved = columns.clone();
        signs.solve(&mut solved, count);
        let border = DMatrix::from_column_slice(n, count, &columns);
        let product = border.tr_mul(&DMatrix::from_column_slice(n, count, &solved));
        let mut small = -(&product + product.transpose()) / 2.0;
        for (place, (_, stiffness)) in held.springs.iter().enumerate() {
            let place = constraints.len() + place;
            small[(place, place)] += 1.0 / stiffness;
        }
        // Rows of very different size; scaling both sides alike leaves the signs.
        let scale: Vec<f64> = (0..count).map(|i| small.row(i).amax().max(f64::MIN_POSITIVE).sqrt().recip()).collect();
        let even = DMatrix::from_fn(count, count, |i, j| small[(i, j)] * scale[i] * scale[j]);
        let more = SymmetricEigen::new(even).eigenvalues.iter().filter(|value| **value < 0.0).count();
        (signs.negative() + more).checked_sub(constraints.len())
    }
}

//! A free frame under load, confined to movements that its inertia balances.
//!
//! Axial forces resist or help a turn of the frame as a whole, unlike its stiffness, so that no factor of K + K_g leaves
//! the rigid motions alone. What vibrates is what is square to them by mass: Rᵀ M u = 0.

use nalgebra::{DVector, Dyn, LU};

use crate::assembly::System;
use crate::eigen::{Border, Held, RigidPart, dot};
use crate::linear::Signs;

/// The solution of (K + K_g) u + B µ = f with Bᵀ u = 0; B = M R, of weight 1 each.
///
/// ```text
/// K + K_g = A − Σ t e eᵀ:    A u = f + Σ e w − B µ,    w = t eᵀu
/// ```
///
/// A holds the springs t at the freedoms e that keep a free frame in place; a small dense matrix takes them away again.
pub(super) struct Confined<'a> {
    signs: Signs<'a>,
    /// e, then −B, one after another.
    columns: Vec<f64>,
    /// A⁻¹ of them.
    solved: Vec<f64>,
    small: LU<f64, Dyn, Dyn>,
    /// B.
    pub(super) balance: Vec<Vec<f64>>,
}

impl<'a> Confined<'a> {
    /// From A, the stiffness under load with the springs.
    ///
    /// # Errors
    /// The equation of a zero pivot; 0 where the small matrix is singular.
    pub(super) fn of(held: &'a Held, sound: &System, rigid: &RigidPart) -> Result<Self, usize> {
        let signs = held.symbolic.signs(sound.stiffness()).map_err(|pivot| pivot.equation)?;
        let balance = rigid.balances();
        let (mut columns, mut corner) = (Vec::new(), Vec::new());
        for (column, stiffness) in &held.springs {
            columns.extend(column);
            corner.push(1.0 / stiffness);
        }
        for column in &balance {
            columns.extend(column.iter().map(|value| -value));
            corner.push(0.0);
        }
        let Border { solved, complement, .. } = Border::of(&signs, &columns, &corner);
        let small = complement.lu();
        if small.is_invertible() { Ok(Self { signs, columns, solved, small, balance }) } else { Err(0) }
    }

    /// u from f, in place.
    pub(super) fn solve(&self, f: &mut [f64]) {
        self.signs.solve(f, 1);
        let equations = f.len();
        let right = DVector::from_vec(self.columns.chunks_exact(equations).map(|column| dot(column, f)).collect());
        let Some(shares) = self.small.solve(&right) else { return };
        for (share, column) in shares.iter().zip(self.solved.chunks_exact(equations)) {
            f.iter_mut().zip(column).for_each(|(value, part)| *value += share * part);
        }
    }
}

//! What the rigid modes of a free frame carry.

use nalgebra::Matrix6;

use super::Modes;

/// Names of the rigid modes, in order.
const NAMES: [&str; 6] = [
    "rigid, along x",
    "rigid, along y",
    "rigid, along z",
    "rigid, turning about x",
    "rigid, turning about y",
    "rigid, turning about z",
];

impl Modes {
    /// The rigid modes: what each is called, and its effective masses and inertias as [`super::Mode::effective`] has them;
    /// `None` where the frame has no inertia about an axis, and where supports hold it in part. Empty for a held frame.
    ///
    /// ```text
    /// Rᵀ M R = L Lᵀ:   column k of L is the participation of the k-th, square to those before it
    /// ```
    pub fn rigid_modes(&self) -> Vec<(&'static str, Option<[f64; 6]>)> {
        if self.rigid < NAMES.len() {
            return vec![("rigid, as the supports let it", None); self.rigid];
        }
        let lower = Matrix6::from_fn(|row, column| self.whole[row][column]).cholesky().map(|factor| factor.l());
        let effective = |mode: usize| lower.map(|lower| std::array::from_fn(|of| lower[(of, mode)].powi(2)));
        NAMES.iter().take(self.rigid).enumerate().map(|(mode, name)| (*name, effective(mode))).collect()
    }
}

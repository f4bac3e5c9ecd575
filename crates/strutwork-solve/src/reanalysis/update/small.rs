//! The small symmetric system of an update, and the combination of kept columns.

use pulp::{Simd, WithSimd};

/// Registers and right-hand sides that are summed up side by side.
pub(super) const SIDE: usize = 4;

/// Elimination of a small symmetric system with its right-hand sides at the end of its columns, and the solution in their
/// place.
///
/// ```text
/// vⱼ = mⱼ − Σ vᵢ vᵢ[j] / dᵢ over i < j      xⱼ = (zⱼ − Σ vⱼ[i] xᵢ over i > j) / dⱼ
/// ```
pub(super) struct Eliminate<'a> {
    /// `order` columns of `height`: the rows of the lower triangle, and from `right` on the right-hand sides.
    pub(super) columns: &'a mut [f64],
    pub(super) height: usize,
    pub(super) right: usize,
    pub(super) order: usize,
    /// So many pivots must be positive, all later ones negative.
    pub(super) stiffening: usize,
    /// Least size of a pivot.
    pub(super) least: f64,
}

impl WithSimd for Eliminate<'_> {
    /// Whether all pivots are as they must be.
    type Output = bool;

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> bool {
        let height = self.height;
        let per = height / S::F64_LANES;
        for j in 0..self.order {
            let (done, rest) = self.columns.split_at_mut(j * height);
            let own = &mut rest[..height];
            let registers = S::as_mut_simd_f64s(own).0;
            // The pivot's own row is among the first of the registers that count.
            let mut start = j / S::F64_LANES;
            while start < per {
                let step = match per - start {
                    1 => reduce::<S, 1>(simd, registers, done, start, height, j),
                    2 => reduce::<S, 2>(simd, registers, done, start, height, j),
                    3 => reduce::<S, 3>(simd, registers, done, start, height, j),
                    4 => reduce::<S, 4>(simd, registers, done, start, height, j),
                    5 => reduce::<S, 5>(simd, registers, done, start, height, j),
                    6 => reduce::<S, 6>(simd, registers, done, start, height, j),
                    7 => reduce::<S, 7>(simd, registers, done, start, height, j),
                    _ => reduce::<S, 8>(simd, registers, done, start, height, j),
                };
                start += step;
            }
            let pivot = own[j];
            let size = if j < self.stiffening { pivot } else { -pivot };
            // Also false for what is not a number.
            let sound = size > self.least;
            if !sound {
                return false;
            }
            // The pivot's place holds its inverse from now on.
            own[j] = 1.0 / pivot;
        }
        for j in (0..self.order).rev() {
            let (before, after) = self.columns.split_at_mut((j + 1) * height);
            let (rows, right) = before[j * height..].split_at_mut(self.right);
            let inverse = simd.splat_f64s(rows[j]);
            for (register, value) in S::as_mut_simd_f64s(right).0.iter_mut().enumerate() {
                let mut sums = [simd.splat_f64s(0.0); 4];
                sums[0] = *value;
                for (index, (solved, entry)) in after.chunks_exact(height).zip(&rows[j + 1..]).enumerate() {
                    let solved = S::as_simd_f64s(&solved[self.right..]).0[register];
                    sums[index % 4] = simd.negate_mul_add_f64s(solved, simd.splat_f64s(*entry), sums[index % 4]);
                }
                let sum = simd.add_f64s(simd.add_f64s(sums[0], sums[1]), simd.add_f64s(sums[2], sums[3]));
                *value = simd.mul_f64s(sum, inverse);
            }
        }
        true
    }
}

/// own ← own − Σ vᵢ·(vᵢ[pivot]/dᵢ) over the columns done, for `R` registers from `start` on; the inverse of dᵢ stands on the
/// diagonal. Gives `R`.
#[inline(always)]
fn reduce<S: Simd, const R: usize>(
    simd: S,
    own: &mut [S::f64s],
    done: &[f64],
    start: usize,
    height: usize,
    pivot: usize,
) -> usize {
    let own: &mut [S::f64s; R] = own[start..].first_chunk_mut().expect("so many registers are left");
    // Two sums each, by turns, so that an addition need not wait for the last.
    let mut even = *own;
    let mut odd = [simd.splat_f64s(0.0); R];
    let values = |column: &[f64], i: usize| -> (S::f64s, [S::f64s; R]) {
        let factor = simd.splat_f64s(column[pivot] * column[i]);
        (factor, *S::as_simd_f64s(column).0[start..].first_chunk().expect("so many registers are left"))
    };
    let mut pairs = done.chunks_exact(2 * height);
    let mut i = 0;
    for pair in &mut pairs {
        let (first, second) = pair.split_at(height);
        let ((a, x), (b, y)) = (values(first, i), values(second, i + 1));
        for r in 0..R {
            even[r] = simd.negate_mul_add_f64s(x[r], a, even[r]);
            odd[r] = simd.negate_mul_add_f64s(y[r], b, odd[r]);
        }
        i += 2;
    }
    if !pairs.remainder().is_empty() {
        let (a, x) = values(pairs.remainder(), i);
        for r in 0..R {
            even[r] = simd.negate_mul_add_f64s(x[r], a, even[r]);
        }
    }
    for r in 0..R {
        own[r] = simd.add_f64s(even[r], odd[r]);
    }
    R
}

/// solutions ← base − columns·shares.
pub(super) struct Combine<'a> {
    /// A column a case.
    pub(super) base: &'a [f64],
    pub(super) columns: &'a [f64],
    /// Length of a column.
    pub(super) stride: usize,
    /// The columns that take part.
    pub(super) taken: &'a [u32],
    /// A share for each case, for each of them.
    pub(super) shares: &'a [f64],
    pub(super) cases: usize,
    pub(super) solutions: &'a mut [f64],
}

impl WithSimd for Combine<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: Simd>(mut self, simd: S) {
        let per = self.stride / S::F64_LANES;
        for start in (0..per).step_by(SIDE) {
            let mut case = 0;
            while case < self.cases {
                case += match self.cases - case {
                    1 => self.tile::<S, 1>(simd, per, start, case),
                    2 => self.tile::<S, 2>(simd, per, start, case),
                    3 => self.tile::<S, 3>(simd, per, start, case),
                    _ => self.tile::<S, 4>(simd, per, start, case),
                };
            }
        }
    }
}

impl Combine<'_> {
    /// Four registers of `C` cases. Gives `C`.
    #[inline(always)]
    fn tile<S: Simd, const C: usize>(&mut self, simd: S, per: usize, start: usize, case: usize) -> usize {
        let base = S::as_simd_f64s(self.base).0;
        let columns = S::as_simd_f64s(self.columns).0;
        let mut sums = [[simd.splat_f64s(0.0); SIDE]; C];
        for (c, sums) in sums.iter_mut().enumerate() {
            sums.copy_from_slice(&base[(case + c) * per + start..][..SIDE]);
        }
        for (column, shares) in self.taken.iter().zip(self.shares.chunks_exact(self.cases)) {
            let values: &[S::f64s; SIDE] =
                columns[*column as usize * per + start..].first_chunk().expect("columns are padded to four registers");
            let shares: &[f64; C] = shares[case..].first_chunk().expect("so many cases are left");
            for (sums, share) in sums.iter_mut().zip(shares) {
                for (sum, value) in sums.iter_mut().zip(values) {
                    *sum = simd.negate_mul_add_f64s(*value, simd.splat_f64s(*share), *sum);
                }
            }
        }
        let solutions = S::as_mut_simd_f64s(self.solutions).0;
        for (c, sums) in sums.iter().enumerate() {
            solutions[(case + c) * per + start..][..SIDE].copy_from_slice(sums);
        }
        C
    }
}

/// The deformations of a tube in one case, in eight places: the sum of its equations' movements times their weights.
pub(super) struct Deform<'a> {
    pub(super) equations: &'a [u32],
    /// Eight weights an equation, the last two zero.
    pub(super) weights: &'a [[f64; 8]],
    pub(super) moved: &'a [f64],
}

impl Deform<'_> {
    /// The six deformations, and two zeros.
    pub(super) fn sum(&self) -> [f64; 8] {
        let mut sums = [0.0; 8];
        for (equation, weights) in self.equations.iter().zip(self.weights) {
            let moved = self.moved[*equation as usize];
            for (sum, weight) in sums.iter_mut().zip(weights) {
                *sum += weight * moved;
            }
        }
        sums
    }
}

//! The small symmetric system of an update, and the combination of kept columns.

use pulp::{Simd, WithSimd};

/// Registers that are summed up side by side.
const SIDE: usize = 4;

/// Elimination of a small symmetric system with its right-hand sides on top of its columns, and the solution in their place.
///
/// ```text
/// vⱼ = mⱼ − Σ vᵢ vᵢ[j] / dᵢ over i < j      xⱼ = (zⱼ − Σ vⱼ[i] xᵢ over i > j) / dⱼ
/// ```
pub(super) struct Eliminate<'a> {
    /// `order` columns of `height`: right-hand sides up to `top`, then the rows of the lower triangle.
    pub(super) columns: &'a mut [f64],
    pub(super) height: usize,
    pub(super) top: usize,
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
        let (height, top) = (self.height, self.top);
        let per = height / S::F64_LANES;
        let top_registers = top / S::F64_LANES;
        for j in 0..self.order {
            let (done, rest) = self.columns.split_at_mut(j * height);
            let own = &mut rest[..height];
            let done_registers = S::as_simd_f64s(done).0;
            // The pivot's own row is among the first of the rows that count.
            let from = top_registers + j / S::F64_LANES;
            reduce(simd, S::as_mut_simd_f64s(own).0, done, done_registers, per, 0..top_registers, (height, top + j));
            reduce(simd, S::as_mut_simd_f64s(own).0, done, done_registers, per, from..per, (height, top + j));
            let pivot = own[top + j];
            let size = if j < self.stiffening { pivot } else { -pivot };
            // Also false for what is not a number.
            let sound = size > self.least;
            if !sound {
                return false;
            }
            // The pivot's place holds its inverse from now on.
            own[top + j] = 1.0 / pivot;
        }
        for j in (0..self.order).rev() {
            let (before, after) = self.columns.split_at_mut((j + 1) * height);
            let own = &mut before[j * height..];
            let inverse = own[top + j];
            let (right, rows) = own.split_at_mut(top);
            let right = S::as_mut_simd_f64s(right).0;
            for (register, value) in right.iter_mut().enumerate() {
                let mut sums = [*value, simd.splat_f64s(0.0), simd.splat_f64s(0.0), simd.splat_f64s(0.0)];
                for (index, (solved, entry)) in after.chunks_exact(height).zip(&rows[j + 1..]).enumerate() {
                    let solved = S::as_simd_f64s(solved).0[register];
                    sums[index % 4] = simd.negate_mul_add_f64s(solved, simd.splat_f64s(*entry), sums[index % 4]);
                }
                let sum = simd.add_f64s(simd.add_f64s(sums[0], sums[1]), simd.add_f64s(sums[2], sums[3]));
                *value = simd.mul_f64s(sum, simd.splat_f64s(inverse));
            }
        }
        true
    }
}

/// own ← own − Σ vᵢ·(vᵢ[pivot]/dᵢ) over the columns done, for a range of registers; the inverse of dᵢ stands on the diagonal.
#[inline(always)]
fn reduce<S: Simd>(
    simd: S,
    own: &mut [S::f64s],
    done: &[f64],
    done_registers: &[S::f64s],
    per: usize,
    range: std::ops::Range<usize>,
    (height, pivot): (usize, usize),
) {
    let mut start = range.start;
    while start < range.end {
        let count = (range.end - start).min(SIDE);
        let mut sums = [simd.splat_f64s(0.0); SIDE];
        sums[..count].copy_from_slice(&own[start..start + count]);
        let first_row = pivot - done.len() / height;
        for (i, (column, registers)) in done.chunks_exact(height).zip(done_registers.chunks_exact(per)).enumerate() {
            let factor = simd.splat_f64s(column[pivot] * column[first_row + i]);
            if let Some(four) = registers[start..].first_chunk::<SIDE>().filter(|_| count == SIDE) {
                for (sum, value) in sums.iter_mut().zip(four) {
                    *sum = simd.negate_mul_add_f64s(*value, factor, *sum);
                }
            } else {
                for (sum, value) in sums.iter_mut().zip(&registers[start..start + count]) {
                    *sum = simd.negate_mul_add_f64s(*value, factor, *sum);
                }
            }
        }
        own[start..start + count].copy_from_slice(&sums[..count]);
        start += count;
    }
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
    fn with_simd<S: Simd>(self, simd: S) {
        let per = self.stride / S::F64_LANES;
        let base = S::as_simd_f64s(self.base).0;
        let columns = S::as_simd_f64s(self.columns).0;
        let solutions = S::as_mut_simd_f64s(self.solutions).0;
        let whole = |case: usize| case + SIDE <= self.cases;
        for start in (0..per).step_by(SIDE) {
            let mut case = 0;
            while case < self.cases {
                let step = if whole(case) { SIDE } else { 1 };
                let rows = (per - start).min(SIDE);
                if step == SIDE && rows == SIDE {
                    let mut sums = [[simd.splat_f64s(0.0); SIDE]; SIDE];
                    for (c, sums) in sums.iter_mut().enumerate() {
                        sums.copy_from_slice(&base[(case + c) * per + start..][..SIDE]);
                    }
                    for (column, shares) in self.taken.iter().zip(self.shares.chunks_exact(self.cases)) {
                        let values: &[S::f64s; SIDE] =
                            columns[*column as usize * per + start..].first_chunk().expect("four registers");
                        let shares: &[f64; SIDE] = shares[case..].first_chunk().expect("four cases");
                        for (sums, share) in sums.iter_mut().zip(shares) {
                            for (sum, value) in sums.iter_mut().zip(values) {
                                *sum = simd.negate_mul_add_f64s(*value, simd.splat_f64s(*share), *sum);
                            }
                        }
                    }
                    for (c, sums) in sums.iter().enumerate() {
                        solutions[(case + c) * per + start..][..SIDE].copy_from_slice(sums);
                    }
                } else {
                    for case in case..case + step {
                        for register in start..start + rows {
                            let mut sum = base[case * per + register];
                            for (column, shares) in self.taken.iter().zip(self.shares.chunks_exact(self.cases)) {
                                let value = columns[*column as usize * per + register];
                                sum = simd.negate_mul_add_f64s(value, simd.splat_f64s(shares[case]), sum);
                            }
                            solutions[case * per + register] = sum;
                        }
                    }
                }
                case += step;
            }
        }
    }
}

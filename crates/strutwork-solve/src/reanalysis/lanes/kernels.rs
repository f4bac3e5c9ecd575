//! Dense arithmetic on blocks of six by six, each entry a register of lanes: one lane a variant.
//!
//! A block is six columns of six; a set of right-hand sides of one place is six columns of as many as are solved together.
//! Every lane does the same operations in the same order, so that a variant's bits depend neither on its lane nor on what
//! stands in the others.

use pulp::Simd;

/// Registers of lanes: the rows or right-hand sides that are worked on together, by six columns.
pub(super) type Tile<V, const T: usize> = [[V; 6]; T];

/// acc ← acc − a·bᵀ over columns, for the rows from `FROM` on of `a` and the first `W` of `b`.
#[inline(always)]
pub(super) fn subtract<S: Simd, const T: usize, const FROM: usize, const H: usize, const W: usize>(
    simd: S,
    acc: &mut Tile<S::f64s, T>,
    a: &[[S::f64s; H]],
    b: &[[S::f64s; 6]],
) {
    for (a, b) in a.iter().zip(b) {
        for t in 0..T {
            for c in 0..W {
                acc[t][c] = simd.negate_mul_add_f64s(a[FROM + t], b[c], acc[t][c]);
            }
        }
    }
}

/// acc ← acc·L⁻ᵀ for a diagonal block whose inverse L⁻¹ is given.
#[inline(always)]
pub(super) fn divide<S: Simd, const T: usize>(simd: S, acc: &mut Tile<S::f64s, T>, inverse: &[[S::f64s; 6]; 6]) {
    for c in (0..6).rev() {
        for row in acc.iter_mut() {
            let mut sum = simd.mul_f64s(row[c], inverse[c][c]);
            for m in 0..c {
                sum = simd.mul_add_f64s(row[m], inverse[m][c], sum);
            }
            row[c] = sum;
        }
    }
}

/// acc ← acc·L⁻¹.
#[inline(always)]
pub(super) fn divide_turned<S: Simd, const T: usize>(simd: S, acc: &mut Tile<S::f64s, T>, inverse: &[[S::f64s; 6]; 6]) {
    for c in 0..6 {
        for row in acc.iter_mut() {
            let mut sum = simd.mul_f64s(row[c], inverse[c][c]);
            for m in c + 1..6 {
                sum = simd.mul_add_f64s(row[m], inverse[c][m], sum);
            }
            row[c] = sum;
        }
    }
}

/// Replaces the lower triangle of a diagonal block by L⁻¹, where L·Lᵀ is the block; gives the smallest of its pivots over
/// the diagonal entries that it had to begin with.
///
/// A pivot that is not above `floor` of its entry is replaced by one: such a lane's result means nothing, and is not used.
#[inline(always)]
pub(super) fn invert<S: Simd>(
    simd: S,
    block: &mut [[S::f64s; 6]; 6],
    diagonal: &[S::f64s; 6],
    floor: f64,
    smallest: S::f64s,
) -> S::f64s {
    let one = simd.splat_f64s(1.0);
    let zero = simd.splat_f64s(0.0);
    let floor = simd.splat_f64s(floor);
    let mut smallest = smallest;
    let mut l = [[zero; 6]; 6];
    let mut own = [zero; 6];
    for c in 0..6 {
        let mut pivot = block[c][c];
        for m in 0..c {
            pivot = simd.negate_mul_add_f64s(l[m][c], l[m][c], pivot);
        }
        let least = simd.mul_f64s(floor, diagonal[c]);
        // Also false for what is not a number.
        let sound = simd.greater_than_f64s(pivot, least);
        smallest = simd.min_f64s(smallest, simd.select_f64s(sound, simd.div_f64s(pivot, diagonal[c]), zero));
        let pivot = simd.select_f64s(sound, pivot, one);
        own[c] = simd.div_f64s(one, simd.sqrt_f64s(pivot));
        for r in c + 1..6 {
            let mut sum = block[c][r];
            for m in 0..c {
                sum = simd.negate_mul_add_f64s(l[m][r], l[m][c], sum);
            }
            l[c][r] = simd.mul_f64s(sum, own[c]);
        }
    }
    for c in 0..6 {
        block[c][c] = own[c];
        for r in c + 1..6 {
            let mut sum = simd.mul_f64s(l[c][r], block[c][c]);
            for m in c + 1..r {
                sum = simd.mul_add_f64s(l[m][r], block[c][m], sum);
            }
            block[c][r] = simd.neg_f64s(simd.mul_f64s(sum, own[r]));
        }
    }
    smallest
}

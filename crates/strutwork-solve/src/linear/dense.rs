//! Elimination of the columns of a dense front, in wide registers.
//!
//! A matrix is a slice, column after column; only lower triangles are worked on. Everything runs on the calling thread.

#![allow(clippy::needless_range_loop, reason = "indices of rows and columns are how such arithmetic is read")]

use pulp::{Arch, Simd, WithSimd};

use super::tiles::{C, Columns, FEW, MANY, Space, Target, Tiles, subtract};

/// Columns of a panel that are eliminated before those to their right hear of them.
const NEAR: usize = 24;

/// Factors the leading columns of a front in place, L₁₁ of its square on top and L₂₁ = A₂₁·L₁₁⁻ᵀ below; `panel` holds these
/// columns, `height` numbers each.
///
/// # Errors
/// The column, from 0, of the pivot that is not positive.
pub(super) fn factor_panel(panel: &mut [f64], height: usize, space: &mut Space) -> Result<(), usize> {
    Arch::new().dispatch(Factor { panel, height, space })
}

/// Some columns of the lower triangle of −L₂₁·L₂₁ᵀ, from column `first` on, whatever stands in them; above the diagonal the
/// result means nothing.
pub(super) fn minus_square(update: &mut [f64], first: usize, panel: &[f64], height: usize, space: &mut Space) {
    Arch::new().dispatch(Square { update, first, panel, height, space });
}

struct Factor<'a> {
    panel: &'a mut [f64],
    height: usize,
    space: &'a mut Space,
}

impl WithSimd for Factor<'_> {
    type Output = Result<(), usize>;

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> Result<(), usize> {
        if S::REGISTER_COUNT < 32 { self.run::<S, FEW>(simd) } else { self.run::<S, MANY>(simd) }
    }
}

impl Factor<'_> {
    #[inline(always)]
    fn run<S: Simd, const R: usize>(self, simd: S) -> Result<(), usize> {
        let Self { panel, height, space } = self;
        let mut tiles = Tiles::<R>::of::<S>(space);
        let width = panel.len() / height;
        let mut start = 0;
        while start < width {
            let first = start;
            while start < width.min(first + NEAR) {
                let columns = C.min(width.min(first + NEAR) - start);
                let (done, own) = panel.split_at_mut(start * height);
                let own = &mut own[start..];
                let source = Columns { values: &done[first * height..], apart: height };
                let target = Target { values: &mut *own, apart: height, anew: false };
                subtract(simd, target, [height - start, columns], source, start, &mut tiles);
                finish::<S, R>(simd, own, height, height - start, columns).map_err(|column| start + column)?;
                start += columns;
            }
            if start < width {
                // After block number n the last 2^z blocks are taken off the next 2^z, 2^z the greatest power of two that
                // divides n: long sums in few passes, and whoever's turn comes has heard of all before it.
                let step = NEAR << (start / NEAR).trailing_zeros();
                let (done, rest) = panel.split_at_mut(start * height);
                let source = Columns { values: &done[(start - step) * height..], apart: height };
                let target = Target { values: &mut rest[start..], apart: height, anew: false };
                subtract(simd, target, [height - start, step.min(width - start)], source, start, &mut tiles);
            }
        }
        Ok(())
    }
}

struct Square<'a> {
    update: &'a mut [f64],
    first: usize,
    panel: &'a [f64],
    height: usize,
    space: &'a mut Space,
}

impl WithSimd for Square<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) {
        if S::REGISTER_COUNT < 32 { self.run::<S, FEW>(simd) } else { self.run::<S, MANY>(simd) }
    }
}

impl Square<'_> {
    #[inline(always)]
    fn run<S: Simd, const R: usize>(self, simd: S) {
        let Self { update, first, panel, height, space } = self;
        let width = panel.len() / height;
        let below = height - width;
        let size = [below - first, update.len() / below];
        let target = Target { values: &mut update[first..], apart: below, anew: true };
        let source = Columns { values: panel, apart: height };
        subtract(simd, target, size, source, width + first, &mut Tiles::<R>::of::<S>(space));
    }
}

/// Factors the square on top of a few columns that have heard of all before them, and divides the rows below by it.
///
/// # Errors
/// The column, from 0, of the pivot that is not positive.
#[inline(always)]
fn finish<S: Simd, const R: usize>(
    simd: S,
    own: &mut [f64],
    height: usize,
    rows: usize,
    columns: usize,
) -> Result<(), usize> {
    let mut l = [[0.0; C]; C];
    let mut inverse = [0.0; C];
    for c in 0..columns {
        let mut pivot = own[c * height + c];
        for m in 0..c {
            pivot -= l[m][c] * l[m][c];
        }
        // Also false for what is not a number.
        let sound = pivot > 0.0;
        if !sound {
            return Err(c);
        }
        l[c][c] = pivot.sqrt();
        inverse[c] = 1.0 / l[c][c];
        own[c * height + c] = l[c][c];
        for r in c + 1..columns {
            let mut sum = own[c * height + r];
            for m in 0..c {
                sum -= l[m][r] * l[m][c];
            }
            l[c][r] = sum * inverse[c];
            own[c * height + r] = l[c][r];
        }
    }
    let lanes = S::F64_LANES;
    let mut row = columns;
    if columns == C {
        while row + R * lanes <= rows {
            divide::<S, R>(simd, &mut own[row..], height, &l, &inverse);
            row += R * lanes;
        }
        while row + lanes <= rows {
            divide::<S, 1>(simd, &mut own[row..], height, &l, &inverse);
            row += lanes;
        }
    }
    for c in 0..columns {
        let (before, column) = own.split_at_mut(c * height);
        let column = &mut column[row..rows];
        for m in 0..c {
            for (value, other) in column.iter_mut().zip(&before[m * height + row..]) {
                *value -= l[m][c] * other;
            }
        }
        for value in column {
            *value *= inverse[c];
        }
    }
    Ok(())
}

/// Divides `T` registers of rows, of [`C`] columns, by the factor of the square above them.
#[inline(always)]
fn divide<S: Simd, const T: usize>(simd: S, rows: &mut [f64], height: usize, l: &[[f64; C]; C], inverse: &[f64; C]) {
    let high = T * S::F64_LANES;
    let mut x = [[simd.splat_f64s(0.0); T]; C];
    for c in 0..C {
        let column = &mut rows[c * height..][..high];
        let column: &mut [S::f64s; T] = S::as_mut_simd_f64s(column).0.first_chunk_mut().expect("as long as the tile");
        x[c] = *column;
        for m in 0..c {
            let factor = simd.splat_f64s(l[m][c]);
            for t in 0..T {
                x[c][t] = simd.negate_mul_add_f64s(x[m][t], factor, x[c][t]);
            }
        }
        let factor = simd.splat_f64s(inverse[c]);
        for t in 0..T {
            x[c][t] = simd.mul_f64s(x[c][t], factor);
        }
        *column = x[c];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A positive matrix of so many rows, its lower triangle; above it something that must not matter.
    fn matrix(rows: usize) -> Vec<f64> {
        let entry = |row: usize, column: usize| match row.cmp(&column) {
            std::cmp::Ordering::Less => f64::NAN,
            std::cmp::Ordering::Equal => rows as f64,
            std::cmp::Ordering::Greater => ((row * 7919 + column * 104_729) % 1013) as f64 / 1013.0 - 0.5,
        };
        (0..rows * rows).map(|place| entry(place % rows, place / rows)).collect()
    }

    /// The first columns eliminated one after another, and the rest of the square with them.
    fn plainly(matrix: &mut [f64], rows: usize, width: usize) {
        for k in 0..width {
            let pivot = matrix[k * rows + k].sqrt();
            for r in k..rows {
                matrix[k * rows + r] /= pivot;
            }
            for c in k + 1..rows {
                for r in c..rows {
                    matrix[c * rows + r] -= matrix[k * rows + r] * matrix[k * rows + c];
                }
            }
        }
    }

    /// Runs on one kind of processor, whatever this one would take.
    trait On {
        fn run<W: WithSimd>(&self, work: W) -> W::Output;
    }

    struct Best;
    impl On for Best {
        fn run<W: WithSimd>(&self, work: W) -> W::Output {
            Arch::new().dispatch(work)
        }
    }

    struct Plain;
    impl On for Plain {
        fn run<W: WithSimd>(&self, work: W) -> W::Output {
            work.with_simd(pulp::Scalar)
        }
    }

    #[cfg(target_arch = "x86_64")]
    impl On for pulp::x86::V3 {
        fn run<W: WithSimd>(&self, work: W) -> W::Output {
            Simd::vectorize(*self, work)
        }
    }

    /// Largest difference from plain elimination, of the panel and of the update made in strips.
    fn difference(on: &impl On, width: usize, below: usize) -> f64 {
        let height = width + below;
        let mut expected = matrix(height);
        let mut panel = expected[..width * height].to_vec();
        plainly(&mut expected, height, width);
        let mut space = Space::new();
        on.run(Factor { panel: &mut panel, height, space: &mut space }).unwrap();
        let mut worst = 0.0_f64;
        for column in 0..width {
            for row in column..height {
                worst = worst.max((panel[column * height + row] - expected[column * height + row]).abs());
            }
        }
        let whole = matrix(height);
        let mut update = vec![f64::NAN; below * below];
        for (strip, values) in update.chunks_mut(20 * below.max(1)).enumerate() {
            on.run(Square { update: values, first: 20 * strip, panel: &panel, height, space: &mut space });
        }
        for column in 0..below {
            for row in column..below {
                let place = (width + column) * height + width + row;
                worst = worst.max((whole[place] + update[column * below + row] - expected[place]).abs());
            }
        }
        worst
    }

    /// Widths and rows below of every kind: of no tile, of tiles and parts of them, wider than what is taken off at a time.
    const SIZES: [[usize; 2]; 11] =
        [[1, 0], [6, 0], [5, 3], [6, 1], [12, 32], [23, 45], [24, 96], [31, 70], [78, 130], [331, 41], [120, 0]];

    #[test]
    fn a_front_is_eliminated_as_column_by_column() {
        for [width, below] in SIZES {
            assert!(difference(&Best, width, below) < 1e-12, "{width} columns, {below} rows below");
        }
    }

    #[test]
    fn so_it_is_on_processors_with_narrower_registers() {
        for [width, below] in SIZES {
            assert!(difference(&Plain, width, below) < 1e-12, "{width} columns, {below} rows below, one at a time");
            #[cfg(target_arch = "x86_64")]
            if let Some(v3) = pulp::x86::V3::try_new() {
                assert!(difference(&v3, width, below) < 1e-12, "{width} columns, {below} rows below, four at a time");
            }
        }
    }

    #[test]
    fn the_first_pivot_that_is_not_positive_is_told() {
        for column in [0, 5, 6, 29, 60] {
            for pivot in [0.0, -1.0, f64::NAN] {
                let mut panel = matrix(70);
                panel[column * 71] = pivot;
                assert_eq!(factor_panel(&mut panel, 70, &mut Space::new()), Err(column));
            }
        }
    }
}

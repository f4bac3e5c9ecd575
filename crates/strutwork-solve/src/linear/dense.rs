//! Elimination of the columns of a dense front, in wide registers.
//!
//! A matrix is a slice, column after column; only lower triangles are worked on. An entry is summed up over the eliminated
//! columns in their order, whichever register it stands in. Everything runs on the calling thread.
//!
//! # Source
//! Goto and van de Geijn (2008), Anatomy of high-performance matrix multiplication, ACM Transactions on Mathematical
//! Software 34(3), article 12 (from memory), for products in tiles of registers with their rows copied together.

#![allow(clippy::needless_range_loop, reason = "indices of rows and columns are how such arithmetic is read")]

use pulp::{Arch, Simd, WithSimd};

use crate::registers::{Registers, lanes};

/// Columns of a tile: those of a joint.
const C: usize = 6;

/// Registers of rows in a tile on processors that have thirty-two registers.
const MANY: usize = 4;

/// Registers of rows in a tile elsewhere: with the sums of six columns they fit into sixteen.
const FEW: usize = 2;

/// Eliminated columns that are taken off at a time.
const DEEP: usize = 320;

/// Columns of a panel that are eliminated before those to their right hear of them.
const NEAR: usize = 24;

/// Memory for what is at work, which need not be new for every front.
pub(super) struct Space(Registers);

impl Space {
    /// Memory for fronts of any size.
    pub(super) fn new() -> Self {
        let lanes = lanes();
        Self(Registers::new(MANY * DEEP + MANY * C + (C * DEEP).div_ceil(lanes)))
    }
}

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

/// Columns that begin so far apart from each other; the last one may be cut short.
#[derive(Clone, Copy)]
struct Columns<'a> {
    values: &'a [f64],
    apart: usize,
}

impl<'a> Columns<'a> {
    /// The same columns from a later row on.
    #[inline(always)]
    fn from(self, row: usize) -> Self {
        Self { values: &self.values[row..], ..self }
    }

    #[inline(always)]
    fn count(self) -> usize {
        self.values.len().div_ceil(self.apart)
    }
}

/// Columns that begin so far apart from each other, to be changed, or to be filled in whatever stands in them.
struct Target<'a> {
    values: &'a mut [f64],
    apart: usize,
    anew: bool,
}

/// Where the parts of a product are put together.
struct Tiles<'a, const R: usize> {
    /// Rows of a tile, one eliminated column after another.
    rows: &'a mut [f64],
    /// A tile of which the target holds a part only.
    part: &'a mut [f64],
    /// Columns of a tile, where there are less than [`C`].
    columns: &'a mut [f64],
}

impl<'a, const R: usize> Tiles<'a, R> {
    #[inline(always)]
    fn of<S: Simd>(space: &'a mut Space) -> Self {
        let (rows, rest) = space.0.all_mut().split_at_mut(DEEP * R * S::F64_LANES);
        let (part, columns) = rest.split_at_mut(C * R * S::F64_LANES);
        Self { rows, part, columns }
    }
}

/// Lower triangle of target ← target − a·aᵀ, where the rows of `a` are those of `source` from `first` on.
#[inline(always)]
fn subtract<S: Simd, const R: usize>(
    simd: S,
    mut target: Target<'_>,
    [rows, columns]: [usize; 2],
    source: Columns<'_>,
    first: usize,
    tiles: &mut Tiles<'_, R>,
) {
    let (lanes, high) = (S::F64_LANES, R * S::F64_LANES);
    for values in source.values.chunks(DEEP * source.apart) {
        let source = Columns { values, ..source };
        let mut row = 0;
        while row < rows {
            let here = high.min(rows - row);
            // Rows that only one tile needs are read where they stand.
            let straight = columns <= C && here == high;
            if !straight {
                copy_rows::<S>(source.from(first + row), here, &mut tiles.rows[..source.count() * high]);
            }
            let mut column = 0;
            while column < columns.min(row + here) {
                let wide = C.min(columns - column);
                // Registers of rows that stand above the diagonal are left out.
                let above = column.saturating_sub(row) / lanes;
                let size = [here - above * lanes, wide];
                let a = if straight {
                    source.from(first + row)
                } else {
                    Columns { values: &tiles.rows[..source.count() * high], apart: high }
                };
                let a = a.from(above * lanes);
                let b = source.from(first + column);
                let target =
                    Target { values: &mut target.values[column * target.apart + row + above * lanes..], ..target };
                let (part, columns) = (&mut *tiles.part, &mut *tiles.columns);
                match here.div_ceil(lanes) - above {
                    1 => tile::<S, 1>(simd, target, size, a, b, part, columns),
                    2 => tile::<S, 2>(simd, target, size, a, b, part, columns),
                    3 => tile::<S, 3>(simd, target, size, a, b, part, columns),
                    _ => tile::<S, MANY>(simd, target, size, a, b, part, columns),
                }
                column += wide;
            }
            row += here;
        }
        target.anew = false;
    }
}

/// Copies the first `here` rows of columns together; what follows them in each tile's column means nothing.
#[inline(always)]
fn copy_rows<S: Simd>(source: Columns<'_>, here: usize, rows: &mut [f64]) {
    let high = rows.len() / source.count().max(1);
    for (place, column) in rows.chunks_exact_mut(high).zip(source.values.chunks(source.apart)) {
        let (place, column) = (&mut place[..here], &column[..here]);
        let (registers, rest) = S::as_mut_simd_f64s(place);
        let (from, last) = S::as_simd_f64s(column);
        registers.copy_from_slice(from);
        rest.copy_from_slice(last);
    }
}

/// One tile of `rows` by `columns` of target ← target − a·bᵀ, in `T` registers of rows.
#[inline(always)]
fn tile<S: Simd, const T: usize>(
    simd: S,
    target: Target<'_>,
    [rows, columns]: [usize; 2],
    a: Columns<'_>,
    b: Columns<'_>,
    part: &mut [f64],
    padded: &mut [f64],
) {
    let high = T * S::F64_LANES;
    if columns == C && rows >= high {
        product::<S, T>(simd, target, a, b);
        return;
    }
    let part = &mut part[..C * high];
    let whole = Target { values: &mut *part, apart: high, anew: true };
    if columns == C {
        product::<S, T>(simd, whole, a, b);
    } else {
        let padded = &mut padded[..C * b.count()];
        for (padded, b) in padded.chunks_exact_mut(C).zip(b.values.chunks(b.apart)) {
            padded[..columns].copy_from_slice(&b[..columns]);
        }
        product::<S, T>(simd, whole, a, Columns { values: padded, apart: C });
    }
    let places = target.values.chunks_mut(target.apart).take(columns);
    for (column, part) in places.zip(part.chunks_exact(high)) {
        for (value, part) in column.iter_mut().zip(&part[..rows]) {
            *value = if target.anew { *part } else { *value + part };
        }
    }
}

/// target ← target − a·bᵀ for a whole tile.
#[inline(always)]
fn product<S: Simd, const T: usize>(simd: S, target: Target<'_>, a: Columns<'_>, b: Columns<'_>) {
    let high = T * S::F64_LANES;
    let mut sums = [[simd.splat_f64s(0.0); T]; C];
    // Counted and by index: with iterators the sums are written to memory at every step.
    for k in 0..b.count() {
        let a = &a.values[k * a.apart..][..high];
        let b = &b.values[k * b.apart..][..C];
        let a: &[S::f64s; T] = S::as_simd_f64s(a).0.first_chunk().expect("as long as the tile");
        for c in 0..C {
            let b = simd.splat_f64s(b[c]);
            for t in 0..T {
                sums[c][t] = simd.negate_mul_add_f64s(a[t], b, sums[c][t]);
            }
        }
    }
    for c in 0..C {
        let column = &mut target.values[c * target.apart..][..high];
        let column: &mut [S::f64s; T] = S::as_mut_simd_f64s(column).0.first_chunk_mut().expect("as long as the tile");
        for t in 0..T {
            column[t] = if target.anew { sums[c][t] } else { simd.add_f64s(column[t], sums[c][t]) };
        }
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

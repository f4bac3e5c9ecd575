//! Products of rows, taken off the lower triangle of a matrix, tile by tile: registers of rows by the columns of a joint.
//!
//! An entry is summed up over the eliminated columns in their order, whichever register it stands in.
//!
//! # Source
//! Goto and van de Geijn (2008), Anatomy of high-performance matrix multiplication, ACM Transactions on Mathematical
//! Software 34(3), article 12 (from memory), for products in tiles of registers with their rows copied together.

#![allow(clippy::needless_range_loop, reason = "indices of rows and columns are how such arithmetic is read")]

use pulp::Simd;

use crate::registers::{Registers, lanes};

/// Columns that are worked on together: those of a joint.
pub(super) const C: usize = 6;

/// Registers of rows in a tile on processors that have thirty-two registers.
pub(super) const MANY: usize = 4;

/// Registers of rows in a tile elsewhere: with the sums of six columns they fit into sixteen.
pub(super) const FEW: usize = 2;

/// Eliminated columns that are taken off at a time.
const DEEP: usize = 320;

/// Memory for what is at work, which need not be new for every front.
pub(super) struct Space(Registers);

impl Space {
    /// Memory for fronts of any size.
    pub(super) fn new() -> Self {
        let lanes = lanes();
        Self(Registers::new(MANY * DEEP + MANY * C + (C * DEEP).div_ceil(lanes)))
    }
}

/// Columns that begin so far apart from each other; the last one may be cut short.
#[derive(Clone, Copy)]
pub(super) struct Columns<'a> {
    pub(super) values: &'a [f64],
    pub(super) apart: usize,
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
pub(super) struct Target<'a> {
    pub(super) values: &'a mut [f64],
    pub(super) apart: usize,
    pub(super) anew: bool,
}

/// Where the parts of a product are put together.
pub(super) struct Tiles<'a, const R: usize> {
    /// Rows of a tile, one eliminated column after another.
    rows: &'a mut [f64],
    /// A tile of which the target holds a part only.
    part: &'a mut [f64],
    /// Columns of a tile, where there are less than [`C`].
    columns: &'a mut [f64],
}

impl<'a, const R: usize> Tiles<'a, R> {
    #[inline(always)]
    pub(super) fn of<S: Simd>(space: &'a mut Space) -> Self {
        let (rows, rest) = space.0.all_mut().split_at_mut(DEEP * R * S::F64_LANES);
        let (part, columns) = rest.split_at_mut(C * R * S::F64_LANES);
        Self { rows, part, columns }
    }
}

/// Lower triangle of target ← target − a·aᵀ, where the rows of `a` are those of `source` from `first` on.
#[inline(always)]
pub(super) fn subtract<S: Simd, const R: usize>(
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

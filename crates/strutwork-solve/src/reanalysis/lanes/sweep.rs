//! One pass over the columns: assemble, factor, and carry the right-hand sides along; then one pass back.

use pulp::{Simd, WithSimd};

use super::assemble::assemble;
use super::kernels::{Tile, divide, divide_turned, invert, subtract};
use super::solution::TOGETHER;
use crate::reanalysis::blocks::Blocks;
use crate::reanalysis::pieces::Pieces;

/// A pivot below this share of its diagonal entry is not divided by.
const FLOOR: f64 = 1e-14;

/// What a pass works on. All slices of registers hold `lanes` numbers a register.
pub(in crate::reanalysis) struct Sweep<'a> {
    pub(in crate::reanalysis) blocks: &'a Blocks,
    pub(in crate::reanalysis) pieces: &'a Pieces,
    /// Stiffness values of the pieces.
    pub(in crate::reanalysis) values: &'a [f64],
    /// The factor: 36 registers a block.
    pub(in crate::reanalysis) factor: &'a mut [f64],
    /// Right-hand sides that all lanes share, a number a register; where there are none, `moved` holds them.
    pub(in crate::reanalysis) shared: Option<&'a [f64]>,
    /// Solutions: tiles of cases, in each six rows a place.
    pub(in crate::reanalysis) moved: &'a mut [f64],
    /// Smallest pivot over its diagonal entry, of each lane.
    pub(in crate::reanalysis) smallest: &'a mut [f64],
}

impl WithSimd for Sweep<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) {
        let blocks = self.blocks;
        let values = S::as_simd_f64s(self.values).0;
        let factor = S::as_mut_simd_f64s(self.factor).0.as_chunks_mut::<6>().0;
        let moved = S::as_mut_simd_f64s(self.moved).0;
        let mut smallest = simd.splat_f64s(1.0);
        let rows = 6 * blocks.nodes.len();
        let shared = self.shared;
        for place in 0..blocks.nodes.len() {
            assemble(simd, self.pieces, blocks, place, values, factor);
            smallest = diagonal(simd, blocks, place, factor, smallest);
            // Before the blocks below: the row has just been read, and they wait for the diagonal block's inverse.
            for (tile, x) in moved.chunks_mut(TOGETHER * rows).enumerate() {
                let right = shared.map(|shared| &shared[tile * TOGETHER * rows..]);
                match x.len() / rows {
                    1 => forward::<S, 1>(simd, blocks, place, factor, x, right),
                    2 => forward::<S, 2>(simd, blocks, place, factor, x, right),
                    3 => forward::<S, 3>(simd, blocks, place, factor, x, right),
                    _ => forward::<S, TOGETHER>(simd, blocks, place, factor, x, right),
                }
            }
            below(simd, blocks, &self.pieces.bare, place, factor);
        }
        for place in (0..blocks.nodes.len()).rev() {
            for x in moved.chunks_mut(TOGETHER * rows) {
                match x.len() / rows {
                    1 => backward::<S, 1>(simd, blocks, place, factor, x),
                    2 => backward::<S, 2>(simd, blocks, place, factor, x),
                    3 => backward::<S, 3>(simd, blocks, place, factor, x),
                    _ => backward::<S, TOGETHER>(simd, blocks, place, factor, x),
                }
            }
        }
        S::as_mut_simd_f64s(self.smallest).0[0] = smallest;
    }
}

/// The six columns of a block.
#[inline(always)]
fn block<V>(factor: &[[V; 6]], at: usize) -> &[[V; 6]; 6] {
    factor[6 * at..6 * at + 6].try_into().expect("six columns")
}

/// Factors the diagonal block of a place, and puts the inverse of its factor there.
#[inline(always)]
fn diagonal<S: Simd>(
    simd: S,
    blocks: &Blocks,
    place: usize,
    factor: &mut [[S::f64s; 6]],
    smallest: S::f64s,
) -> S::f64s {
    let diagonal = &blocks.column(place)[0];
    let zero = simd.splat_f64s(0.0);
    let (done, rest) = factor.split_at_mut(6 * diagonal.at as usize);
    let target: &mut [[S::f64s; 6]; 6] = (&mut rest[..6]).try_into().expect("six columns");
    let entries = std::array::from_fn(|c| target[c][c]);
    // The lower triangle alone: three columns of the upper rows, all six of the lower.
    let mut upper: Tile<S::f64s, 3> = [[zero; 6]; 3];
    let mut lower: Tile<S::f64s, 3> = [[zero; 6]; 3];
    for t in 0..3 {
        for c in 0..3 {
            upper[t][c] = target[c][t];
        }
        for c in 0..6 {
            lower[t][c] = target[c][3 + t];
        }
    }
    for run in &blocks.runs[diagonal.first as usize..diagonal.end as usize] {
        let a = &done[6 * run.a as usize..6 * (run.a + run.len) as usize];
        subtract::<S, 3, 0, 6, 3>(simd, &mut upper, a, a);
        subtract::<S, 3, 3, 6, 6>(simd, &mut lower, a, a);
    }
    for t in 0..3 {
        for c in 0..3 {
            target[c][t] = upper[t][c];
        }
        for c in 0..6 {
            target[c][3 + t] = lower[t][c];
        }
    }
    invert(simd, target, &entries, FLOOR, smallest)
}

/// Eliminates the columns of a place below its diagonal block.
#[inline(always)]
fn below<S: Simd>(simd: S, blocks: &Blocks, bare: &[bool], place: usize, factor: &mut [[S::f64s; 6]]) {
    let list = blocks.column(place);
    let at = list[0].at as usize;
    for (below, bare) in list[1..].iter().zip(&bare[blocks.columns[place] + 1..]) {
        let (done, rest) = factor.split_at_mut(6 * below.at as usize);
        let target: &mut [[S::f64s; 6]; 6] = (&mut rest[..6]).try_into().expect("six columns");
        let runs = &blocks.runs[below.first as usize..below.end as usize];
        half::<S, 0>(simd, target, *bare, done, runs, at);
        half::<S, 3>(simd, target, *bare, done, runs, at);
    }
}

/// Three rows of a block below the diagonal, from `FROM` on; nothing stands in one that is `bare`.
#[inline(always)]
fn half<S: Simd, const FROM: usize>(
    simd: S,
    target: &mut [[S::f64s; 6]; 6],
    bare: bool,
    done: &[[S::f64s; 6]],
    runs: &[crate::reanalysis::blocks::Run],
    diagonal: usize,
) {
    let mut acc: Tile<S::f64s, 3> = [[simd.splat_f64s(0.0); 6]; 3];
    if !bare {
        for t in 0..3 {
            for c in 0..6 {
                acc[t][c] = target[c][FROM + t];
            }
        }
    }
    for run in runs {
        let a = &done[6 * run.a as usize..6 * (run.a + run.len) as usize];
        let b = &done[6 * run.b as usize..6 * (run.b + run.len) as usize];
        subtract::<S, 3, FROM, 6, 6>(simd, &mut acc, a, b);
    }
    divide(simd, &mut acc, block(done, diagonal));
    for t in 0..3 {
        for c in 0..6 {
            target[c][FROM + t] = acc[t][c];
        }
    }
}

/// L·y = b at a place; b stands in `shared` or in `x`.
#[inline(always)]
fn forward<S: Simd, const T: usize>(
    simd: S,
    blocks: &Blocks,
    place: usize,
    factor: &[[S::f64s; 6]],
    x: &mut [S::f64s],
    shared: Option<&[f64]>,
) {
    let x = x.as_chunks_mut::<T>().0;
    let mut acc: Tile<S::f64s, T> = [[simd.splat_f64s(0.0); 6]; T];
    if let Some(shared) = shared {
        let rows: &[[f64; T]; 6] = shared[6 * T * place..].as_chunks().0.first_chunk().expect("six rows");
        for t in 0..T {
            for c in 0..6 {
                acc[t][c] = simd.splat_f64s(rows[c][t]);
            }
        }
    } else {
        acc = turned(simd, x[6 * place..].first_chunk().expect("six rows"));
    }
    for run in &blocks.row_runs[blocks.row_starts[place]..blocks.row_starts[place + 1]] {
        let a = &x[6 * run.a as usize..6 * (run.a + run.len) as usize];
        let b = &factor[6 * run.b as usize..6 * (run.b + run.len) as usize];
        subtract::<S, T, 0, T, 6>(simd, &mut acc, a, b);
    }
    divide(simd, &mut acc, block(factor, blocks.column(place)[0].at as usize));
    turn_back(&acc, x[6 * place..].first_chunk_mut().expect("six rows"));
}

/// Lᵀ·x = y at a place.
#[inline(always)]
fn backward<S: Simd, const T: usize>(
    simd: S,
    blocks: &Blocks,
    place: usize,
    factor: &[[S::f64s; 6]],
    x: &mut [S::f64s],
) {
    let (own, after) = x.as_chunks_mut::<T>().0[6 * place..].split_at_mut(6);
    let own: &mut [[S::f64s; T]; 6] = own.first_chunk_mut().expect("six rows");
    let after = after.as_chunks::<6>().0;
    let list = blocks.column(place);
    // From zero and by index: written to memory at every step otherwise.
    let mut sums = [[simd.splat_f64s(0.0); 6]; T];
    for i in 1..list.len() {
        let solved = &after[list[i].row as usize - place - 1];
        let block = block(factor, list[i].at as usize);
        for r in 0..6 {
            for t in 0..T {
                for c in 0..6 {
                    sums[t][c] = simd.negate_mul_add_f64s(solved[r][t], block[c][r], sums[t][c]);
                }
            }
        }
    }
    let mut acc: Tile<S::f64s, T> = [[simd.splat_f64s(0.0); 6]; T];
    for t in 0..T {
        for c in 0..6 {
            acc[t][c] = simd.add_f64s(own[c][t], sums[t][c]);
        }
    }
    divide_turned(simd, &mut acc, block(factor, list[0].at as usize));
    turn_back(&acc, own);
}

/// Six rows of right-hand sides as a tile.
#[inline(always)]
fn turned<S: Simd, const T: usize>(simd: S, rows: &[[S::f64s; T]; 6]) -> Tile<S::f64s, T> {
    let mut tile: Tile<S::f64s, T> = [[simd.splat_f64s(0.0); 6]; T];
    // Loops: a closure that is not inlined is compiled without the registers' instructions.
    for t in 0..T {
        for c in 0..6 {
            tile[t][c] = rows[c][t];
        }
    }
    tile
}

/// A tile as six rows of right-hand sides.
#[inline(always)]
fn turn_back<V: Copy, const T: usize>(tile: &Tile<V, T>, rows: &mut [[V; T]; 6]) {
    for c in 0..6 {
        for t in 0..T {
            rows[c][t] = tile[t][c];
        }
    }
}

//! The passes of right-hand sides over one front: the cases of a row stand side by side in registers.

#![allow(clippy::needless_range_loop, reason = "indices of rows and columns are how such arithmetic is read")]

use pulp::{Arch, Simd, WithSimd};

use super::tiles::C;
use crate::registers::lanes;

/// Rows whose products are summed up by turns, so that an addition need not wait for the last one.
const TURNS: usize = 4;

/// Numbers in a row of so many cases: they fill registers.
pub(super) fn row(cases: usize) -> usize {
    cases.next_multiple_of(lanes())
}

/// The factored columns of a front.
#[derive(Debug, Clone, Copy)]
pub(super) struct Panel<'a> {
    /// Columns, one after another.
    pub(super) values: &'a [f64],
    /// Numbers of a column.
    pub(super) height: usize,
    /// Numbers in a row of right-hand sides: [`row`].
    pub(super) row: usize,
}

impl Panel<'_> {
    /// own ← L₁₁⁻¹·own and below ← below − L₂₁·own, for the rows of the columns and those below them.
    pub(super) fn forward(self, own: &mut [f64], below: &mut [f64]) {
        Arch::new().dispatch(Forward { panel: self, own, below });
    }

    /// own ← L₁₁⁻ᵀ·(own − L₂₁ᵀ·below).
    pub(super) fn backward(self, own: &mut [f64], below: &[f64]) {
        Arch::new().dispatch(Backward { panel: self, own, below });
    }

    /// Some columns from their first pivot's row on.
    #[inline(always)]
    fn columns<const W: usize>(&self, first: usize) -> [&[f64]; W] {
        let mut columns = [self.values; W];
        for c in 0..W {
            columns[c] = &self.values[(first + c) * self.height + first..(first + c + 1) * self.height];
        }
        columns
    }

    fn width(self) -> usize {
        self.values.len() / self.height
    }
}

struct Forward<'a> {
    panel: Panel<'a>,
    own: &'a mut [f64],
    below: &'a mut [f64],
}

impl WithSimd for Forward<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) {
        let (own, below) = (S::as_mut_simd_f64s(self.own).0, S::as_mut_simd_f64s(self.below).0);
        let registers = self.panel.row / S::F64_LANES;
        let width = self.panel.width();
        for register in 0..registers {
            let mut first = 0;
            while first + C <= width {
                let rows = [&mut own[first * registers..], &mut *below];
                down::<S, C>(simd, self.panel.columns(first), rows, registers, register);
                first += C;
            }
            while first < width {
                let rows = [&mut own[first * registers..], &mut *below];
                down::<S, 1>(simd, self.panel.columns(first), rows, registers, register);
                first += 1;
            }
        }
    }
}

struct Backward<'a> {
    panel: Panel<'a>,
    own: &'a mut [f64],
    below: &'a [f64],
}

impl WithSimd for Backward<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) {
        let (own, below) = (S::as_mut_simd_f64s(self.own).0, S::as_simd_f64s(self.below).0);
        let registers = self.panel.row / S::F64_LANES;
        for register in 0..registers {
            let mut first = self.panel.width();
            while !first.is_multiple_of(C) {
                first -= 1;
                let own = &mut own[first * registers..];
                up::<S, 1>(simd, self.panel.columns(first), own, below, registers, register);
            }
            while first > 0 {
                first -= C;
                let own = &mut own[first * registers..];
                up::<S, C>(simd, self.panel.columns(first), own, below, registers, register);
            }
        }
    }
}

/// Solves for the rows of `W` columns, the first of `own`, and takes their part off every row further down.
#[inline(always)]
fn down<S: Simd, const W: usize>(
    simd: S,
    l: [&[f64]; W],
    [own, below]: [&mut [S::f64s]; 2],
    registers: usize,
    register: usize,
) {
    let (solved, rest) = own.split_at_mut(W * registers);
    let mut x = [simd.splat_f64s(0.0); W];
    for c in 0..W {
        let mut sum = solved[c * registers + register];
        for m in 0..c {
            sum = simd.negate_mul_add_f64s(simd.splat_f64s(l[m][c]), x[m], sum);
        }
        x[c] = simd.div_f64s(sum, simd.splat_f64s(l[c][c]));
        solved[c * registers + register] = x[c];
    }
    let beside = rest.len() / registers;
    for (target, from) in [(rest, W), (below, W + beside)] {
        let rows = target.len() / registers;
        let mut l = l;
        for c in 0..W {
            l[c] = &l[c][from..from + rows];
        }
        for r in 0..rows {
            let mut sum = target[r * registers + register];
            for c in 0..W {
                sum = simd.negate_mul_add_f64s(simd.splat_f64s(l[c][r]), x[c], sum);
            }
            target[r * registers + register] = sum;
        }
    }
}

/// Takes the part of every row further down off the rows of `W` columns, the first of `own`, and solves for these.
#[inline(always)]
fn up<S: Simd, const W: usize>(
    simd: S,
    l: [&[f64]; W],
    own: &mut [S::f64s],
    below: &[S::f64s],
    registers: usize,
    register: usize,
) {
    let (solved, rest) = own.split_at_mut(W * registers);
    let mut sums = [[simd.splat_f64s(0.0); TURNS]; W];
    for c in 0..W {
        sums[c][0] = solved[c * registers + register];
    }
    let beside = rest.len() / registers;
    for (source, from) in [(&*rest, W), (below, W + beside)] {
        let rows = source.len() / registers;
        let mut l = l;
        for c in 0..W {
            l[c] = &l[c][from..from + rows];
        }
        let mut r = 0;
        while r + TURNS <= rows {
            for turn in 0..TURNS {
                let value = source[(r + turn) * registers + register];
                for c in 0..W {
                    let entry = simd.splat_f64s(l[c][r + turn]);
                    sums[c][turn] = simd.negate_mul_add_f64s(entry, value, sums[c][turn]);
                }
            }
            r += TURNS;
        }
        while r < rows {
            let value = source[r * registers + register];
            for c in 0..W {
                sums[c][0] = simd.negate_mul_add_f64s(simd.splat_f64s(l[c][r]), value, sums[c][0]);
            }
            r += 1;
        }
    }
    let mut x = [simd.splat_f64s(0.0); W];
    for c in (0..W).rev() {
        let [first, second, third, fourth] = sums[c];
        let mut sum = simd.add_f64s(simd.add_f64s(first, second), simd.add_f64s(third, fourth));
        for m in c + 1..W {
            sum = simd.negate_mul_add_f64s(simd.splat_f64s(l[c][m]), x[m], sum);
        }
        x[c] = simd.div_f64s(sum, simd.splat_f64s(l[c][c]));
        solved[c * registers + register] = x[c];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A front of so many columns and rows below, with entries that are easily told apart; above the diagonal nothing counts.
    fn front(width: usize, below: usize) -> Vec<f64> {
        let height = width + below;
        let entry = |column: usize, row: usize| match row.cmp(&column) {
            std::cmp::Ordering::Less => f64::NAN,
            std::cmp::Ordering::Equal => 4.0 + (column % 3) as f64,
            std::cmp::Ordering::Greater => ((row * 31 + column * 17) % 11) as f64 / 44.0 - 0.1,
        };
        (0..width * height).map(|place| entry(place / height, place % height)).collect()
    }

    /// Both passes with solutions that are known, for one case, for a register of them and for more.
    #[test]
    fn both_passes_find_what_was_put_in() {
        for (width, below) in [(1, 0), (6, 0), (6, 5), (13, 22), (30, 7)] {
            for cases in [1, 8, 11] {
                let (values, height, size) = (front(width, below), width + below, row(cases));
                assert!(size >= cases && size < cases + lanes());
                let panel = Panel { values: &values, height, row: size };
                let l = |row: usize, column: usize| values[column * height + row];
                let known = |row: usize, case: usize| ((row * 5 + case * 3) % 7) as f64 - 2.5;
                let rows = |count: usize, number: &dyn Fn(usize, usize) -> f64| -> Vec<f64> {
                    let row = |row| (0..size).map(move |case| if case < cases { number(row, case) } else { 0.0 });
                    (0..count).flat_map(row).collect()
                };
                let close = |found: &[f64], wanted: &[f64]| {
                    assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-12), "{width} {below} {cases}");
                };
                let lower = |row: usize, case: usize| {
                    (0..width.min(row + 1)).map(|column| l(row, column) * known(column, case)).sum::<f64>()
                };
                let mut own = rows(width, &lower);
                let mut under = rows(below, &|row, case| 2.0 + lower(width + row, case));
                panel.forward(&mut own, &mut under);
                close(&own, &rows(width, &known));
                close(&under, &rows(below, &|_, _| 2.0));

                let under = rows(below, &|row, case| known(width + row, case));
                let mut own =
                    rows(width, &|column, case| (column..height).map(|row| l(row, column) * known(row, case)).sum());
                panel.backward(&mut own, &under);
                close(&own, &rows(width, &known));
            }
        }
    }
}

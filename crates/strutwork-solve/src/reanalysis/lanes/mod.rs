//! Several variants of one topology factored and solved side by side, one a lane of the processor's registers.

#![allow(clippy::needless_range_loop, reason = "indices of rows and columns are how such arithmetic is read")]

mod assemble;
mod kernels;
mod solution;
mod sweep;

use pulp::{Arch, Simd, WithSimd};

pub(super) use solution::{Case, Solution};
pub(super) use sweep::Sweep;

/// Numbers for the lanes of registers, one register after another, where the processor's memory lines begin.
#[derive(Debug, Clone, Default)]
pub(super) struct Registers {
    values: Vec<f64>,
    start: usize,
    len: usize,
}

impl Registers {
    /// Bytes of a memory line.
    const LINE: usize = 64;

    /// So many registers of [`lanes`] numbers, all zero.
    pub(super) fn new(count: usize) -> Self {
        let len = count * lanes();
        let values = vec![0.0_f64; len + Self::LINE / 8];
        // Counted in numbers; a pointer that cannot be aligned is as good as any.
        let start = values.as_ptr().align_offset(Self::LINE);
        let start = if start < Self::LINE / 8 { start } else { 0 };
        Self { values, start, len }
    }

    /// As many, all zero.
    pub(super) fn another(&self) -> Self {
        Self::new(self.len / lanes())
    }

    /// All numbers.
    pub(super) fn all(&self) -> &[f64] {
        &self.values[self.start..self.start + self.len]
    }

    /// All numbers, to be changed.
    pub(super) fn all_mut(&mut self) -> &mut [f64] {
        &mut self.values[self.start..self.start + self.len]
    }
}

/// How many variants are worked on side by side on this processor.
pub(super) fn lanes() -> usize {
    struct Lanes;
    impl WithSimd for Lanes {
        type Output = usize;
        fn with_simd<S: Simd>(self, _: S) -> usize {
            S::F64_LANES
        }
    }
    Arch::new().dispatch(Lanes)
}

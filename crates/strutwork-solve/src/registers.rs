//! Numbers as the widest registers of the processor take them.

use pulp::{Arch, Simd, WithSimd};

/// Numbers for the lanes of registers, one register after another, where the processor's memory lines begin.
#[derive(Debug, Clone, Default)]
pub(crate) struct Registers {
    values: Vec<f64>,
    start: usize,
    len: usize,
}

impl Registers {
    /// Bytes of a memory line.
    const LINE: usize = 64;

    /// So many registers of [`lanes`] numbers, all zero.
    pub(crate) fn new(count: usize) -> Self {
        let len = count * lanes();
        let values = vec![0.0_f64; len + Self::LINE / 8];
        // Counted in numbers; a pointer that cannot be aligned is as good as any.
        let start = values.as_ptr().align_offset(Self::LINE);
        let start = if start < Self::LINE / 8 { start } else { 0 };
        Self { values, start, len }
    }

    /// As many, all zero.
    pub(crate) fn another(&self) -> Self {
        Self::new(self.len / lanes())
    }

    /// All numbers.
    pub(crate) fn all(&self) -> &[f64] {
        &self.values[self.start..self.start + self.len]
    }

    /// All numbers, to be changed.
    pub(crate) fn all_mut(&mut self) -> &mut [f64] {
        &mut self.values[self.start..self.start + self.len]
    }
}

/// How many numbers a register of this processor holds.
pub(crate) fn lanes() -> usize {
    struct Lanes;
    impl WithSimd for Lanes {
        type Output = usize;
        fn with_simd<S: Simd>(self, _: S) -> usize {
            S::F64_LANES
        }
    }
    Arch::new().dispatch(Lanes)
}

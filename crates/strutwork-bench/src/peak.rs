//! The greatest number of floating-point operations a second that one thread of this machine makes, measured.

use std::time::Instant;

use pulp::{Arch, Simd, WithSimd};

/// Passes of the loop.
const PASSES: usize = 400;
/// Steps of the loop.
const STEPS: usize = 100_000;
/// Sums kept going side by side: more than the latency of an operation times the number of units.
const SUMS: usize = 16;

struct Loop;

impl WithSimd for Loop {
    type Output = (f64, f64);

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> (f64, f64) {
        let factor = simd.splat_f64s(std::hint::black_box(0.999_999));
        let term = simd.splat_f64s(std::hint::black_box(1e-6));
        let mut sums = [simd.splat_f64s(1.0); SUMS];
        for _ in 0..STEPS {
            for sum in &mut sums {
                *sum = simd.mul_add_f64s(*sum, factor, term);
            }
        }
        let total = sums.iter().fold(0.0, |total, sum| total + simd.reduce_sum_f64s(*sum));
        ((STEPS * SUMS * S::F64_LANES * 2) as f64, total)
    }
}

/// What short passes of the loop reached.
pub(crate) struct Peak {
    /// The best pass: what the processor can do.
    best: f64,
    /// The median pass: what it did at the time, beside others on the machine.
    median: f64,
}

/// Fused multiply-adds in registers alone, the widest that the processor has, two operations each, in many short passes:
/// operations a second.
pub(crate) fn flops_a_second() -> Peak {
    let pass = |_| {
        let start = Instant::now();
        let (operations, total) = Arch::new().dispatch(Loop);
        std::hint::black_box(total);
        operations / start.elapsed().as_secs_f64()
    };
    let mut passes: Vec<f64> = (0..PASSES).map(pass).collect();
    passes.sort_by(f64::total_cmp);
    Peak { best: passes[PASSES - 1], median: passes[PASSES / 2] }
}

impl Peak {
    /// How many times over a variant of so many operations takes what it would at the peak: against the best pass and against
    /// the median one.
    pub(crate) fn told(&self, seconds: f64, operations: f64) -> String {
        format!(
            "{:.2} times its operations at the peak of {:.1}e9 a second, the best of {PASSES} passes of fused multiply-adds in \
             registers; {:.2} times at their median, {:.1}e9",
            seconds * self.best / operations,
            self.best / 1e9,
            seconds * self.median / operations,
            self.median / 1e9,
        )
    }
}

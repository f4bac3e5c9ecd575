//! The greatest number of floating-point operations a second that one thread of this machine makes, measured.

use std::time::Instant;

use pulp::{Arch, Simd, WithSimd};

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

/// Fused multiply-adds in registers alone, the widest that the processor has, two operations each; the best of many short passes.
pub(crate) fn flops_a_second() -> f64 {
    (0..400)
        .map(|_| {
            let start = Instant::now();
            let (operations, total) = Arch::new().dispatch(Loop);
            std::hint::black_box(total);
            operations / start.elapsed().as_secs_f64()
        })
        .fold(0.0, f64::max)
}

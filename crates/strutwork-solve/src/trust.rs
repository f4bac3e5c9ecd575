//! How far the numbers can be trusted: refinement, residual, condition.

use crate::assembly::System;
use crate::linear::Factored;

/// Refinement stops at this backward error: a few units of rounding.
const GOOD_ENOUGH: f64 = 4.0 * f64::EPSILON;
/// Refinement stops after this many steps at the latest.
const MOST_STEPS: u32 = 3;

/// A refined solution of one right-hand side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Refined {
    /// ‖f − K u‖∞ / (‖K‖∞‖u‖∞ + ‖f‖∞).
    pub residual: f64,
    /// Steps taken.
    pub steps: u32,
}

/// Improves `u` by solving for the residual, as long as that more than halves the componentwise backward error.
///
/// # Source
/// Higham (2002), Accuracy and Stability of Numerical Algorithms, 2nd ed., SIAM, ch. 12 (fixed-precision iterative
/// refinement; from memory).
pub(crate) fn refine(system: &System, factored: &Factored<'_>, norm: f64, f: &[f64], u: &mut [f64]) -> Refined {
    let mut residual = residual_of(system, f, u);
    let mut error = componentwise(system, f, u, &residual);
    let mut steps = 0;
    while error > GOOD_ENOUGH && steps < MOST_STEPS {
        let mut step = residual.clone();
        factored.solve(&mut step, 1);
        let tried: Vec<f64> = u.iter().zip(&step).map(|(u, d)| u + d).collect();
        let new_residual = residual_of(system, f, &tried);
        let new_error = componentwise(system, f, &tried, &new_residual);
        steps += 1;
        let better = new_error < error;
        let enough = new_error > error / 2.0;
        if better {
            u.copy_from_slice(&tried);
            (residual, error) = (new_residual, new_error);
        }
        if enough {
            break;
        }
    }
    let size = |v: &[f64]| v.iter().fold(0.0, |most: f64, x| most.max(x.abs()));
    let scale = norm * size(u) + size(f);
    Refined { residual: if scale > 0.0 { size(&residual) / scale } else { 0.0 }, steps }
}

fn residual_of(system: &System, f: &[f64], u: &[f64]) -> Vec<f64> {
    system.multiply(u).iter().zip(f).map(|(k, f)| f - k).collect()
}

/// max |r| / (|K||u| + |f|), component by component; a row in which nothing acts counts as solved.
fn componentwise(system: &System, f: &[f64], u: &[f64], residual: &[f64]) -> f64 {
    let scale = system.multiply_absolute(u);
    let largest = scale.iter().zip(f).map(|(k, f)| k + f.abs()).fold(0.0, f64::max);
    residual
        .iter()
        .zip(scale.iter().zip(f))
        .map(|(r, (k, f))| {
            let size = k + f.abs();
            // Rows far below the largest carry rounding of the others; they are measured against the largest.
            if size > 1e-12 * largest { r.abs() / size } else { r.abs() / largest.max(f64::MIN_POSITIVE) }
        })
        .fold(0.0, f64::max)
}

/// Estimate of the 1-norm condition number of the stiffness scaled to a unit diagonal, and the solves that it took.
///
/// # Source
/// Higham (1988), ACM Transactions on Mathematical Software 14(4), pp. 381–396 (Hager's estimator; from memory).
pub(crate) fn condition(system: &System, factored: &Factored<'_>) -> (f64, u64) {
    let scale: Vec<f64> = system.diagonal().iter().map(|d| d.sqrt()).collect();
    let n = scale.len();
    // S = D^-½ K D^-½, so S⁻¹ x = D^½ K⁻¹ D^½ x.
    let inverse = |x: &[f64]| {
        let mut y: Vec<f64> = x.iter().zip(&scale).map(|(x, s)| x * s).collect();
        factored.solve(&mut y, 1);
        y.iter().zip(&scale).map(|(y, s)| y * s).collect::<Vec<f64>>()
    };
    let norm = {
        let ones: Vec<f64> = scale.iter().map(|s| 1.0 / s).collect();
        let sums = system.multiply_absolute(&ones);
        sums.iter().zip(&scale).map(|(sum, s)| sum / s).fold(0.0, f64::max)
    };
    let mut x = vec![1.0 / n as f64; n];
    let mut estimate = 0.0;
    let mut solves = 0;
    for _ in 0..3 {
        let y = inverse(&x);
        solves += 1;
        let new: f64 = y.iter().map(|y| y.abs()).sum();
        if new <= estimate {
            break;
        }
        estimate = new;
        let z = inverse(&y.iter().map(|y| y.signum()).collect::<Vec<_>>());
        solves += 1;
        let (largest, size) = z
            .iter()
            .enumerate()
            .fold((0, 0.0), |(at, most), (i, z)| if z.abs() > most { (i, z.abs()) } else { (at, most) });
        let along: f64 = z.iter().zip(&x).map(|(z, x)| z * x).sum();
        if size <= along {
            break;
        }
        x = vec![0.0; n];
        x[largest] = 1.0;
    }
    (estimate * norm, solves)
}

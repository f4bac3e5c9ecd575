//! Lanczos iteration on the inverse, in an inner product of its own.

use super::tridiagonal::{Spectrum, with_last_row, with_vectors};

/// A pair counts as found when what is left of its equation is below this share of it.
const CONVERGED: f64 = 1e-12;
/// Steps of one run beyond which it starts anew from what it found.
const STEPS: usize = 160;
/// Steps between two looks at what has been found.
const LOOK: usize = 6;
/// What is left of a vector after orthogonalisation below this share of it is rounding.
const NOTHING: f64 = 1e-11;

/// A symmetric problem A x = (1/θ) B x, seen through the operator A⁻¹B and an inner product in which it is symmetric.
pub(crate) trait Pencil {
    /// How many equations it has.
    fn len(&self) -> usize;

    /// A⁻¹B x.
    fn operate(&self, x: &[f64]) -> Vec<f64>;

    /// W x, the inner product being xᵀW y: B for modes, A for buckling.
    fn weigh(&self, x: &[f64]) -> Vec<f64>;
}

/// An eigenvalue of the operator, with its vector of weight 1.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pair {
    /// θ: 1/ω² of a mode, 1/λ of a load factor.
    pub theta: f64,
    /// x, with xᵀW x = 1.
    pub vector: Vec<f64>,
    /// ‖A⁻¹B x − θ x‖ over |θ|, in the inner product.
    pub residual: f64,
}

/// The `wanted` pairs with the greatest θ on the side(s) that `side` accepts, greatest |θ| first, besides `known` ones (which
/// must be pairs of the operator, and are left out).
///
/// One vector at a time finds one of several equal eigenvalues: whoever needs all of them counts, and asks again.
///
/// # Source
/// Lanczos with full reorthogonalisation: Ericsson & Ruhe (1980), The spectral transformation Lanczos method, Math. Comp.
/// 35, p. 1251 (from memory); Parlett (1998), The Symmetric Eigenvalue Problem, SIAM, ch. 13 (from memory).
pub(crate) fn pairs(
    pencil: &impl Pencil,
    known: &[Pair],
    wanted: usize,
    seed: u64,
    side: impl Fn(f64) -> bool,
) -> Vec<Pair> {
    let mut found: Vec<Pair> = Vec::new();
    // A run that ends without all starts anew; three without anything new end the search.
    let mut idle = 0;
    let mut run = 0;
    while found.len() < wanted && idle < 3 {
        let known: Vec<&Pair> = known.iter().chain(&found).collect();
        let next = one_run(pencil, &known, wanted - found.len(), seed + run, &side);
        idle = if next.is_empty() { idle + 1 } else { 0 };
        found.extend(next);
        run += 1;
    }
    found.sort_by(|a, b| b.theta.abs().total_cmp(&a.theta.abs()));
    found
}

/// One run from one start vector.
fn one_run(pencil: &impl Pencil, known: &[&Pair], wanted: usize, seed: u64, side: &impl Fn(f64) -> bool) -> Vec<Pair> {
    let locked: Vec<(&[f64], Vec<f64>)> =
        known.iter().map(|pair| (pair.vector.as_slice(), pencil.weigh(&pair.vector))).collect();
    let mut basis = Basis { vectors: Vec::new(), weighed: Vec::new(), locked };
    // Once through the operator, so that nothing is in it that the operator never gives.
    let start = pencil.operate(&random(pencil.len(), seed));
    let scale = norm(&start, &pencil.weigh(&start));
    let Some((vector, weighed, _)) = basis.orthonormal(pencil, start, scale) else { return Vec::new() };
    basis.push(vector, weighed);
    let (mut alpha, mut beta): (Vec<f64>, Vec<f64>) = (Vec::new(), Vec::new());
    loop {
        let step = alpha.len();
        let next = pencil.operate(&basis.vectors[step]);
        let scale = norm(&next, &pencil.weigh(&next));
        alpha.push(dot(&next, &basis.weighed[step]));
        let follower = basis.orthonormal(pencil, next, scale);
        let length = follower.as_ref().map_or(0.0, |(_, _, length)| *length);
        let last = follower.is_none() || step + 1 == STEPS;
        if last || (step + 1).is_multiple_of(LOOK) {
            let good = found(&with_last_row(&alpha, &beta), length, side);
            let done = good.iter().take(wanted).filter(|(_, _, residual)| *residual <= CONVERGED).count();
            if done == wanted || last {
                // In order, up to the first that has not converged: what stands behind it may hide another.
                let kept = good.iter().take(wanted).take_while(|(_, _, residual)| *residual <= CONVERGED);
                let vectors = with_vectors(&alpha, &beta);
                return kept
                    .map(|&(place, theta, residual)| Pair { theta, vector: basis.combine(&vectors, place), residual })
                    .collect();
            }
        }
        let Some((vector, weighed, length)) = follower else { return Vec::new() };
        beta.push(length);
        basis.push(vector, weighed);
    }
}

/// Vectors of a run, each of weight 1 and square to all others.
struct Basis<'k> {
    vectors: Vec<Vec<f64>>,
    weighed: Vec<Vec<f64>>,
    /// Known pairs, with their vectors weighed.
    locked: Vec<(&'k [f64], Vec<f64>)>,
}

impl Basis<'_> {
    fn push(&mut self, vector: Vec<f64>, weighed: Vec<f64>) {
        self.vectors.push(vector);
        self.weighed.push(weighed);
    }

    /// What is left of a vector beside all others, scaled to weight 1, weighed, and its length before; `None` if rounding.
    fn orthonormal(&self, pencil: &impl Pencil, mut x: Vec<f64>, scale: f64) -> Option<(Vec<f64>, Vec<f64>, f64)> {
        // Twice is enough (Parlett, after Kahan).
        for _ in 0..2 {
            let locked = self.locked.iter().map(|(vector, weighed)| (*vector, weighed.as_slice()));
            let own = self.vectors.iter().map(Vec::as_slice).zip(self.weighed.iter().map(Vec::as_slice));
            for (vector, weighed) in locked.chain(own) {
                let along = dot(&x, weighed);
                x.iter_mut().zip(vector).for_each(|(value, part)| *value -= along * part);
            }
        }
        let mut weighed = pencil.weigh(&x);
        let length = norm(&x, &weighed);
        if length.is_nan() || length <= NOTHING * scale {
            return None;
        }
        x.iter_mut().chain(&mut weighed).for_each(|value| *value /= length);
        Some((x, weighed, length))
    }

    fn combine(&self, ritz: &Spectrum, place: usize) -> Vec<f64> {
        let mut sum = vec![0.0; self.vectors[0].len()];
        for (vector, shares) in self.vectors.iter().zip(&ritz.rows) {
            sum.iter_mut().zip(vector).for_each(|(value, part)| *value += shares[place] * part);
        }
        sum
    }
}

/// Pairs of the accepted side, greatest first: place, value, residual over the value. `rest` is the length of the vector that
/// the run did not take in.
fn found(ritz: &Spectrum, rest: f64, side: &impl Fn(f64) -> bool) -> Vec<(usize, f64, f64)> {
    let last = ritz.rows.last().map_or(&[][..], Vec::as_slice);
    let with_last = ritz.values.iter().zip(last).enumerate();
    let mut found: Vec<(usize, f64, f64)> = with_last
        .filter(|(_, (theta, _))| side(**theta))
        .map(|(place, (&theta, &last))| (place, theta, rest * last.abs() / theta.abs()))
        .collect();
    found.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
    found
}

pub(crate) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

fn norm(x: &[f64], weighed: &[f64]) -> f64 {
    dot(x, weighed).max(0.0).sqrt()
}

/// Numbers in −1 … 1, always the same for a seed.
fn random(n: usize, seed: u64) -> Vec<f64> {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15).wrapping_add(0x1234_5678_9abc_def1);
    (0..n)
        .map(|_| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            (state >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A diagonal problem: θ as given.
    struct Diagonal(Vec<f64>);

    impl Pencil for Diagonal {
        fn len(&self) -> usize {
            self.0.len()
        }
        fn operate(&self, x: &[f64]) -> Vec<f64> {
            self.0.iter().zip(x).map(|(theta, x)| theta * x).collect()
        }
        fn weigh(&self, x: &[f64]) -> Vec<f64> {
            x.to_vec()
        }
    }

    #[test]
    fn the_greatest_are_found_in_order() {
        let problem = Diagonal((1..=60).map(|i| 1.0 / f64::from(i * i)).collect());
        let found = pairs(&problem, &[], 5, 1, |theta| theta > 0.0);
        for (place, pair) in found.iter().enumerate() {
            let expected = 1.0 / ((place + 1) as f64).powi(2);
            assert!((pair.theta - expected).abs() < 1e-13 * expected, "{place}");
            assert!((pair.vector[place].abs() - 1.0).abs() < 1e-9);
        }
        assert_eq!(found.len(), 5);
    }

    #[test]
    fn equal_values_come_when_asked_for_again() {
        let problem = Diagonal(vec![3.0, 3.0, 2.0, 1.0, 0.5, 0.25, 0.1]);
        let first = pairs(&problem, &[], 1, 1, |_| true);
        let second = pairs(&problem, &first, 1, 2, |_| true);
        assert!((first[0].theta - 3.0).abs() < 1e-12 && (second[0].theta - 3.0).abs() < 1e-12);
        let along: f64 = first[0].vector.iter().zip(&second[0].vector).map(|(a, b)| a * b).sum();
        assert!(along.abs() < 1e-10);
    }

    #[test]
    fn one_side_can_be_asked_for() {
        let problem = Diagonal(vec![-4.0, 3.0, -2.0, 1.0, 0.5, -0.25, 0.1]);
        let found = pairs(&problem, &[], 2, 1, |theta| theta < 0.0);
        assert!((found[0].theta + 4.0).abs() < 1e-12 && (found[1].theta + 2.0).abs() < 1e-12);
    }

    #[test]
    fn more_than_there_are_cannot_be_found() {
        let found = pairs(&Diagonal(vec![2.0, 1.0, 0.0]), &[], 5, 1, |theta| theta > 1e-9);
        assert_eq!(found.len(), 2);
    }
}

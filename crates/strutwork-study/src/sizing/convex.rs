//! One step of the method of moving asymptotes: a convex separable approximation, solved by a primal-dual interior point method.
//!
//! # Source
//! Svanberg (1987), The method of moving asymptotes, Int. J. Numer. Meth. Eng. 24, p. 359 (from memory); the interior point
//! method after the same author's lecture notes (2007), MMA and GCMMA, section 5 (from memory).

use nalgebra::{DMatrix, DVector};

/// Σ p/(U − x) + q/(x − L), for the aim and for each limit, and what each limit may come to.
pub(super) struct Approximation {
    /// Lower and upper asymptotes.
    pub asymptotes: Vec<[f64; 2]>,
    /// Bounds of this step, strictly inside the asymptotes.
    pub bounds: Vec<[f64; 2]>,
    /// p and q of the aim.
    pub aim: Vec<[f64; 2]>,
    /// p and q of each limit.
    pub limits: Vec<Vec<[f64; 2]>>,
    /// What each limit's sum may come to.
    pub rooms: Vec<f64>,
}

/// The price of breaking a limit by 1 (100 %), in units of the aim: a limit is only broken where the step cannot keep it.
const BROKEN: f64 = 1e3;

/// Values and slopes of a function, with which an approximation meets it.
pub(super) struct Meets<'a> {
    pub value: f64,
    pub slopes: &'a [f64],
}

impl Approximation {
    /// Convex functions that meet value and slopes at `x`.
    ///
    /// Aim and limits are given as numbers of the order of 1.
    pub(super) fn of(
        x: &[f64],
        asymptotes: Vec<[f64; 2]>,
        bounds: Vec<[f64; 2]>,
        aim: &[f64],
        limits: &[Meets<'_>],
    ) -> Self {
        let convex = |slopes: &[f64]| -> Vec<[f64; 2]> {
            let sides = x.iter().zip(&asymptotes).zip(slopes);
            sides
                .map(|((x, [low, high]), slope)| {
                    // A little of both keeps every function strictly convex.
                    let (up, down) = (slope.max(0.0), (-slope).max(0.0));
                    let both = 1e-3 * slope.abs() + 1e-8 / (high - low);
                    [(high - x).powi(2) * (up + both), (x - low).powi(2) * (down + both)]
                })
                .collect()
        };
        let sums = |terms: &[[f64; 2]]| -> f64 {
            (terms.iter().zip(x).zip(&asymptotes))
                .map(|(([p, q], x), [low, high])| p / (high - x) + q / (x - low))
                .sum()
        };
        let terms: Vec<Vec<[f64; 2]>> = limits.iter().map(|limit| convex(limit.slopes)).collect();
        let rooms = limits.iter().zip(&terms).map(|(limit, terms)| sums(terms) - limit.value).collect();
        let aim = convex(aim);
        Self { asymptotes, bounds, aim, limits: terms, rooms }
    }

    /// Where the aim is least within the limits.
    pub(super) fn minimum(&self) -> Vec<f64> {
        let mut state = State::start(self);
        let mut barrier = 1.0;
        while barrier > 1e-9 {
            for _ in 0..100 {
                let (norm, most) = self.residual(&state, barrier);
                if most <= 0.9 * barrier {
                    break;
                }
                let step = self.newton(&state, barrier);
                let mut length = state.longest(&step, &self.bounds);
                loop {
                    let tried = state.moved(&step, length);
                    if self.residual(&tried, barrier).0 < norm || length < 1e-10 {
                        state = tried;
                        break;
                    }
                    length /= 2.0;
                }
                if length < 1e-10 {
                    break;
                }
            }
            barrier *= 0.1;
        }
        state.x.iter().copied().collect()
    }

    /// Slopes and curvatures of aim plus multipliers times limits; values and slopes of the limits.
    fn derivatives(&self, state: &State) -> (DVector<f64>, DVector<f64>, DVector<f64>, DMatrix<f64>) {
        let (n, m) = (state.x.len(), self.limits.len());
        let (mut slope, mut curve) = (DVector::zeros(n), DVector::zeros(n));
        let (mut values, mut slopes) = (DVector::zeros(m), DMatrix::zeros(m, n));
        for j in 0..n {
            let [low, high] = self.asymptotes[j];
            let (above, below) = (high - state.x[j], state.x[j] - low);
            let (mut p, mut q) = (self.aim[j][0], self.aim[j][1]);
            for i in 0..m {
                let [pi, qi] = self.limits[i][j];
                p += state.multipliers[i] * pi;
                q += state.multipliers[i] * qi;
                values[i] += pi / above + qi / below;
                slopes[(i, j)] = pi / above.powi(2) - qi / below.powi(2);
            }
            slope[j] = p / above.powi(2) - q / below.powi(2);
            curve[j] = 2.0 * p / above.powi(3) + 2.0 * q / below.powi(3);
        }
        (slope, curve, values, slopes)
    }

    /// Norm and greatest part of what is left of the conditions.
    fn residual(&self, state: &State, barrier: f64) -> (f64, f64) {
        let (slope, _, values, _) = self.derivatives(state);
        let mut parts: Vec<f64> = Vec::new();
        for j in 0..state.x.len() {
            let [low, high] = self.bounds[j];
            parts.push(slope[j] - state.at_low[j] + state.at_high[j]);
            parts.push(state.at_low[j] * (state.x[j] - low) - barrier);
            parts.push(state.at_high[j] * (high - state.x[j]) - barrier);
        }
        for i in 0..self.limits.len() {
            parts.push(BROKEN + state.broken[i] - state.no_less[i] - state.multipliers[i]);
            parts.push(values[i] - state.broken[i] + state.slack[i] - self.rooms[i]);
            parts.push(state.no_less[i] * state.broken[i] - barrier);
            parts.push(state.multipliers[i] * state.slack[i] - barrier);
        }
        let norm = parts.iter().map(|part| part * part).sum::<f64>().sqrt();
        (norm, parts.iter().fold(0.0, |most, part| most.max(part.abs())))
    }

    fn newton(&self, state: &State, barrier: f64) -> State {
        let (n, m) = (state.x.len(), self.limits.len());
        let (slope, curve, values, slopes) = self.derivatives(state);
        let room = |j: usize| [state.x[j] - self.bounds[j][0], self.bounds[j][1] - state.x[j]];
        let dx = DVector::from_fn(n, |j, _| slope[j] - barrier / room(j)[0] + barrier / room(j)[1]);
        let diagonal =
            DVector::from_fn(n, |j, _| curve[j] + state.at_low[j] / room(j)[0] + state.at_high[j] / room(j)[1]);
        let dy =
            DVector::from_fn(m, |i, _| BROKEN + state.broken[i] - state.multipliers[i] - barrier / state.broken[i]);
        let diagonal_y = DVector::from_fn(m, |i, _| 1.0 + state.no_less[i] / state.broken[i]);
        let dl =
            DVector::from_fn(m, |i, _| values[i] - state.broken[i] - self.rooms[i] + barrier / state.multipliers[i]);
        let scaled = DMatrix::from_fn(m, n, |i, j| slopes[(i, j)] / diagonal[j]);
        let mut matrix = &scaled * slopes.transpose();
        for i in 0..m {
            matrix[(i, i)] += state.slack[i] / state.multipliers[i] + 1.0 / diagonal_y[i];
        }
        let right = DVector::from_fn(m, |i, _| dl[i] + dy[i] / diagonal_y[i]) - &scaled * &dx;
        let multipliers = matrix.clone().cholesky().map_or_else(
            || matrix.lu().solve(&right).unwrap_or_else(|| DVector::zeros(m)),
            |factor| factor.solve(&right),
        );
        let back = slopes.tr_mul(&multipliers);
        let x = DVector::from_fn(n, |j, _| -(dx[j] + back[j]) / diagonal[j]);
        let broken = DVector::from_fn(m, |i, _| (multipliers[i] - dy[i]) / diagonal_y[i]);
        State {
            at_low: DVector::from_fn(n, |j, _| -state.at_low[j] + (barrier - state.at_low[j] * x[j]) / room(j)[0]),
            at_high: DVector::from_fn(n, |j, _| -state.at_high[j] + (barrier + state.at_high[j] * x[j]) / room(j)[1]),
            no_less: DVector::from_fn(m, |i, _| {
                -state.no_less[i] + (barrier - state.no_less[i] * broken[i]) / state.broken[i]
            }),
            slack: DVector::from_fn(m, |i, _| {
                -state.slack[i] + (barrier - state.slack[i] * multipliers[i]) / state.multipliers[i]
            }),
            x,
            broken,
            multipliers,
        }
    }
}

/// Unknowns of the interior point method, or a step of them.
struct State {
    x: DVector<f64>,
    /// By how much each limit is broken.
    broken: DVector<f64>,
    /// Of the limits.
    multipliers: DVector<f64>,
    /// Of the lower and upper bounds, and of `broken` ≥ 0.
    at_low: DVector<f64>,
    at_high: DVector<f64>,
    no_less: DVector<f64>,
    slack: DVector<f64>,
}

impl State {
    fn start(of: &Approximation) -> Self {
        let (n, m) = (of.bounds.len(), of.limits.len());
        let middle = |j: usize| f64::midpoint(of.bounds[j][0], of.bounds[j][1]);
        Self {
            x: DVector::from_fn(n, |j, _| middle(j)),
            broken: DVector::from_element(m, 1.0),
            multipliers: DVector::from_element(m, 1.0),
            at_low: DVector::from_fn(n, |j, _| (1.0 / (middle(j) - of.bounds[j][0])).max(1.0)),
            at_high: DVector::from_fn(n, |j, _| (1.0 / (of.bounds[j][1] - middle(j))).max(1.0)),
            no_less: DVector::from_element(m, BROKEN / 2.0),
            slack: DVector::from_element(m, 1.0),
        }
    }

    /// The longest part of a step, up to 1, that keeps everything positive that must be.
    fn longest(&self, step: &Self, bounds: &[[f64; 2]]) -> f64 {
        let mut most = 1.0_f64;
        let mut keep = |value: f64, change: f64| {
            if change < 0.0 {
                most = most.min(0.99 * value / -change);
            }
        };
        for (j, [low, high]) in bounds.iter().enumerate() {
            keep(self.x[j] - low, step.x[j]);
            keep(high - self.x[j], -step.x[j]);
            keep(self.at_low[j], step.at_low[j]);
            keep(self.at_high[j], step.at_high[j]);
        }
        for i in 0..self.broken.len() {
            keep(self.broken[i], step.broken[i]);
            keep(self.multipliers[i], step.multipliers[i]);
            keep(self.no_less[i], step.no_less[i]);
            keep(self.slack[i], step.slack[i]);
        }
        most
    }

    fn moved(&self, step: &Self, length: f64) -> Self {
        Self {
            x: &self.x + &step.x * length,
            broken: &self.broken + &step.broken * length,
            multipliers: &self.multipliers + &step.multipliers * length,
            at_low: &self.at_low + &step.at_low * length,
            at_high: &self.at_high + &step.at_high * length,
            no_less: &self.no_less + &step.no_less * length,
            slack: &self.slack + &step.slack * length,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two bars in parallel terms: least 2x + y with 1/x + 1/y ≤ 1 has x = 1 + 1/√2, y = 1 + √2.
    #[test]
    fn a_problem_that_is_its_own_approximation_is_solved_at_once() {
        let problem = Approximation {
            asymptotes: vec![[0.0, 1e9]; 2],
            bounds: vec![[0.1, 100.0]; 2],
            // p/(U − x) with U far away is a straight line of slope p/U².
            aim: vec![[2e18, 0.0], [1e18, 0.0]],
            limits: vec![vec![[0.0, 1.0], [0.0, 1.0]]],
            rooms: vec![1.0],
        };
        let x = problem.minimum();
        assert!((x[0] - (1.0 + 0.5_f64.sqrt())).abs() < 1e-6, "{x:?}");
        assert!((x[1] - (1.0 + 2.0_f64.sqrt())).abs() < 1e-6, "{x:?}");
    }
}

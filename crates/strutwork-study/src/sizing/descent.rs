//! A search between bounds: moving asymptotes with exact derivatives.

use strutwork_model::model::Section;

use super::convex::{Approximation, Meets};
use super::frame::{Evaluated, Frame};
use super::limits::KEPT;
use super::outcome::Effort;
use super::relaxed::Relaxed;
use super::rows::Rows;
use super::{SizingFault, Task};
use crate::random::Random;

/// Steps of the search.
const STEPS: usize = 150;
/// The search ends when no size changes by more than this share.
pub(super) const STILL: f64 = 1e-5;
/// A step changes no size by more than this factor down, and its inverse up.
const MOVE: f64 = 0.5;
/// What the sizes are raised by at the end, again and again, until every limit is kept.
const RAISES: usize = 60;

/// Starts drawn by lot, at most.
const LOTS: usize = 1;
/// How far the asymptotes stand from a size at first, as a share of it.
const REACH: f64 = 0.9;

/// Where a search between bounds ended.
pub(super) struct Ended {
    pub x: Vec<f64>,
    pub evaluated: Evaluated,
    pub last_change: f64,
}

/// A search between bounds.
pub(super) struct Descent<'a> {
    pub frame: &'a Frame<'a>,
    pub relaxed: Vec<Relaxed>,
    pub effort: Effort,
}

impl Descent<'_> {
    /// Where searches start: all sizes in the middle of their bounds, all near the top, and some drawn by lot.
    pub(super) fn starts(&self, task: &Task<'_>) -> Vec<(String, Vec<f64>)> {
        let mut random = Random::new(task.search.seed);
        let mut starts = vec![("the middle of the bounds".to_owned(), self.between(|| 0.5))];
        for round in 1..=task.search.rounds.min(LOTS) {
            starts.push((format!("sizes drawn by lot, {round}"), self.between(|| random.share())));
        }
        starts
    }

    /// Sizes at shares of the way between their bounds, by ratio.
    pub(super) fn between(&self, mut share: impl FnMut() -> f64) -> Vec<f64> {
        self.relaxed.iter().map(|one| one.least * (one.most / one.least).powf(share())).collect()
    }

    /// From a start to where nothing moves any more; the inner `Err` says why there is no frame.
    pub(super) fn run(&mut self, mut x: Vec<f64>) -> Result<Result<Ended, String>, SizingFault> {
        let mut evaluated = match self.evaluate(&x) {
            Ok(evaluated) => evaluated,
            Err(why) => return Ok(Err(why)),
        };
        let mut reach = vec![REACH; x.len()];
        let mut moved: [Vec<f64>; 2] = [vec![0.0; x.len()], vec![0.0; x.len()]];
        let mut last_change = f64::INFINITY;
        for _ in 0..STEPS {
            self.effort.relaxed_steps += 1;
            let next = self.step(&x, &evaluated, &reach)?;
            let change: Vec<f64> = next.iter().zip(&x).map(|(next, x)| next / x - 1.0).collect();
            for (reach, (now, before)) in reach.iter_mut().zip(change.iter().zip(&moved[0])) {
                let turned = now * before;
                *reach = (*reach * if turned < 0.0 { 0.7 } else { 1.15 }).clamp(0.02, 0.95);
            }
            last_change = change.iter().fold(0.0, |most, change| most.max(change.abs()));
            moved = [change, std::mem::take(&mut moved[0])];
            x = next;
            evaluated = match self.evaluate(&x) {
                Ok(evaluated) => evaluated,
                Err(why) => return Ok(Err(why)),
            };
            if last_change < STILL && evaluated.worst() <= 1.0 + 10.0 * STILL {
                break;
            }
        }
        evaluated = match self.whole(&x) {
            Ok(evaluated) => evaluated,
            Err(why) => return Ok(Err(why)),
        };
        for _ in 0..RAISES {
            if evaluated.kept() {
                break;
            }
            let by = evaluated.worst().clamp(1.0 + KEPT, 1.5) * (1.0 + KEPT / 10.0);
            let raised: Vec<f64> = x.iter().zip(&self.relaxed).map(|(x, one)| (x * by).min(one.most)).collect();
            if raised == x {
                break;
            }
            x = raised;
            evaluated = match self.whole(&x) {
                Ok(evaluated) => evaluated,
                Err(why) => return Ok(Err(why)),
            };
        }
        Ok(Ok(Ended { x, evaluated, last_change }))
    }

    fn sections(&self, x: &[f64]) -> Vec<Section> {
        self.relaxed.iter().zip(x).map(|(one, x)| one.section(*x)).collect()
    }

    fn evaluate(&mut self, x: &[f64]) -> Result<Evaluated, String> {
        self.effort.solutions += 1;
        let sections = self.sections(x);
        let found = self.frame.search(&[sections.iter().map(Some).collect()]).pop();
        found.unwrap_or_else(|| Err("nothing was solved".to_owned()))
    }

    /// The whole way, for a design that is told.
    fn whole(&mut self, x: &[f64]) -> Result<Evaluated, String> {
        self.effort.solutions += 1;
        let sections = self.sections(x);
        self.frame.evaluate(&sections.iter().map(Some).collect::<Vec<_>>())
    }

    /// The least of the approximation at a design; sizes as multiples of what they are.
    fn step(&mut self, x: &[f64], evaluated: &Evaluated, reach: &[f64]) -> Result<Vec<f64>, SizingFault> {
        let rows = Rows::of(self.frame, evaluated)?;
        self.effort.derivatives += 1;
        self.effort.derivative_solves += rows.solves;
        let slopes: Vec<[f64; 4]> = self.relaxed.iter().zip(x).map(|(one, x)| one.slope(*x)).collect();
        let mass = self.frame.mass(self.relaxed.iter().zip(x).map(|(one, x)| one.section(*x).area));
        let aim: Vec<f64> = (0..x.len()).map(|j| self.frame.heft[j] * slopes[j][0] * x[j] / mass).collect();
        let of_limits: Vec<(f64, Vec<f64>)> = rows
            .rows
            .iter()
            .filter(|row| !row.rates.is_empty())
            .map(|row| {
                let by_size = (0..x.len()).map(|j| row.rates[j].along(slopes[j]) * x[j]).collect();
                (row.use_now - 1.0, by_size)
            })
            .collect();
        let limits: Vec<Meets<'_>> = of_limits.iter().map(|(value, slopes)| Meets { value: *value, slopes }).collect();
        let asymptotes: Vec<[f64; 2]> = reach.iter().map(|reach| [1.0 - reach, 1.0 + 4.0 * reach]).collect();
        let bounds = (0..x.len())
            .map(|j| {
                let one = &self.relaxed[j];
                let [low, high] = asymptotes[j];
                let inside = [low + 0.1 * (1.0 - low), high - 0.1 * (high - 1.0)];
                let least = (one.least / x[j]).max(inside[0]).max(MOVE);
                let most = (one.most / x[j]).min(inside[1]).min(1.0 / MOVE);
                // At a bound the step may only go the other way; a hair of room keeps the method inside.
                [least.min(1.0), most.max(least + 1e-9)]
            })
            .collect();
        let ones = vec![1.0; x.len()];
        let found = Approximation::of(&ones, asymptotes, bounds, &aim, &limits).minimum();
        Ok(found.iter().zip(x).zip(&self.relaxed).map(|((f, x), one)| (f * x).clamp(one.least, one.most)).collect())
    }
}

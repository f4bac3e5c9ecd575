//! How the values of a response are spread.

use super::bins::Bins;
use super::sums::Sums;
use crate::robustness::{Percentile, percentile};

/// More values than this are counted in parts.
const MOST: usize = 4096;
/// Parts in which many values are counted.
const PARTS: usize = 4096;

/// How the values of a response are spread over solved variants.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// Every value, in the order of the variants, while they are few; empty for many.
    values: Vec<f64>,
    bins: Bins,
    /// Finite values: how many, their mean, their scatter.
    pub sums: Sums,
    /// Infinite values seen: no part of anything else here.
    pub infinite: u64,
}

impl Default for Spread {
    fn default() -> Self {
        Self { values: Vec::new(), bins: Bins::new(PARTS), sums: Sums::default(), infinite: 0 }
    }
}

impl FromIterator<f64> for Spread {
    fn from_iter<I: IntoIterator<Item = f64>>(values: I) -> Self {
        let mut spread = Self::default();
        values.into_iter().for_each(|value| spread.add(value));
        spread
    }
}

impl Spread {
    pub(super) fn add(&mut self, value: f64) {
        if !value.is_finite() {
            self.infinite += 1;
            return;
        }
        self.sums.add(value);
        self.bins.add(value);
        if self.is_exact() {
            self.values.push(value);
        } else {
            self.values = Vec::new();
        }
    }

    /// Counts in equal parts, no more than so many, whose width is a power of two.
    pub fn histogram(&self, most: usize) -> Bins {
        self.bins.within(most)
    }

    /// Whether percentiles are those of the values themselves; otherwise they are off by half the width that [`Self::step`] tells.
    pub fn is_exact(&self) -> bool {
        self.sums.count <= MOST as u64
    }

    /// Width of the parts that many values are counted in.
    pub fn step(&self) -> f64 {
        self.bins.width()
    }

    /// A percentile with the error that comes of the number of values; `None` where there are none.
    pub fn percentile(&self, percent: f64) -> Option<Percentile> {
        if self.sums.count == 0 {
            return None;
        }
        if self.is_exact() {
            let mut sorted = self.values.clone();
            sorted.sort_by(f64::total_cmp);
            return Some(percentile(sorted.len() as u64, |rank| sorted[rank as usize - 1], percent));
        }
        let middle = self.step() / 2.0;
        let at = |rank: u64| {
            let mut below = 0;
            let mut last = f64::NAN;
            for (from, count) in self.bins.parts() {
                (below, last) = (below + count, from + middle);
                if below >= rank {
                    break;
                }
            }
            last
        };
        Some(percentile(self.sums.count, at, percent))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_values_are_told_exactly_and_many_within_a_part() {
        for count in [100_u32, 100_000] {
            let mut spread = Spread::default();
            (0..count).for_each(|i| spread.add(f64::from(i * 7919 % count) + 1.0));
            let half = spread.percentile(50.0).unwrap();
            let wanted = f64::from(count) / 2.0;
            let off = if spread.is_exact() { 0.0 } else { spread.step() };
            assert!((half.value - wanted).abs() <= off, "{count}: {half:?}");
            assert!((spread.sums.mean - (f64::from(count) + 1.0) / 2.0).abs() < 1e-6);
            let n = f64::from(count);
            assert!((spread.sums.deviation().unwrap() / ((n * (n + 1.0)) / 12.0).sqrt() - 1.0).abs() < 1e-9);
            assert_eq!(spread.histogram(20).parts().map(|(_, counted)| counted).sum::<u64>(), u64::from(count));
            assert!(spread.histogram(20).parts().count() <= 20);
        }
        let mut none = Spread::default();
        none.add(f64::INFINITY);
        assert_eq!((none.percentile(50.0), none.infinite, none.sums.deviation()), (None, 1, None));
    }
}

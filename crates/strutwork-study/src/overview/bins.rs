//! Counts in equal parts of an axis whose ends are not known before the last value is.

use std::collections::BTreeMap;

/// The finest width, as a share of a value: two to this power.
const FINEST: i32 = -40;
/// A width before there is a value.
pub(super) const NO_WIDTH: i32 = i32::MIN / 2;

/// Counts in parts whose width is a power of two. Where values spread over too many parts, two become one: what comes out does
/// not depend on the order of the values.
#[derive(Debug, Clone, PartialEq)]
pub struct Bins {
    most: i64,
    exponent: i32,
    counts: BTreeMap<i64, u64>,
}

impl Bins {
    /// No value yet; never more than so many parts from the least to the greatest.
    pub fn new(most: usize) -> Self {
        Self { most: i64::try_from(most.max(1)).unwrap_or(i64::MAX), exponent: NO_WIDTH, counts: BTreeMap::new() }
    }

    /// Counts a finite value; others are passed over.
    pub fn add(&mut self, value: f64) {
        if !value.is_finite() {
            return;
        }
        self.widen(self.exponent.max(finest(value)));
        *self.counts.entry(place(value, self.exponent)).or_default() += 1;
        self.fit();
    }

    /// The same counts in no more than so many parts.
    #[must_use]
    pub fn within(&self, most: usize) -> Self {
        let mut fewer = self.clone();
        fewer.most = i64::try_from(most.max(1)).unwrap_or(i64::MAX);
        fewer.fit();
        fewer
    }

    /// Width of a part; 0 where nothing was counted.
    pub fn width(&self) -> f64 {
        if self.counts.is_empty() { 0.0 } else { 2.0_f64.powi(self.exponent) }
    }

    /// Parts that hold something, in their order: where each begins, and its count.
    pub fn parts(&self) -> impl Iterator<Item = (f64, u64)> {
        let width = self.width();
        self.counts.iter().map(move |(place, count)| (*place as f64 * width, *count))
    }

    fn fit(&mut self) {
        let span = |counts: &BTreeMap<i64, u64>| match (counts.first_key_value(), counts.last_key_value()) {
            (Some((first, _)), Some((last, _))) => last - first + 1,
            _ => 0,
        };
        while span(&self.counts) > self.most {
            self.widen(self.exponent + 1);
        }
    }

    /// Two parts become one, until the width is that.
    fn widen(&mut self, exponent: i32) {
        let by = halvings(self.exponent, exponent);
        if by == 0 {
            return;
        }
        let mut counts = BTreeMap::new();
        for (place, count) in std::mem::take(&mut self.counts) {
            *counts.entry(place >> by).or_default() += count;
        }
        (self.exponent, self.counts) = (exponent, counts);
    }
}

/// The power of two of the finest width for a value of this size: its place is a whole number below 2⁴¹.
pub(super) fn finest(value: f64) -> i32 {
    if value == 0.0 { NO_WIDTH } else { value.abs().log2().floor().max(-900.0) as i32 + FINEST }
}

/// The part that a value lies in; `exponent` is not less than [`finest`] of it.
pub(super) fn place(value: f64, exponent: i32) -> i64 {
    if value == 0.0 { 0 } else { (value / 2.0_f64.powi(exponent)).floor() as i64 }
}

/// How often a place is halved when the width grows from one power of two to another.
pub(super) fn halvings(from: i32, to: i32) -> u32 {
    u32::try_from(to - from).unwrap_or(0).min(63)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn filled(values: &[f64], most: usize) -> Vec<(f64, u64)> {
        let mut bins = Bins::new(most);
        values.iter().for_each(|value| bins.add(*value));
        bins.parts().collect()
    }

    #[test]
    fn parts_are_the_same_in_any_order() {
        let values: Vec<f64> = (0..200).map(|i| f64::from(i * 37 % 200) * 0.31 - 20.0).collect();
        let mut sorted = values.clone();
        sorted.sort_by(f64::total_cmp);
        let parts = filled(&values, 16);
        assert_eq!(parts, filled(&sorted, 16));
        assert_eq!(parts.iter().map(|(_, count)| count).sum::<u64>(), 200);
        // 62 wide in at most 16 parts whose width is a power of two.
        assert_eq!(parts[1].0 - parts[0].0, 4.0);
        assert_eq!(parts[0].0, -20.0);
    }

    #[test]
    fn every_value_lies_in_its_part() {
        for values in [vec![0.0, 1e3, -1e-9], vec![5.0; 3], vec![0.0, 0.0], vec![1e300, 1.0], vec![f64::NAN, 2.0]] {
            let mut bins = Bins::new(8);
            values.iter().for_each(|value| bins.add(*value));
            for value in values.iter().filter(|value| value.is_finite()) {
                let inside =
                    |(from, _): (f64, u64)| from <= *value && *value < from + bins.width().max(f64::MIN_POSITIVE);
                assert!(bins.parts().any(inside), "{value}: {bins:?}");
            }
        }
    }
}

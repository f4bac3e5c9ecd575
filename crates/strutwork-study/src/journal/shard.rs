//! Which part of a study a run takes.

use std::fmt;
use std::ops::Range;

use serde::{Deserialize, Serialize};

/// Part `k` of `n` of a study, counted from 1: a contiguous range of its variants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "[u64; 2]", into = "[u64; 2]")]
pub struct Shard {
    k: u64,
    n: u64,
}

impl Shard {
    /// All of it.
    pub const WHOLE: Self = Self { k: 1, n: 1 };

    /// Part `k` of `n`; `None` unless 1 ≤ k ≤ n.
    pub const fn new(k: u64, n: u64) -> Option<Self> {
        if k >= 1 && k <= n { Some(Self { k, n }) } else { None }
    }

    /// Reads `2/8`.
    pub fn read(text: &str) -> Option<Self> {
        let (k, n) = text.split_once('/')?;
        Self::new(k.trim().parse().ok()?, n.trim().parse().ok()?)
    }

    /// Whether it is all of it.
    pub const fn is_whole(self) -> bool {
        self.n == 1
    }

    /// Its variants of so many.
    pub fn range(self, variants: u64) -> Range<u64> {
        let edge = |k: u64| (u128::from(variants) * u128::from(k) / u128::from(self.n)) as u64;
        edge(self.k - 1)..edge(self.k)
    }
}

impl From<[u64; 2]> for Shard {
    /// A pair that is no shard becomes one without variants, which no study has.
    fn from([k, n]: [u64; 2]) -> Self {
        Self::new(k, n).unwrap_or(Self { k: 1, n: u64::MAX })
    }
}

impl From<Shard> for [u64; 2] {
    fn from(shard: Shard) -> Self {
        [shard.k, shard.n]
    }
}

impl fmt::Display for Shard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.k, self.n)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shards_cover_everything_once() {
        for variants in [0, 1, 7, 100, u64::MAX] {
            for n in [1, 2, 3, 8, 200] {
                let mut next = 0;
                for k in 1..=n {
                    let range = Shard::new(k, n).unwrap().range(variants);
                    assert_eq!(range.start, next, "{k}/{n} of {variants}");
                    next = range.end;
                }
                assert_eq!(next, variants);
            }
        }
    }

    #[test]
    fn shards_are_read_and_nonsense_is_not() {
        assert_eq!(Shard::read("2/8"), Shard::new(2, 8));
        for text in ["0/8", "9/8", "1", "a/b", "1/0", "-1/2", ""] {
            assert_eq!(Shard::read(text), None, "{text}");
        }
    }
}

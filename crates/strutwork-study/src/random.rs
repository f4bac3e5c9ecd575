//! Numbers that look drawn by lot and are the same every time.

/// What the state of a sequence grows by.
const STEP: u64 = 0x9e37_79b9_7f4a_7c15;

/// The number that a state gives: a step, and the finaliser.
///
/// # Source
/// As [`Random`].
pub(crate) const fn mix(state: u64) -> u64 {
    let z = state.wrapping_add(STEP);
    let z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A sequence from a seed.
///
/// # Source
/// SplitMix64: Steele, Lea & Flood (2014), Fast splittable pseudorandom number generators, OOPSLA, p. 453 (from memory).
#[derive(Debug, Clone)]
pub(crate) struct Random(u64);

impl Random {
    /// From a seed.
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The sequence of one of many samples: it depends on the seed and the sample's number alone.
    pub(crate) fn of_sample(seed: u64, sample: u64) -> Self {
        let mut whole = Self(seed);
        let mut own = Self(whole.next() ^ sample);
        Self(own.next())
    }

    fn next(&mut self) -> u64 {
        let drawn = mix(self.0);
        self.0 = self.0.wrapping_add(STEP);
        drawn
    }

    /// From 0 to below 1.
    pub(crate) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of the first `count` numbers, from 0; 0 where there is none.
    pub(crate) fn one_of(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }
}

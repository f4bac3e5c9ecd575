//! Latin hypercube samples without a list: each parameter's order of strata is a permutation computed from its number.

use crate::random::mix;

/// The stratum of a sample in a parameter, and the place within it, 0 ≤ `within` < 1.
pub(super) fn sample(count: u64, seed: u64, parameter: u64, variant: u64) -> (u64, f64) {
    let key = mix(seed ^ mix(parameter.wrapping_add(1)));
    let within = mix(key ^ mix(variant.wrapping_add(0x5851_f42d_4c95_7f2d))) >> 11;
    (permuted(count, key, variant), within as f64 / (1_u64 << 53) as f64)
}

/// A permutation of 0 … `count` − 1: a four-round Feistel network over the next power of four, walked until it lands inside.
///
/// # Source
/// Black and Rogaway (2002), Ciphers with Arbitrary Finite Domains, CT-RSA 2002, method "cycle-walking cipher" (from memory).
fn permuted(count: u64, key: u64, place: u64) -> u64 {
    let half = (64 - count.saturating_sub(1).leading_zeros()).div_ceil(2).max(1);
    let mask = (1_u64 << half) - 1;
    let mut at = place;
    loop {
        let (mut left, mut right) = (at >> half, at & mask);
        for round in 0..4_u64 {
            (left, right) = (right, left ^ (mix(key ^ mix(right ^ (round << 56))) & mask));
        }
        at = (left << half) | right;
        if at < count {
            return at;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stratum_is_taken_once() {
        for count in [1, 2, 3, 7, 64, 65, 1000] {
            for key in [0, 1, 77] {
                let mut seen: Vec<u64> = (0..count).map(|place| permuted(count, key, place)).collect();
                seen.sort_unstable();
                assert_eq!(seen, (0..count).collect::<Vec<_>>(), "{count} with {key}");
            }
        }
    }

    #[test]
    fn parameters_and_seeds_differ() {
        let order = |seed, parameter| (0..50).map(|variant| sample(50, seed, parameter, variant).0).collect::<Vec<_>>();
        assert_ne!(order(1, 0), order(1, 1));
        assert_ne!(order(1, 0), order(2, 0));
        assert_eq!(order(1, 0), order(1, 0));
    }
}

//! How much of a case the frame stands.

/// The share is found to within this of itself.
const CLOSE: f64 = 1e-4;
/// Below this share it is nothing.
const LEAST: f64 = 1e-6;

/// The greatest share of the axial forces under which the frame stands, from below; 1 is known not to be.
///
/// Bisection: stiffness falls as the axial forces grow in proportion, so that what stands under much stands under less (where
/// the frame stands unloaded).
pub(super) fn limit(stands: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    while high - low > CLOSE * high && high > LEAST {
        let middle = f64::midpoint(low, high);
        if stands(middle) { low = middle } else { high = middle }
    }
    low
}

#[cfg(test)]
mod tests {
    use super::limit;

    #[test]
    fn the_share_is_met_from_below() {
        for share in [0.9999, 0.5, 0.123, 0.01] {
            let found = limit(|tried| tried < share);
            assert!(found <= share && share - found <= 2e-4 * share, "{share}: {found}");
        }
        assert_eq!(limit(|_| false), 0.0);
    }
}

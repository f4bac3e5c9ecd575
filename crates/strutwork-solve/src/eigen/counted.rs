//! The lowest pairs, looked for until a count says that none is missing.

use super::{Pair, Pencil, pairs};

/// Share of 1/θ between the last pair that was found and the place up to which pairs are counted.
const BEYOND: f64 = 1e-5;
/// Times that pairs are looked for again when the count says that one is missing.
const AGAIN: u64 = 8;

/// What a count gave, against what was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Counted {
    /// 1/θ up to which was counted.
    pub below: f64,
    /// Counted; `None` where the count met a zero pivot.
    pub counted: Option<usize>,
    /// Found, those that were there before among them.
    pub found: usize,
}

/// The `wanted` pairs of greatest positive θ, with others that equal the last, and what the count said in the end (`None`
/// where no pair was found).
///
/// `count` tells how many there are below a value of 1/θ; `already` of these are known by other means.
pub(crate) fn counted_pairs(
    pencil: &impl Pencil,
    wanted: usize,
    already: usize,
    count: impl Fn(f64) -> Option<usize>,
) -> (Vec<Pair>, Option<Counted>) {
    let positive = |theta: f64| theta > 0.0;
    let mut found = pairs(pencil, &[], wanted, 1, positive);
    let mut outcome = None;
    for again in 0..AGAIN {
        let Some(last) = found.last() else { break };
        let edge = (1.0 + BEYOND) / last.theta;
        let below = found.iter().filter(|pair| 1.0 / pair.theta < edge).count() + already;
        let counted = count(edge);
        outcome = Some(Counted { below: edge, counted, found: below });
        let missing = counted.map_or(0, |counted| counted.saturating_sub(below));
        let more = pairs(pencil, &found, missing, 100 + again, positive);
        if more.is_empty() {
            break;
        }
        found.extend(more);
        found.sort_by(|a, b| b.theta.total_cmp(&a.theta));
    }
    (found, outcome)
}

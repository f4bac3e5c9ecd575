//! Of quadrilaterals that overlap, the one that a builder would call the bay.

use std::cmp::Ordering;

use strutwork_model::ids::Id;

use super::BayKind;
use super::candidate::Candidate;

/// Quadrilaterals whose skewness differs by less than this count as equally square, degrees.
const SQUARE_STEP_DEG: f64 = 10.0;

/// Takes candidates in the order of their claim, and leaves out those that overlap one taken before; open ones also where
/// a side of theirs braces one taken before.
pub(super) fn without_overlap(mut candidates: Vec<Candidate<'_>>) -> Vec<Candidate<'_>> {
    candidates.sort_by(by_claim);
    let joints = candidates.iter().flat_map(|one| one.joints.last()).map(|joint| joint.index() + 1).max().unwrap_or(0);
    let mut taken: Vec<Candidate<'_>> = Vec::new();
    let mut taken_at: Vec<Vec<usize>> = vec![Vec::new(); joints];
    for one in candidates {
        let mut near: Vec<usize> =
            one.joints.iter().flat_map(|joint| taken_at[joint.index()].iter().copied()).collect();
        near.sort_unstable();
        near.dedup();
        let refused = near.into_iter().map(|place| &taken[place]).any(|other| {
            let cuts = one.kind == BayKind::Open && one.along.iter().flatten().any(|tube| other.inner.contains(tube));
            cuts || one.outline.overlaps(&other.outline)
        });
        if !refused {
            for joint in &one.joints {
                taken_at[joint.index()].push(taken.len());
            }
            taken.push(one);
        }
    }
    taken
}

fn by_claim(a: &Candidate<'_>, b: &Candidate<'_>) -> Ordering {
    let rank = |one: &Candidate<'_>| {
        let class = match one.kind {
            _ if one.spanned => 0,
            BayKind::Panelled | BayKind::Braced(_) => 1,
            BayKind::Open => 2,
        };
        (class, (one.outline.skewness() / SQUARE_STEP_DEG) as u32)
    };
    rank(a)
        .cmp(&rank(b))
        .then_with(|| a.outline.area().total_cmp(&b.outline.area()))
        .then_with(|| a.corners().cmp(&b.corners()))
}

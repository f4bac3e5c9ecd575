//! Closed quadrilaterals of straight chains.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use rayon::prelude::*;
use strutwork_model::ids::Id;
use strutwork_model::{JointId, Model, PanelId};

use super::candidate::Candidate;
use super::outline::Outline;
use super::sides::{Chain, Sides};
use crate::elements::Elements;

/// sin² 20°: sharper corners than any outline has.
const SHARPEST_SINE_SQUARED: f64 = 0.116_977_778_440_511;
/// A part that a chain cuts off is a bay of its own if its corners are at most this much less square, degrees.
const AS_SQUARE_DEG: f64 = 1.0;

/// Every closed, plane, convex quadrilateral that no chain divides, in the order of its joints.
pub(super) fn candidates<'s>(model: &Model, elements: &Elements, sides: &'s Sides) -> Vec<Candidate<'s>> {
    let mut panels_at: Vec<Vec<PanelId>> = vec![Vec::new(); model.joints().len()];
    let mut spanned = BTreeSet::new();
    for (id, panel) in model.panels().iter_with_id() {
        for joint in &panel.joints {
            panels_at[joint.index()].push(id);
        }
        if panel.joints.len() == 4 {
            spanned.insert(sorted(&panel.joints));
        }
    }
    let starting_at = |first: JointId| {
        let mut found = Vec::new();
        let chains = sides.from(first);
        for (place, one) in chains.iter().enumerate() {
            for other in &chains[place + 1..] {
                // The corner with the lowest id comes first, and of its neighbours the lower: each is found once.
                if one.last() > first && other.last() > one.last() {
                    close(sides, one, other, &mut |outline, chains| {
                        let spanned = spanned.contains(&sorted(&chains.map(Chain::first)));
                        if (spanned || !divided(sides, &outline, chains)) && apart(chains) {
                            found.push(Candidate::new(model, elements, sides, &panels_at, (outline, chains), spanned));
                        }
                    });
                }
            }
        }
        found
    };
    let joints: Vec<JointId> = model.joints().ids().collect();
    let found: Vec<Vec<Candidate<'s>>> = joints.into_par_iter().with_min_len(8).map(starting_at).collect();
    found.into_iter().flatten().collect()
}

fn sorted(joints: &[JointId]) -> Vec<JointId> {
    let mut sorted = joints.to_vec();
    sorted.sort_unstable();
    sorted
}

/// Closes two chains that start at one joint to quadrilaterals.
fn close<'s>(sides: &'s Sides, one: &'s Chain, other: &'s Chain, found: &mut impl FnMut(Outline, [&'s Chain; 4])) {
    let (first, second, fourth) = (one.first(), one.last(), other.last());
    let [a, b, d] = [first, second, fourth].map(|joint| sides.place(joint));
    let normal = one.direction.cross(&other.direction);
    if normal.norm_squared() <= SHARPEST_SINE_SQUARED * one.direction.norm_squared() * other.direction.norm_squared() {
        return;
    }
    let (from_second, from_fourth) = (sides.lasts(second), sides.lasts(fourth));
    let (mut i, mut j) = (0, 0);
    // Both lists stand in the order of their last joints: step through them side by side.
    while i < from_second.len() && j < from_fourth.len() {
        let third = from_second[i];
        match third.cmp(&from_fourth[j]) {
            Ordering::Less => i += 1,
            Ordering::Greater => j += 1,
            Ordering::Equal => {
                // The first of several chains to the same joint knows most of what lies along that side.
                let (next, to_third) = (&sides.from(second)[i], &sides.from(fourth)[j]);
                i += from_second[i..].iter().take_while(|last| **last == third).count();
                j += from_fourth[j..].iter().take_while(|last| **last == third).count();
                let c = sides.place(third);
                if third <= first || (c - b).cross(&(d - b)).dot(&normal) <= 0.0 {
                    continue;
                }
                let Some(outline) = Outline::of([a, b, c, d]) else { continue };
                found(outline, [one, next, sides.back(to_third), sides.back(other)]);
            }
        }
    }
}

/// Whether the chains share their corners alone.
fn apart(chains: [&Chain; 4]) -> bool {
    (0..4).all(|i| {
        chains[i].between().iter().all(|joint| (0..4).filter(|j| *j != i).all(|j| !chains[j].joints.contains(joint)))
    })
}

/// Whether a straight chain divides it: from inside one side to inside the opposite one, or from a corner to inside an
/// opposite side where the quadrilateral that is left over is about as square as the whole.
fn divided(sides: &Sides, outline: &Outline, chains: [&Chain; 4]) -> bool {
    let joined = |from: JointId, to: JointId| {
        sides.between(from, to).iter().any(|chain| {
            chain.between().iter().all(|joint| outline.project(sides.place(*joint)).is_some_and(|at| outline.holds(at)))
        })
    };
    for side in [0, 1] {
        for from in chains[side].between() {
            if chains[side + 2].between().iter().any(|to| joined(*from, *to)) {
                return true;
            }
        }
    }
    let skewness = outline.skewness();
    let corners = chains.map(|chain| sides.place(chain.first()));
    (0..4).any(|corner| {
        let from = chains[corner].first();
        // Towards the far end of the opposite sides: what is left over has the corners on the other side of the cut.
        let cut = |side: usize, left: [usize; 2]| {
            chains[side].between().iter().any(|to| {
                let at = sides.place(*to);
                let rest = if left[0] == (corner + 1) % 4 {
                    [corners[corner], corners[left[0]], corners[left[1]], at]
                } else {
                    [corners[corner], at, corners[left[0]], corners[left[1]]]
                };
                joined(from, *to) && Outline::of(rest).is_some_and(|rest| rest.skewness() <= skewness + AS_SQUARE_DEG)
            })
        };
        let [next, opposite, before] = [1, 2, 3].map(|step| (corner + step) % 4);
        cut(next, [opposite, before]) || cut(opposite, [next, opposite])
    })
}

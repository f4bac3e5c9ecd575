//! One case on a divided frame, its loads as they are or turned round.

use std::cell::Cell;

use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, TubeId};

use super::bound::Excesses;
use super::forces::{Axial, presses_nothing};
use super::ready::{Pressed, Ready};
use super::recover::mode;
use super::{Buckling, BucklingMode};
use crate::assembly::System;
use crate::counters::Counters;
use crate::eigen::{counted_pairs, pairs};
use crate::results::CaseResult;

/// Start of the searches, one a side.
const SEED: u64 = 1;

/// What one side of a case gave.
struct Side {
    modes: Vec<BucklingMode>,
    proof: Option<[usize; 2]>,
    /// Bound and tubes' shares in it, of every mode that was bounded.
    shares: Vec<(Option<f64>, IndexVec<TubeId, f64>)>,
    /// Whether it stays without bounds however fine the pieces: ends that hold nothing, or a count that does not agree.
    boundless: bool,
}

/// A case's load factors, and what they say of the division.
pub(super) struct Found {
    pub(super) buckling: Buckling,
    pub(super) counters: Counters,
    /// Bound and tubes' shares in it, of every mode that was bounded.
    pub(super) shares: Vec<(Option<f64>, IndexVec<TubeId, f64>)>,
    /// Whether finer pieces would give bounds at all.
    pub(super) boundless: bool,
}

/// Both sides of a case, counted and bounded.
pub(super) fn both(ready: &Ready<'_>, result: &CaseResult, wanted: usize) -> Found {
    let mut counters = Counters::default();
    let [positive, negative] = [1.0, -1.0].map(|sign| one(ready, result, wanted, sign, &mut counters));
    let mut cuts = vec![Vec::new(); result.tubes.len()];
    for (tube, [start, _]) in ready.fine.pieces.iter().filter(|(_, [start, _])| *start > 0.0) {
        cuts[tube.index()].push(*start);
    }
    let boundless = positive.boundless || negative.boundless;
    let shares = positive.shares.into_iter().chain(negative.shares).collect();
    let buckling = Buckling {
        case: result.name.clone(),
        positive: positive.modes,
        negative: negative.modes,
        proof: positive.proof,
        reversed_proof: negative.proof,
        cuts: cuts.into_iter().collect(),
    };
    Found { buckling, counters, shares, boundless }
}

fn one(ready: &Ready<'_>, result: &CaseResult, wanted: usize, sign: f64, counters: &mut Counters) -> Side {
    if presses_nothing(result, sign) {
        return Side { modes: Vec::new(), proof: None, shares: Vec::new(), boundless: false };
    }
    let held = ready.held;
    let axial = Axial::of(ready.fine, result, sign);
    let geometric = ready.geometric(&axial);
    let pressed = Pressed { ready, geometric: &geometric, solves: Cell::new(0) };
    let counts = Cell::new(0);
    let count = |factor: f64| {
        counts.set(counts.get() + 1);
        let mut added = System::empty(&held.pattern);
        added.add_multiple(factor, &geometric);
        ready.negative(&added)
    };
    let (found, outcome) = counted_pairs(&pressed, wanted, 0, count);
    let proof = outcome.and_then(|outcome| Some([outcome.counted?, outcome.found]));
    counters.solves += pressed.solves.get();
    counters.sign_counts += counts.get();
    // The bound of the k-th rests on none before it being missed.
    let complete = proof.is_some_and(|[counted, found]| counted == found);
    let excesses = complete.then(|| Excesses::of(ready, &axial)).flatten();
    let bounded = excesses
        .as_ref()
        .map(|excesses| excesses.bounds(ready, &geometric, &found, &mut counters.sign_counts))
        .unwrap_or_default();
    let modes = found.iter().enumerate().map(|(place, pair)| {
        let bound = bounded.get(place).and_then(|bounded| bounded.bound);
        mode(ready, &axial, pair, sign, bound)
    });
    Side {
        modes: modes.collect(),
        proof,
        boundless: !found.is_empty() && excesses.is_none(),
        shares: bounded.into_iter().map(|bounded| (bounded.bound, bounded.tubes)).collect(),
    }
}

/// The greatest load factor that is wanted of each side, found roughly and not counted; `None` where there is none.
pub(super) fn rough(ready: &Ready<'_>, result: &CaseResult, wanted: usize) -> ([Option<f64>; 2], Counters) {
    let mut counters = Counters::default();
    let last = [1.0, -1.0].map(|sign| {
        if presses_nothing(result, sign) {
            return None;
        }
        let geometric = ready.geometric(&Axial::of(ready.fine, result, sign));
        let pressed = Pressed { ready, geometric: &geometric, solves: Cell::new(0) };
        let found = pairs(&pressed, &[], wanted, SEED, |theta| theta > 0.0);
        counters.solves += pressed.solves.get();
        found.get(wanted - 1).map(|pair| 1.0 / pair.theta)
    });
    (last, counters)
}

//! Rings: closed loops of bays joined through opposite sides, as the walls of a torsion box are.

use std::collections::{BTreeMap, VecDeque};

use nalgebra::Vector3;
use strutwork_model::{Model, TubeId};

use super::{Bay, Bays};

/// Bays of one ring at most.
const LONGEST: usize = 16;

/// A closed loop of bays, each joined to the next through a side, and left through the opposite one.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// Places in [`Bays::bays`], in order round.
    pub bays: Vec<usize>,
    /// Direction of the box that they are the walls of: the mean of the sides through which they are joined, unit vector,
    /// its largest component positive.
    pub axis: [f64; 3],
    /// Each bay's share of the ring's shear flexibility, sum 1: s/(G·t) with s the bay's width round the ring. Under one
    /// shear flow round a straight box that is its share of the twist (Bredt). 0 or 1 where bays fold.
    pub shares: Vec<f64>,
}

impl Ring {
    /// The places in [`Bays::bays`] of its open bays.
    pub fn open<'a>(&'a self, bays: &'a Bays) -> impl Iterator<Item = usize> + 'a {
        self.bays.iter().copied().filter(|place| bays.bays[*place].is_open())
    }
}

/// The way through a bay: in through the side opposite to the one that it is left by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Passage {
    bay: usize,
    out: usize,
}

/// The shortest rings through each bay in both directions, each ring once, in the order of the bays that they are found from.
pub(super) fn rings(model: &Model, bays: &[Bay]) -> Vec<Ring> {
    let mut beside: BTreeMap<TubeId, Vec<(usize, usize)>> = BTreeMap::new();
    for (place, bay) in bays.iter().enumerate() {
        for (side, tubes) in bay.sides.iter().enumerate() {
            for tube in &tubes.tubes {
                beside.entry(*tube).or_default().push((place, side));
            }
        }
    }
    let mut found: Vec<Vec<Passage>> = Vec::new();
    let mut known: std::collections::BTreeSet<Vec<usize>> = std::collections::BTreeSet::new();
    for bay in 0..bays.len() {
        for out in [0, 1] {
            if let Some(ring) = shortest(bays, &beside, Passage { bay, out }) {
                let mut key: Vec<usize> = ring.iter().map(|passage| passage.bay).collect();
                key.sort_unstable();
                if known.insert(key) {
                    found.push(ring);
                }
            }
        }
    }
    found.into_iter().map(|ring| describe(model, bays, &ring)).collect()
}

/// The shortest way from a bay's side back to its opposite side, that meets no bay twice.
fn shortest(bays: &[Bay], beside: &BTreeMap<TubeId, Vec<(usize, usize)>>, start: Passage) -> Option<Vec<Passage>> {
    let mut came: BTreeMap<Passage, Passage> = BTreeMap::new();
    let mut waiting = VecDeque::from([(start, 1)]);
    while let Some((passage, steps)) = waiting.pop_front() {
        if steps > LONGEST {
            return None;
        }
        for tube in &bays[passage.bay].sides[passage.out].tubes {
            for &(bay, side) in beside.get(tube).into_iter().flatten() {
                let next = Passage { bay, out: (side + 2) % 4 };
                if bay == passage.bay {
                    continue;
                }
                if next == start {
                    let ring = trace(&came, start, passage);
                    let mut places: Vec<usize> = ring.iter().map(|passage| passage.bay).collect();
                    places.sort_unstable();
                    places.dedup();
                    if ring.len() >= 3 && places.len() == ring.len() {
                        return Some(ring);
                    }
                } else if !came.contains_key(&next) {
                    came.insert(next, passage);
                    waiting.push_back((next, steps + 1));
                }
            }
        }
    }
    None
}

fn trace(came: &BTreeMap<Passage, Passage>, start: Passage, last: Passage) -> Vec<Passage> {
    let mut ring = vec![last];
    let mut at = last;
    while at != start {
        let Some(before) = came.get(&at) else { break };
        at = *before;
        ring.push(at);
    }
    ring.reverse();
    ring
}

fn describe(model: &Model, bays: &[Bay], ring: &[Passage]) -> Ring {
    let direction = |passage: &Passage| {
        let bay = &bays[passage.bay];
        let [a, b] =
            [passage.out, (passage.out + 1) % 4].map(|corner| Vector3::from(model.joints()[bay.corners[corner]].at));
        (b - a).normalize()
    };
    let first = ring.first().map_or_else(Vector3::zeros, direction);
    let sum: Vector3<f64> = ring.iter().map(direction).map(|one| if one.dot(&first) < 0.0 { -one } else { one }).sum();
    let mean = sum.normalize();
    let axis = if mean[mean.iamax()] < 0.0 { -mean } else { mean };
    let give = |passage: &Passage| {
        let bay = &bays[passage.bay];
        let lengths = bay.side_lengths(model);
        let across = (lengths[(passage.out + 1) % 4] + lengths[(passage.out + 3) % 4]) / 2.0;
        across / bay.stiffness.max(f64::MIN_POSITIVE.sqrt())
    };
    let total: f64 = ring.iter().map(give).sum();
    Ring {
        bays: ring.iter().map(|passage| passage.bay).collect(),
        axis: axis.into(),
        shares: ring.iter().map(|passage| give(passage) / total).collect(),
    }
}

//! Rings: closed loops of bays joined through opposite sides, as the walls of a torsion box are.

use std::collections::{BTreeSet, VecDeque};

use nalgebra::Vector3;
use strutwork_model::Model;
use strutwork_model::ids::Id;

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
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Passage {
    bay: usize,
    out: usize,
}

impl Passage {
    fn index(self) -> usize {
        4 * self.bay + self.out
    }
}

/// The shortest rings through each bay in both directions, each ring once, in the order of the bays that they are found from.
pub(super) fn rings(model: &Model, bays: &[Bay]) -> Vec<Ring> {
    let mut search = Search::new(model, bays);
    let mut known: BTreeSet<Vec<usize>> = BTreeSet::new();
    let mut found = Vec::new();
    for bay in 0..bays.len() {
        for out in [0, 1] {
            let Some(ring) = search.shortest(Passage { bay, out }) else { continue };
            let mut key: Vec<usize> = ring.iter().map(|passage| passage.bay).collect();
            key.sort_unstable();
            if known.insert(key) {
                found.push(describe(model, bays, &ring));
            }
        }
    }
    found
}

/// A search that goes outwards from one passage after another.
struct Search {
    /// Passages that each passage leads to, in the order of the bays.
    next: Vec<Vec<Passage>>,
    /// Where each passage was reached from, and the start of the search that it was.
    came: Vec<Option<(Passage, Passage)>>,
}

impl Search {
    fn new(model: &Model, bays: &[Bay]) -> Self {
        let mut beside: Vec<Vec<Passage>> = vec![Vec::new(); model.tubes().len()];
        for (bay, row) in bays.iter().enumerate() {
            for (side, tubes) in row.sides.iter().enumerate() {
                for tube in &tubes.tubes {
                    beside[tube.index()].push(Passage { bay, out: (side + 2) % 4 });
                }
            }
        }
        let leads_to = |bay: usize, out: usize| {
            let tubes = bays[bay].sides[out].tubes.iter();
            let mut next: Vec<Passage> =
                tubes.flat_map(|tube| beside[tube.index()].iter().copied()).filter(|next| next.bay != bay).collect();
            next.sort_unstable_by_key(|next| next.index());
            next.dedup();
            next
        };
        let next = (0..bays.len()).flat_map(|bay| [0, 1, 2, 3].map(|out| leads_to(bay, out))).collect();
        Self { next, came: vec![None; 4 * bays.len()] }
    }

    /// The shortest way from a bay's side back to its opposite side, that meets no bay twice.
    fn shortest(&mut self, start: Passage) -> Option<Vec<Passage>> {
        let mut waiting = VecDeque::from([(start, 1)]);
        while let Some((passage, length)) = waiting.pop_front() {
            for place in 0..self.next[passage.index()].len() {
                let next = self.next[passage.index()][place];
                if next == start {
                    let ring = self.trace(start, passage);
                    let mut bays: Vec<usize> = ring.iter().map(|passage| passage.bay).collect();
                    bays.sort_unstable();
                    bays.dedup();
                    if ring.len() >= 3 && bays.len() == ring.len() {
                        return Some(ring);
                    }
                } else if length < LONGEST && self.came[next.index()].is_none_or(|(_, of)| of != start) {
                    self.came[next.index()] = Some((passage, start));
                    waiting.push_back((next, length + 1));
                }
            }
        }
        None
    }

    fn trace(&self, start: Passage, last: Passage) -> Vec<Passage> {
        let mut ring = vec![last];
        let mut at = last;
        while at != start {
            let Some((before, _)) = self.came[at.index()] else { break };
            at = before;
            ring.push(at);
        }
        ring.reverse();
        ring
    }
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

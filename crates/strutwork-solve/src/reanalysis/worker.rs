//! One thread's buffers, and the ways that variants take through them.

use std::sync::Arc;

use super::buffers::{Buffers, solutions};
use super::family::Family;
use super::group::Group;
use super::moved::{Moved, Outcome, Route, Solutions};
use super::update::{Columns, Refused, Scratch};
use super::variant::{TubeStiffness, Variant};
use crate::assembly::System;
use crate::elements::Elements;
use crate::registers::{Registers, lanes};

/// A pivot this small beside its diagonal entry is looked at by the steps that find mechanisms.
pub(super) const SUSPICIOUS_PIVOT: f64 = 1e-9;

/// How often a worker took each way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Work {
    /// Variants solved.
    pub variants: u64,
    /// Factorisations, each of as many variants as there are lanes.
    pub lane_factorisations: u64,
    /// Variants factored in lanes, of one group of cases each.
    pub in_lanes: u64,
    /// Variants factored by themselves.
    pub whole: u64,
    /// Variants that went through all steps because nothing else fits them.
    pub singly: u64,
    /// Variants whose pivots were doubtful: looked at again through all steps.
    pub doubtful: u64,
    /// Variants for which the family's solutions were corrected.
    pub updates: u64,
    /// Updates given up because the changed frame is a mechanism, or so soft that digits would be lost.
    pub near_nothing: u64,
    /// Updates given up because their result did not fit itself.
    pub drifted: u64,
}

impl std::ops::AddAssign for Work {
    fn add_assign(&mut self, other: Self) {
        self.variants += other.variants;
        self.lane_factorisations += other.lane_factorisations;
        self.in_lanes += other.in_lanes;
        self.whole += other.whole;
        self.singly += other.singly;
        self.doubtful += other.doubtful;
        self.updates += other.updates;
        self.near_nothing += other.near_nothing;
        self.drifted += other.drifted;
    }
}

/// The memory of a worker, taken once for one family: kept where workers come and go.
pub(super) struct Workspace {
    lanes: usize,
    buffers: Vec<Buffers>,
    /// Solutions of each group's lanes, shared with whoever keeps them.
    moved: Vec<Arc<Registers>>,
    /// The family's elements, changed and put back for variants that are not solved in lanes.
    pub(super) elements: Option<Elements>,
    /// The stiffness of each group, for variants that are factored by themselves.
    pub(super) systems: Vec<Option<System>>,
    scratch: Scratch,
    /// Corrected solutions of each group.
    updated: Vec<Columns>,
    /// What a variant changes.
    changes: Vec<(usize, TubeStiffness)>,
    /// Where each tube stood among the changes of the variant that changed it last.
    noted: Vec<usize>,
    pub(super) work: Work,
}

/// Solves variants of a family on one thread.
pub struct Worker<'f> {
    pub(super) family: &'f Family,
    pub(super) space: Workspace,
}

impl Workspace {
    /// For a family, as it is now: what it keeps for updates must not change afterwards.
    pub(super) fn of(family: &Family) -> Self {
        let buffers = family.groups.iter().map(Buffers::of).collect();
        let columns = |group: &Group| Columns::new(group.numbering.len(), group.members.len());
        Self {
            lanes: lanes(),
            buffers,
            moved: family.groups.iter().map(solutions).collect(),
            elements: None,
            systems: family.groups.iter().map(|_| None).collect(),
            scratch: Scratch::default(),
            updated: family.groups.iter().map(columns).collect(),
            changes: Vec::new(),
            noted: vec![0; family.elements.tubes().len()],
            work: Work::default(),
        }
    }
}

impl Worker<'_> {
    /// What was done so far.
    pub fn work(&self) -> Work {
        self.space.work
    }

    /// Solves variants, and hands over each outcome with the variant's place; not always in order.
    pub fn solve(&mut self, variants: &[Variant], mut take: impl FnMut(usize, Outcome<'_>)) {
        self.space.work.variants += variants.len() as u64;
        let mut waiting: Vec<usize> = Vec::with_capacity(self.space.lanes);
        for (place, variant) in variants.iter().enumerate() {
            if self.update(variant) {
                let solutions = Solutions::Plain(&self.space.updated);
                let route = Route::Update;
                take(place, Outcome::Solved(Moved { family: self.family, solutions, loads: None, route }));
                continue;
            }
            if !self.fits(variant) || self.family.groups.iter().any(|group| group.lanes().is_none()) {
                self.alone(variant, place, &mut take);
                continue;
            }
            waiting.push(place);
            if waiting.len() == self.space.lanes {
                self.side_by_side(variants, &waiting, &mut take);
                waiting.clear();
            }
        }
        if !waiting.is_empty() {
            self.side_by_side(variants, &waiting, &mut take);
        }
    }

    /// Corrects the family's solutions, if that is possible and takes fewer operations than factoring anew.
    fn update(&mut self, variant: &Variant) -> bool {
        let family = self.family;
        let kept = |group: &Group| group.kept.is_some() && !group.loads_follow;
        if variant.rights.is_some() || !variant.panels.is_empty() || !family.groups.iter().all(kept) {
            return false;
        }
        if !self.note(variant) {
            return false;
        }
        let mut flops = 0.0;
        for group in &family.groups {
            let Some(kept) = &group.kept else { return false };
            if self.space.scratch.note(kept, &self.space.changes).is_err() {
                return false;
            }
            flops += self.space.scratch.flops(kept);
        }
        if flops > family.flops() {
            return false;
        }
        for (group, solutions) in family.groups.iter().zip(&mut self.space.updated) {
            let Some(kept) = &group.kept else { return false };
            // What was noted last is of the last group.
            if family.groups.len() > 1 && self.space.scratch.note(kept, &self.space.changes).is_err() {
                return false;
            }
            match self.space.scratch.solve(kept, solutions) {
                Ok(()) => {}
                Err(Refused::Unfit) => return false,
                Err(Refused::NearNothing) => {
                    self.space.work.near_nothing += 1;
                    return false;
                }
                Err(Refused::Drift) => {
                    self.space.work.drifted += 1;
                    return false;
                }
            }
        }
        self.space.work.updates += 1;
        true
    }

    /// Notes what a variant changes, each tube once; whether all of it is kept for updates.
    fn note(&mut self, variant: &Variant) -> bool {
        let family = self.family;
        self.space.changes.clear();
        for (set, stiffness) in &variant.tubes {
            for &tube in &family.sets[set.0] {
                if family.groups.iter().any(|group| group.kept.as_ref().is_none_or(|kept| !kept.holds(tube))) {
                    return false;
                }
                // Where the tube stands among the changes, if it does.
                match self.space.changes.get_mut(self.space.noted[tube]).filter(|(other, _)| *other == tube) {
                    Some((_, last)) => *last = *stiffness,
                    None => {
                        self.space.noted[tube] = self.space.changes.len();
                        self.space.changes.push((tube, *stiffness));
                    }
                }
            }
        }
        true
    }

    /// Solves up to as many variants as there are lanes.
    fn side_by_side(&mut self, variants: &[Variant], places: &[usize], take: &mut impl FnMut(usize, Outcome<'_>)) {
        self.sweep(variants, places);
        for (lane, &place) in places.iter().enumerate() {
            let variant = &variants[place];
            if self.sound(lane) {
                let (loads, route) = (variant.rights.as_ref(), Route::Lanes);
                let solutions = Solutions::Lane { registers: &self.space.moved, lane };
                take(place, Outcome::Solved(Moved { family: self.family, solutions, loads, route }));
            } else {
                self.space.work.doubtful += 1;
                self.alone(variant, place, take);
            }
        }
    }

    /// Solves one variant by itself.
    fn alone(&mut self, variant: &Variant, place: usize, take: &mut impl FnMut(usize, Outcome<'_>)) {
        let (loads, route) = (variant.rights.as_ref(), Route::Alone);
        match self.by_itself(variant) {
            Ok(solutions) => {
                let solutions = Solutions::Plain(&solutions);
                take(place, Outcome::Solved(Moved { family: self.family, solutions, loads, route }));
            }
            Err(error) => take(place, Outcome::Failed(error)),
        }
    }

    /// Whether a variant's right-hand sides are known.
    fn fits(&self, variant: &Variant) -> bool {
        variant.rights.is_some() || self.family.groups.iter().all(|group| !group.loads_follow)
    }

    /// Whether all pivots of a lane were.
    fn sound(&self, lane: usize) -> bool {
        self.space.buffers.iter().all(|buffers| buffers.smallest(lane) > SUSPICIOUS_PIVOT)
    }

    /// Solves variants side by side; their places among `variants`.
    fn sweep(&mut self, variants: &[Variant], places: &[usize]) {
        let family = self.family;
        for (number, group) in family.groups.iter().enumerate() {
            let Some(lanes) = group.lanes() else { continue };
            let own = || places.iter().map(|place| &variants[*place]);
            self.space.buffers[number].sweep(family, lanes, number, own, &mut self.space.moved[number]);
            self.space.work.lane_factorisations += 1;
            self.space.work.in_lanes += places.len() as u64;
        }
    }
}

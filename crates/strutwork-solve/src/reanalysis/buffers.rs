//! The numbers of one group of cases for one set of lanes.

use std::sync::Arc;

use pulp::Arch;
use strutwork_model::ids::Id;

use super::family::Family;
use super::group::{Group, Lanes};
use super::lanes::Sweep;
use super::variant::{TubeSet, TubeStiffness, Variant};
use crate::registers::{Registers, lanes};

/// A group's numbers for one set of lanes.
pub(super) struct Buffers {
    values: Registers,
    /// EA, GJ, EIy and EIz of a set that all variants name, lane by lane.
    named: [Vec<f64>; 4],
    factor: Registers,
    smallest: Registers,
    /// The family's right-hand sides, in the order of the registers.
    rights: Vec<f64>,
    lanes: usize,
}

/// Memory for the solutions of a group.
pub(super) fn solutions(group: &Group) -> Arc<Registers> {
    let rows = group.lanes().map_or(0, Lanes::rows);
    Arc::new(Registers::new(group.members.len() * rows))
}

impl Buffers {
    pub(super) fn of(group: &Group) -> Self {
        let Some(way) = group.lanes() else {
            let none = || Registers::new(0);
            return Self {
                values: none(),
                named: std::array::from_fn(|_| Vec::new()),
                factor: none(),
                smallest: none(),
                rights: Vec::new(),
                lanes: 0,
            };
        };
        Self {
            values: Registers::new(way.pieces.values.len()),
            named: std::array::from_fn(|_| vec![0.0; lanes()]),
            factor: Registers::new(36 * way.blocks.count),
            smallest: Registers::new(1),
            rights: way.ordered(&group.loads.rights),
            lanes: lanes(),
        }
    }

    /// Solves up to as many variants as there are lanes, into `moved`: the cases of one group.
    pub(super) fn sweep<'v, I: Iterator<Item = &'v Variant>>(
        &mut self,
        family: &Family,
        way: &Lanes,
        group: usize,
        variants: impl Fn() -> I,
        moved: &mut Arc<Registers>,
    ) {
        let count = self.lanes;
        self.set(family, way, &variants, count);
        if Arc::get_mut(moved).is_none() {
            // What was solved last is kept by someone.
            *moved = Arc::new(moved.another());
        }
        let moved = Arc::get_mut(moved).expect("bug: new memory is nobody else's");
        let own_loads = load(moved.all_mut(), &self.rights, variants, group, count);
        Arch::new().dispatch(Sweep {
            blocks: &way.blocks,
            pieces: &way.pieces,
            values: self.values.all(),
            factor: self.factor.all_mut(),
            shared: (!own_loads).then_some(self.rights.as_slice()),
            moved: moved.all_mut(),
            smallest: self.smallest.all_mut(),
        });
    }

    /// Smallest pivot of a lane over its diagonal entry.
    pub(super) fn smallest(&self, lane: usize) -> f64 {
        self.smallest.all()[lane]
    }

    /// Puts the stiffness of each variant into its lane; lanes without a variant are the family itself.
    fn set<'v, I: Iterator<Item = &'v Variant>>(
        &mut self,
        family: &Family,
        way: &Lanes,
        variants: impl Fn() -> I,
        count: usize,
    ) {
        let pieces = &way.pieces;
        let lanes_used = variants().count();
        let values = self.values.all_mut();
        for (register, value) in values.chunks_exact_mut(count).zip(&pieces.values) {
            register.fill(*value);
        }
        // Sets that all variants name first, in one order: register by register.
        let mut alike = 0;
        while let Some(set) = named_by_all(variants(), alike) {
            for (lane, variant) in variants().enumerate() {
                let TubeStiffness { ea, gj, eiy, eiz } = variant.tubes[alike].1;
                [ea, gj, eiy, eiz].into_iter().zip(&mut self.named).for_each(|(value, named)| named[lane] = value);
            }
            for &tube in &family.sets[set.0] {
                let first = pieces.first_value(tube) * count;
                if let Some(per_length) = pieces.rigid(tube) {
                    for (register, named) in values[first..].chunks_exact_mut(count).zip(&self.named) {
                        register
                            .iter_mut()
                            .zip(&named[..lanes_used])
                            .for_each(|(value, named)| *value = named * per_length);
                    }
                    continue;
                }
                for (lane, variant) in variants().enumerate() {
                    for (offset, value) in pieces.tube_values(tube, &variant.tubes[alike].1).enumerate() {
                        values[first + offset * count + lane] = value;
                    }
                }
            }
            alike += 1;
        }
        for (lane, variant) in variants().enumerate() {
            for (set, stiffness) in &variant.tubes[alike..] {
                for &tube in &family.sets[set.0] {
                    let first = pieces.first_value(tube);
                    for (offset, value) in pieces.tube_values(tube, stiffness).enumerate() {
                        values[(first + offset) * count + lane] = value;
                    }
                }
            }
            for (panel, times) in &variant.panels {
                values[pieces.panel_value(panel.index()) * count + lane] = *times;
            }
        }
    }
}

/// Puts the right-hand sides into all lanes of `moved`, if some variant has its own.
fn load<'v, I: Iterator<Item = &'v Variant>>(
    moved: &mut [f64],
    rights: &[f64],
    variants: impl Fn() -> I,
    group: usize,
    count: usize,
) -> bool {
    if variants().all(|variant| variant.rights.is_none()) {
        return false;
    }
    for (register, value) in moved.chunks_exact_mut(count).zip(rights) {
        register.fill(*value);
    }
    for (lane, variant) in variants().enumerate() {
        if let Some(rights) = &variant.rights {
            for (register, value) in moved.chunks_exact_mut(count).zip(&rights.0[group].ordered) {
                register[lane] = *value;
            }
        }
    }
    true
}

/// The set that all variants name in this place.
fn named_by_all<'v>(mut variants: impl Iterator<Item = &'v Variant>, place: usize) -> Option<TubeSet> {
    let set = |variant: &Variant| variant.tubes.get(place).map(|(set, _)| *set);
    let first = set(variants.next()?)?;
    variants.all(|variant| set(variant) == Some(first)).then_some(first)
}

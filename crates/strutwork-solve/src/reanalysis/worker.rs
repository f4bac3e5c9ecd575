//! One thread's buffers, and the ways that variants take through them.

use pulp::Arch;

use super::family::{Family, Load};
use super::group::{Group, Lanes, Way};
use super::lanes::{Registers, Sweep, lanes};
use super::moved::{Moved, Outcome, Solutions};
use super::update::{Columns, Refused, Scratch};
use super::variant::{TubeStiffness, Variant};
use crate::analysis;
use crate::assembly::System;
use crate::counters::Counters;
use crate::elements::Elements;
use crate::error::SolveError;

/// A pivot this small beside its diagonal entry is looked at by the steps that find mechanisms.
const SUSPICIOUS_PIVOT: f64 = 1e-9;

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

/// A group's numbers for one set of lanes.
pub(super) struct Buffers {
    values: Registers,
    factor: Registers,
    moved: Registers,
    /// The solutions taken apart: lane after lane, in each case after case.
    plain: Vec<f64>,
    smallest: Registers,
    /// The family's right-hand sides, in the order of the registers.
    rights: Vec<f64>,
    rows: usize,
    cases: usize,
    /// Row of each equation.
    pub(super) row_of: Vec<u32>,
}

/// Solves variants of a family on one thread; its memory is taken once.
pub struct Worker<'f> {
    family: &'f Family<'f>,
    lanes: usize,
    buffers: Vec<Buffers>,
    /// The family's elements, changed and put back for variants that are not solved in lanes.
    elements: Option<Elements>,
    scratch: Scratch,
    /// Corrected solutions of each group.
    updated: Vec<Columns>,
    /// What a variant changes.
    changes: Vec<(usize, TubeStiffness)>,
    /// Where each tube stood among the changes of the variant that changed it last.
    noted: Vec<usize>,
    work: Work,
}

impl<'f> Worker<'f> {
    pub(super) fn new(family: &'f Family<'f>) -> Self {
        let buffers = family.groups.iter().map(Buffers::of).collect();
        let columns = |group: &Group| Columns::new(group.numbering.len(), group.members.len());
        Self {
            family,
            lanes: lanes(),
            buffers,
            elements: None,
            scratch: Scratch::default(),
            updated: family.groups.iter().map(columns).collect(),
            changes: Vec::new(),
            noted: vec![0; family.elements.tubes().len()],
            work: Work::default(),
        }
    }

    /// What was done so far.
    pub fn work(&self) -> Work {
        self.work
    }

    /// Solves variants, and hands over each outcome with the variant's place; not always in order.
    pub fn solve(&mut self, variants: &[Variant], mut take: impl FnMut(usize, Outcome<'_>)) {
        self.work.variants += variants.len() as u64;
        let mut waiting: Vec<usize> = Vec::with_capacity(self.lanes);
        for (place, variant) in variants.iter().enumerate() {
            if self.update(variant) {
                let solutions = Solutions::Plain(&self.updated);
                take(place, Outcome::Solved(Moved { family: self.family, solutions, loads: None }));
                continue;
            }
            if !self.fits(variant) || self.family.groups.iter().any(|group| group.lanes().is_none()) {
                self.alone(variant, place, &mut take);
                continue;
            }
            waiting.push(place);
            if waiting.len() == self.lanes {
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
            if self.scratch.note(kept, &self.changes).is_err() {
                return false;
            }
            flops += self.scratch.flops(kept);
        }
        if flops > family.flops() {
            return false;
        }
        for (group, solutions) in family.groups.iter().zip(&mut self.updated) {
            let Some(kept) = &group.kept else { return false };
            // What was noted last is of the last group.
            if family.groups.len() > 1 && self.scratch.note(kept, &self.changes).is_err() {
                return false;
            }
            match self.scratch.solve(kept, solutions) {
                Ok(()) => {}
                Err(Refused::Unfit) => return false,
                Err(Refused::NearNothing) => {
                    self.work.near_nothing += 1;
                    return false;
                }
                Err(Refused::Drift) => {
                    self.work.drifted += 1;
                    return false;
                }
            }
        }
        self.work.updates += 1;
        true
    }

    /// Notes what a variant changes, each tube once; whether all of it is kept for updates.
    fn note(&mut self, variant: &Variant) -> bool {
        let family = self.family;
        self.changes.clear();
        for (set, stiffness) in &variant.tubes {
            for &tube in &family.sets[set.0] {
                if family.groups.iter().any(|group| group.kept.as_ref().is_none_or(|kept| !kept.holds(tube))) {
                    return false;
                }
                // Where the tube stands among the changes, if it does.
                match self.changes.get_mut(self.noted[tube]).filter(|(other, _)| *other == tube) {
                    Some((_, last)) => *last = *stiffness,
                    None => {
                        self.noted[tube] = self.changes.len();
                        self.changes.push((tube, *stiffness));
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
                let loads = variant.rights.as_ref().map(|rights| rights.0.as_slice());
                let solutions = Solutions::Lane { buffers: &self.buffers, lane };
                take(place, Outcome::Solved(Moved { family: self.family, solutions, loads }));
            } else {
                self.work.doubtful += 1;
                self.alone(variant, place, take);
            }
        }
    }

    /// Solves one variant by itself.
    fn alone(&mut self, variant: &Variant, place: usize, take: &mut impl FnMut(usize, Outcome<'_>)) {
        let loads = variant.rights.as_ref().map(|rights| rights.0.as_slice());
        match self.by_itself(variant) {
            Ok(solutions) => {
                let solutions = Solutions::Plain(&solutions);
                take(place, Outcome::Solved(Moved { family: self.family, solutions, loads }));
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
        self.buffers.iter().all(|buffers| buffers.smallest.all()[lane] > SUSPICIOUS_PIVOT)
    }

    /// Solves variants side by side; their places among `variants`.
    fn sweep(&mut self, variants: &[Variant], places: &[usize]) {
        let family = self.family;
        for (number, group) in family.groups.iter().enumerate() {
            let Some(lanes) = group.lanes() else { continue };
            let buffers = &mut self.buffers[number];
            let chosen = || places.iter().map(|place| &variants[*place]);
            buffers.set(family, lanes, chosen(), self.lanes);
            let own_loads = buffers.load(chosen, number, self.lanes);
            Arch::new().dispatch(Sweep {
                blocks: &lanes.blocks,
                pieces: &lanes.pieces,
                values: buffers.values.all(),
                factor: buffers.factor.all_mut(),
                shared: (!own_loads).then_some(buffers.rights.as_slice()),
                moved: buffers.moved.all_mut(),
                plain: &mut buffers.plain,
                cases: group.members.len(),
                smallest: buffers.smallest.all_mut(),
            });
            self.work.lane_factorisations += 1;
            self.work.in_lanes += places.len() as u64;
        }
    }

    /// Solves one variant by itself: solutions of each group over its equations.
    fn by_itself(&mut self, variant: &Variant) -> Result<Vec<Columns>, SolveError> {
        let family = self.family;
        let elements = self.elements.get_or_insert_with(|| family.elements.clone());
        for (set, stiffness) in &variant.tubes {
            for tube in &family.sets[set.0] {
                elements.change_tube(*tube, stiffness);
            }
        }
        for (panel, times) in &variant.panels {
            elements.change_panel(*panel, *times);
        }
        let mut solutions = Vec::with_capacity(family.groups.len());
        let mut failed = None;
        for (number, group) in family.groups.iter().enumerate() {
            let loads = variant.rights.as_ref().map(|rights| &rights.0[number]);
            let whole = if let Way::Whole(_) = group.way { &mut self.work.whole } else { &mut self.work.singly };
            *whole += 1;
            match solve_group(family, group, elements, loads) {
                Ok(solution) => {
                    let equations = group.numbering.len();
                    let mut columns = Columns::new(equations, group.members.len());
                    for (case, values) in solution.chunks_exact(equations.max(1)).enumerate() {
                        columns.column_mut(case)[..equations].copy_from_slice(values);
                    }
                    solutions.push(columns);
                }
                Err(error) => {
                    failed = Some(error);
                    break;
                }
            }
        }
        for tube in variant.tubes.iter().flat_map(|(set, _)| &family.sets[set.0]) {
            elements.put_back_tube(*tube, &family.elements);
        }
        for (panel, _) in &variant.panels {
            elements.put_back_panel(*panel, &family.elements);
        }
        failed.map_or(Ok(solutions), Err)
    }
}

/// Solves one group of a variant whose elements are given.
fn solve_group(
    family: &Family<'_>,
    group: &Group,
    elements: &Elements,
    own: Option<&Load>,
) -> Result<Vec<f64>, SolveError> {
    let (model, numbering, supports) = (family.model, &group.numbering, group.held.supports());
    let cases: Vec<_> = group.members.iter().map(|member| &family.cases[*member]).collect();
    let anew = match own {
        None if group.loads_follow => Some(analysis::prepare(model, elements, numbering, supports, &cases)?),
        _ => None,
    };
    let loads = anew.as_ref().or(own.map(|own| &own.loads)).unwrap_or(&group.loads);
    if let Way::Whole(symbolic) = &group.way {
        let system = System::assemble(elements, numbering, &group.pattern, supports);
        if let Ok(factored) = symbolic.factor(system.stiffness())
            && factored.smallest_pivot().0 > SUSPICIOUS_PIVOT
        {
            let mut block = loads.rights.concat();
            factored.solve(&mut block, cases.len());
            if block.iter().all(|value| value.is_finite()) {
                return Ok(block);
            }
        }
    }
    let mut counters = Counters::default();
    let standing = elements.standing();
    let (solutions, ..) =
        analysis::solve_prepared(model, &standing, numbering, supports, &cases, loads, &mut counters)?;
    Ok(solutions.concat())
}

impl Buffers {
    fn of(group: &Group) -> Self {
        let equations = 0..group.numbering.len();
        let Some(lanes) = group.lanes() else {
            let none = || Registers::new(0);
            return Self {
                values: none(),
                factor: none(),
                moved: none(),
                smallest: none(),
                rights: Vec::new(),
                rows: 0,
                cases: 0,
                plain: Vec::new(),
                row_of: Vec::new(),
            };
        };
        Self {
            values: Registers::new(lanes.pieces.values.len()),
            factor: Registers::new(36 * lanes.blocks.count),
            moved: Registers::new(group.members.len() * lanes.rows()),
            smallest: Registers::new(1),
            rights: lanes.ordered(&group.numbering, &group.loads.rights),
            rows: lanes.rows(),
            cases: group.members.len(),
            plain: vec![0.0; group.members.len() * lanes.rows() * super::lanes::lanes()],
            row_of: equations.map(|equation| lanes.row(&group.numbering, equation) as u32).collect(),
        }
    }

    /// Puts the stiffness of each variant into its lane; lanes without a variant are the family itself.
    fn set<'v>(&mut self, family: &Family<'_>, lanes: &Lanes, variants: impl Iterator<Item = &'v Variant>, count: usize) {
        let pieces = &lanes.pieces;
        let values = self.values.all_mut();
        for (register, value) in values.chunks_exact_mut(count).zip(&pieces.values) {
            register.fill(*value);
        }
        for (lane, variant) in variants.enumerate() {
            for (set, stiffness) in &variant.tubes {
                for &tube in &family.sets[set.0] {
                    let first = pieces.first_value(tube);
                    for (offset, value) in pieces.tube_values(tube, stiffness).enumerate() {
                        values[(first + offset) * count + lane] = value;
                    }
                }
            }
            for (panel, times) in &variant.panels {
                values[pieces.panel_value(strutwork_model::ids::Id::index(*panel)) * count + lane] = *times;
            }
        }
    }

    /// The solution of a case in a lane, six rows a place.
    pub(super) fn case(&self, lane: usize, case: usize) -> &[f64] {
        &self.plain[(lane * self.cases + case) * self.rows..][..self.rows]
    }

    /// Puts the right-hand sides into all lanes, if some variant has its own.
    fn load<'v, I: Iterator<Item = &'v Variant>>(&mut self, variants: impl Fn() -> I, group: usize, count: usize) -> bool {
        if variants().all(|variant| variant.rights.is_none()) {
            return false;
        }
        let moved = self.moved.all_mut();
        for (register, value) in moved.chunks_exact_mut(count).zip(&self.rights) {
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
}

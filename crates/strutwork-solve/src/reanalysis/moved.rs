//! What came of a variant.

use std::sync::Arc;

use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, JointId};

use super::family::{Family, Rights};
use super::group::Lanes;
use super::lanes::Solution;
use super::update::Columns;
use crate::analysis::case::Held;
use crate::error::SolveError;
use crate::recover::{self, Movement};
use crate::registers::Registers;
use crate::results::MeasureResult;

/// What came of a variant.
pub enum Outcome<'w> {
    /// It stands, and moved so.
    Solved(Moved<'w>),
    /// It does not: a mechanism, told by its joints, or what else [`solve_cases`](crate::solve_cases) would say.
    Failed(SolveError),
}

/// How a variant came to its solution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Route {
    /// Factored side by side with others.
    Lanes,
    /// The family's own solutions were corrected.
    Update,
    /// Factored by itself.
    Alone,
}

/// How a variant moved in every case. A view into the worker: read off what is wanted.
#[derive(Clone, Copy)]
pub struct Moved<'w> {
    pub(super) family: &'w Family,
    pub(super) solutions: Solutions<'w>,
    /// Where the variant has loads of its own.
    pub(super) loads: Option<&'w Rights>,
    pub(super) route: Route,
}

/// How a variant moved in every case, kept after the worker has gone on.
#[derive(Clone)]
pub struct Movements {
    solutions: Kept,
    loads: Option<Rights>,
    route: Route,
}

/// Solutions that are kept.
#[derive(Clone)]
enum Kept {
    /// With all lanes, of each group: shared, not copied.
    Lane { registers: Vec<Arc<Registers>>, lane: usize },
    /// Over the equations, case after case, of each group.
    Plain(Vec<Columns>),
}

impl std::fmt::Debug for Movements {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Movements").field("route", &self.route).finish_non_exhaustive()
    }
}

impl Movements {
    /// To be read off.
    ///
    /// # Assumes
    /// `family` is the one that it was kept of.
    pub fn of<'w>(&'w self, family: &'w Family) -> Moved<'w> {
        let solutions = match &self.solutions {
            Kept::Plain(columns) => Solutions::Plain(columns),
            Kept::Lane { registers, lane } => Solutions::Lane { registers, lane: *lane },
        };
        Moved { family, solutions, loads: self.loads.as_ref(), route: self.route }
    }
}

/// Where the solutions of all groups stand.
#[derive(Clone, Copy)]
pub(super) enum Solutions<'w> {
    /// One lane among the registers of each group.
    Lane { registers: &'w [Arc<Registers>], lane: usize },
    /// Over the equations, case after case, of each group.
    Plain(&'w [Columns]),
}

impl Moved<'_> {
    /// How it was solved.
    pub fn route(&self) -> Route {
        self.route
    }

    /// What stays when the worker goes on. It may hold the memory of as many variants as were solved together.
    pub fn keep(&self) -> Movements {
        let solutions = match self.solutions {
            Solutions::Plain(solutions) => Kept::Plain(solutions.to_vec()),
            Solutions::Lane { registers, lane } => Kept::Lane { registers: registers.to_vec(), lane },
        };
        Movements { solutions, loads: self.loads.cloned(), route: self.route }
    }

    /// Movement of a joint in a case, m and rad, global axes.
    #[inline]
    pub fn joint(&self, case: usize, joint: JointId) -> [f64; 6] {
        let (group, index) = self.family.places[case];
        if matches!(self.family.groups[group].held, Held::Free { .. }) {
            return self.movement(case).joints[joint];
        }
        let own = self.node(group, index, joint.index());
        let prescribed = self.prescribed(group, index).iter().filter(|(node, _)| *node == joint.index());
        prescribed.fold(own, |sum, (_, values)| std::array::from_fn(|dof| sum[dof] + values[dof]))
    }

    /// Movements of all joints in a case, m and rad, global axes.
    pub fn joints(&self, case: usize) -> IndexVec<JointId, [f64; 6]> {
        self.movement(case).joints
    }

    /// What the case wants read off its solution, in order.
    pub fn measures(&self, case: usize) -> Vec<MeasureResult> {
        let movement = self.movement(case);
        let (group, index) = self.family.places[case];
        let own = self.loads.map(|rights| &rights.0[group].measures[index]);
        let wanted = own.unwrap_or(&self.family.cases[case].measures);
        wanted.iter().map(|wanted| recover::measure(&self.family.model, wanted, &movement)).collect()
    }

    /// The values of a case over its equations, in the order of the equations.
    pub fn equations(&self, case: usize) -> impl Iterator<Item = f64> + '_ {
        let (group, index) = self.family.places[case];
        (0..self.family.groups[group].numbering.len()).map(move |equation| self.value(group, index, equation))
    }

    /// Movement of everything in a case.
    fn movement(&self, case: usize) -> Movement {
        let (group, index) = self.family.places[case];
        let part = &self.family.groups[group];
        let solution: Vec<f64> = self.equations(case).collect();
        let prescribed = self.prescribed(group, index);
        let mut movement = Movement::of(&self.family.model, &part.numbering, &solution, prescribed);
        if let Held::Free { projection, .. } = &part.held {
            let own = self.loads.and_then(|loads| loads.0[group].projection.as_ref());
            own.unwrap_or(projection).apply(&mut movement);
        }
        movement
    }

    fn prescribed(&self, group: usize, index: usize) -> &[(usize, [f64; 6])] {
        let prepared = self.loads.map_or(&self.family.groups[group].loads, |loads| &loads.0[group].loads);
        &prepared.prescribed[index]
    }

    fn value(&self, group: usize, index: usize, equation: usize) -> f64 {
        match self.solutions {
            Solutions::Plain(solutions) => solutions[group].column(index)[equation],
            Solutions::Lane { registers, lane } => {
                let (solution, lanes) = self.in_lane(&registers[group], lane, group, index);
                solution.row(lanes.row(equation))
            }
        }
    }

    /// The solution of a case of a group that is solved in lanes, and how it is.
    fn in_lane<'r>(&self, registers: &'r Registers, lane: usize, group: usize, index: usize) -> (Solution<'r>, &Lanes) {
        let group = &self.family.groups[group];
        let lanes = group.lanes().expect("bug: a group without lanes was solved in them");
        (lanes.solution(registers, lane, index, group.members.len()), lanes)
    }

    /// Movement of a node by its own equations and what it is tied to.
    #[inline]
    fn node(&self, group: usize, index: usize, node: usize) -> [f64; 6] {
        let part = &self.family.groups[group];
        let (equation, row) = part.firsts[node];
        let six = match self.solutions {
            // A held freedom's row is zero, as its equation has a one and nothing else.
            Solutions::Lane { registers, lane } => {
                row.map(|row| self.in_lane(&registers[group], lane, group, index).0.six(row))
            }
            Solutions::Plain(solutions) => {
                equation.and_then(|equation| solutions[group].column(index)[equation..].first_chunk().copied())
            }
        };
        if let Some(six) = six {
            return six;
        }
        part.numbering.values_of(node, |equation| self.value(group, index, equation))
    }
}

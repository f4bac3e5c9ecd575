//! Cases that are held alike, from their equations to their solutions.

use strutwork_loads::LoadCase;
use strutwork_model::Model;
use strutwork_model::ids::Id;
use strutwork_model::model::Support;

use crate::assembly::{Pattern, System};
use crate::counters::Counters;
use crate::elements::Elements;
use crate::error::{Motion, Node, SolveError, Stage};
use crate::linear::{Factored, Symbolic};
use crate::mechanism;
use crate::numbering::Numbering;
use crate::results::{LeftOut, SystemTrust};
use crate::trust;

use super::ground::{ground, typical_stiffness};

/// A pivot this small beside its diagonal entry makes us look for free motions although the factorisation went through.
const SUSPICIOUS_PIVOT: f64 = 1e-9;
/// Work of the loads along a free motion, over the loads' size, above which the motion is loaded.
const LOADED: f64 = 1e-9;

/// Cases that are held alike, on the way to their solutions.
pub(crate) struct Group<'a> {
    pub model: &'a Model,
    pub elements: &'a Elements,
    pub numbering: &'a Numbering,
    pub supports: &'a [Support],
    pub cases: &'a [&'a LoadCase],
    pub rights: &'a [Vec<f64>],
    pub counters: &'a mut Counters,
}

/// Solutions, what refining them took, and what is known of the system.
pub(crate) type Solved = (Vec<Vec<f64>>, Vec<trust::Refined>, SystemTrust);

/// A stiffness that holds, factored.
pub(crate) struct Sound<'s> {
    pub factored: Factored<'s>,
    /// Freedoms that were held because nothing stiffens and nothing loads them.
    pub left_out: Vec<LeftOut>,
    /// Motions without resistance that nothing loads: taken out of solutions.
    pub idle: Vec<Vec<f64>>,
}

impl Group<'_> {
    /// Every freedom is held: there is nothing to solve.
    pub(super) fn nothing_free(&self) -> Solved {
        let none = trust::Refined { residual: 0.0, steps: 0 };
        let trust = self.trust(1.0, 1.0, Vec::new());
        (vec![Vec::new(); self.cases.len()], vec![none; self.cases.len()], trust)
    }

    pub(super) fn solve(&mut self) -> Result<Solved, SolveError> {
        let places = crate::rigid::places(self.model);
        let pattern = Pattern::of(self.elements, self.numbering);
        let mut system = System::assemble(self.elements, self.numbering, &pattern, self.supports);
        finite(self.numbering, &system.diagonal(), "", Stage::Assembly)?;
        let symbolic = Symbolic::analyse(&pattern, self.numbering, &places);
        self.counters.symbolic_analyses += 1;
        self.counters.equations = self.counters.equations.max(self.numbering.len() as u64);
        self.counters.stiffness_entries = self.counters.stiffness_entries.max(pattern.entries() as u64);
        self.counters.factor_entries = self.counters.factor_entries.max(symbolic.factor_entries() as u64);

        let Sound { factored, left_out, idle } = self.sound(&mut system, &symbolic)?;
        let (solutions, refined) = self.solve_block(&system, &factored, &idle)?;
        let (condition, solves) = trust::condition(&system, &factored);
        self.counters.condition_solves += solves;
        Ok((solutions, refined, self.trust(condition, factored.smallest_pivot().0, left_out)))
    }

    /// Holds what nothing stiffens and nothing loads, and factors the rest.
    ///
    /// # Errors
    /// [`SolveError::Mechanism`] where something that can move without resistance is loaded;
    /// [`SolveError::IllConditioned`] where no such motion is found.
    pub(crate) fn sound<'s>(&mut self, system: &mut System, symbolic: &'s Symbolic) -> Result<Sound<'s>, SolveError> {
        let mut left_out = mechanism::unstiffened(self.elements, self.numbering, system);
        self.refuse_loaded(&left_out)?;
        let typical = typical_stiffness(system, self.numbering);
        for left in &left_out {
            ground(system, self.numbering, left, typical);
        }
        self.counters.factorisations += 1;
        let mut outcome = symbolic.factor(system.stiffness());
        let sound = outcome.as_ref().is_ok_and(|factored| factored.smallest_pivot().0 > SUSPICIOUS_PIVOT);
        let mut idle: Vec<Vec<f64>> = Vec::new();
        if !sound {
            idle = mechanism::free_motions(
                self.elements,
                self.numbering,
                system,
                symbolic,
                self.supports,
                &left_out,
                typical,
            );
            if !idle.is_empty() {
                self.refuse_mechanism(&mut idle)?;
                left_out.extend(self.pin(system, &mut idle, typical));
                self.counters.factorisations += 1;
                outcome = symbolic.factor(system.stiffness());
            }
        }
        let factored = outcome.map_err(|failed| {
            let (node, dof) = self.numbering.freedom(failed.equation);
            let node = self.numbering.node(node);
            SolveError::IllConditioned { case: self.cases[0].name.clone(), node, dof, pivot: 0.0 }
        })?;
        Ok(Sound { factored, left_out, idle })
    }

    fn trust(&self, condition: f64, smallest_pivot: f64, left_out: Vec<LeftOut>) -> SystemTrust {
        let over_held = self.numbering.conditions().iter().filter(|condition| condition.redundant());
        SystemTrust {
            equations: self.numbering.len(),
            condition,
            smallest_pivot,
            left_out,
            over_held: over_held.map(|condition| self.numbering.body_of(condition.body)).collect(),
        }
    }

    /// All cases in one block, in order: the last bits of a solution depend on the block it is solved in.
    fn solve_block(
        &mut self,
        system: &System,
        factored: &Factored<'_>,
        idle: &[Vec<f64>],
    ) -> Result<(Vec<Vec<f64>>, Vec<trust::Refined>), SolveError> {
        let mut block: Vec<f64> = self.rights.concat();
        factored.solve(&mut block, self.cases.len());
        self.counters.solves += self.cases.len() as u64;
        let norm = system.norm();
        let mut solutions = Vec::with_capacity(self.cases.len());
        let mut refined = Vec::with_capacity(self.cases.len());
        for (index, column) in block.chunks_exact(self.numbering.len()).enumerate() {
            let mut solution = column.to_vec();
            finite(self.numbering, &solution, &self.cases[index].name, Stage::Solution)?;
            let done = trust::refine(system, factored, norm, &self.rights[index], &mut solution);
            finite(self.numbering, &solution, &self.cases[index].name, Stage::Solution)?;
            self.counters.refinement_solves += u64::from(done.steps);
            for motion in idle {
                let along: f64 = motion.iter().zip(&solution).map(|(m, u)| m * u).sum();
                for (u, m) in solution.iter_mut().zip(motion) {
                    *u -= along * m;
                }
            }
            solutions.push(solution);
            refined.push(done);
        }
        Ok((solutions, refined))
    }

    /// A freedom of one joint that nothing stiffens must not be loaded.
    fn refuse_loaded(&self, left_out: &[LeftOut]) -> Result<(), SolveError> {
        let mut motions = Vec::new();
        let mut name = String::new();
        for left in left_out {
            let joint = left.joint.index();
            let loaded = self.cases.iter().zip(self.rights).find(|(_, right)| {
                let values = self.numbering.own_values(joint, right);
                let size = values.iter().map(|v| v * v).sum::<f64>().sqrt();
                let along: f64 = values.iter().zip(left.direction).map(|(a, b)| a * b).sum();
                along.abs() > LOADED * size
            });
            if let Some((case, _)) = loaded {
                if name.is_empty() {
                    name = case.name.clone();
                }
                motions.push(Motion::Part { joints: vec![(left.joint, left.direction)], bodies: Vec::new() });
            }
        }
        if motions.is_empty() { Ok(()) } else { Err(SolveError::Mechanism { case: name, motions }) }
    }

    /// A free motion of several joints or of a body is a mechanism, unless it only turns joints and no case loads it.
    fn refuse_mechanism(&self, idle: &mut [Vec<f64>]) -> Result<(), SolveError> {
        let size = mechanism::size(self.model);
        mechanism::come_apart(self.numbering, idle, size);
        let harmless = |motion: &&Vec<f64>| {
            mechanism::only_turns(self.numbering, motion, size)
                && self.rights.iter().all(|right| {
                    let length = |v: &[f64]| v.iter().map(|x| x * x).sum::<f64>().sqrt();
                    let along: f64 = motion.iter().zip(right).map(|(m, f)| m * f).sum();
                    along.abs() <= LOADED * length(right) * length(motion)
                })
        };
        let harmful: Vec<Vec<f64>> = idle.iter().filter(|motion| !harmless(motion)).cloned().collect();
        if harmful.is_empty() {
            return Ok(());
        }
        let motions = mechanism::describe(self.model, self.numbering, self.supports, &harmful);
        Err(SolveError::Mechanism { case: self.cases[0].name.clone(), motions })
    }

    /// Grounds one freedom for each idle motion, so that the rest can be factored, and makes the motions orthonormal.
    fn pin(&self, system: &mut System, idle: &mut [Vec<f64>], typical: [f64; 2]) -> Vec<LeftOut> {
        let mut rows: Vec<Vec<f64>> = idle.to_vec();
        let mut pinned = Vec::new();
        for row in 0..rows.len() {
            let largest = (0..rows[row].len())
                .max_by(|a, b| rows[row][*a].abs().total_cmp(&rows[row][*b].abs()).then(b.cmp(a)))
                .expect("an idle motion has components");
            let done = rows[row].clone();
            for other in rows.iter_mut().skip(row + 1) {
                let factor = other[largest] / done[largest];
                for (value, d) in other.iter_mut().zip(&done) {
                    *value -= factor * d;
                }
            }
            let (node, dof) = self.numbering.freedom(largest);
            system.add_diagonal(largest, typical[usize::from(dof.is_rotation())]);
            let mut direction = [0.0; 6];
            direction[dof.index()] = 1.0;
            if let Node::Joint(joint) = self.numbering.node(node) {
                pinned.push(LeftOut { joint, dof, direction });
            }
        }
        for row in 0..idle.len() {
            let (done, rest) = idle.split_at_mut(row);
            for other in done.iter() {
                let along: f64 = rest[0].iter().zip(other).map(|(a, b)| a * b).sum();
                for (value, b) in rest[0].iter_mut().zip(other) {
                    *value -= along * b;
                }
            }
            let norm = rest[0].iter().map(|v| v * v).sum::<f64>().sqrt();
            rest[0].iter_mut().for_each(|v| *v /= norm);
        }
        pinned
    }
}

/// # Errors
/// [`SolveError::NotFinite`] at the first value that is not.
pub(crate) fn finite(numbering: &Numbering, values: &[f64], case: &str, stage: Stage) -> Result<(), SolveError> {
    match values.iter().position(|value| !value.is_finite()) {
        None => Ok(()),
        Some(equation) => {
            let (node, dof) = numbering.freedom(equation);
            Err(SolveError::NotFinite { case: case.to_owned(), stage, node: numbering.node(node), dof })
        }
    }
}

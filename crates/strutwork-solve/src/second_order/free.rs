//! Frames that nothing holds.
//!
//! The frame moves about its mean place: Wᵀu = 0 with W = M R, the inertia of its six rigid motions. What the couples of the
//! axial forces leave unbalanced its inertia takes:
//!
//! ```text
//! [ K + K_g   W ] [u]   [f]
//! [ Wᵀ        0 ] [a] = [0]
//! ```
//! K + K_g alone cannot be factored. Six springs S at freedoms E that determine the frame's place hold it, and a border takes
//! their forces out again, exactly.

use nalgebra::{DVector, Matrix6, Vector6};
use strutwork_loads::LoadCase;
use strutwork_model::ids::Id;

use std::cell::Cell;

use super::bent::Bent;
use super::limit::limit;
use super::steady::Steady;
use super::{Frame, Solved, count};
use crate::analysis::ground::typical_stiffness;
use crate::analysis::{Held, Recovery, SecondOrderPart, SolvedCase, finite};
use crate::assembly::{LoadVectors, System};
use crate::counters::Counters;
use crate::eigen::{self, Border};
use crate::error::{SolveError, Stage};
use crate::linear::Signs;
use crate::recover::Movement;
use crate::results::CaseResult;
use crate::rigid;
use crate::trust::Refined;

/// Improvements of a solution: two take out what an elimination without choice of pivots leaves.
const REFINEMENTS: u32 = 2;

/// A free frame, ready for what axial forces add.
pub(super) struct FreeFrame<'a> {
    frame: Frame<'a>,
    held: &'a Held,
    system: usize,
    base: eigen::Held,
    /// W, then E: twelve columns over the equations.
    border: Vec<Vec<f64>>,
    /// 0 for W, 1/S for E.
    corner: [f64; 12],
    /// W over the nodes, and the accelerations that each column's factor brings, m/s² and rad/s².
    inertia: [Vec<[f64; 6]>; 6],
    accelerations: Matrix6<f64>,
}

/// K + K_g with its border, eliminated.
struct Bordered<'s> {
    signs: Signs<'s>,
    matrix: System,
    border: Border,
}

impl<'a> FreeFrame<'a> {
    pub(super) fn of(frame: Frame<'a>, held: &'a Held, system: usize, counters: &mut Counters) -> Self {
        let model = frame.model;
        let base = eigen::Held::of(model, &[]);
        counters.symbolic_analyses += 1;
        let Held::Free { held: freedoms, projection, .. } = held else {
            unreachable!("bug: a frame that supports hold is not free")
        };
        let (mut inertia, mut accelerations) = projection.movers();
        let gathered = |nodes: &[[f64; 6]]| {
            let mut column = vec![0.0; base.numbering.len()];
            nodes.iter().enumerate().for_each(|(node, force)| base.numbering.gather(node, force, 1.0, &mut column));
            column
        };
        let mut border = Vec::with_capacity(12);
        for (motion, nodes) in inertia.iter_mut().enumerate() {
            // To unit length, so that the border is of one size.
            let scale = 1.0 / rigid::norm(&gathered(nodes));
            nodes.iter_mut().flatten().for_each(|value| *value *= scale);
            accelerations.column_mut(motion).scale_mut(scale);
            border.push(gathered(nodes));
        }
        let typical = typical_stiffness(&base.stiffness, &base.numbering);
        let mut corner = [0.0; 12];
        for (place, (joint, dof)) in freedoms.iter().enumerate() {
            let mut nodes = vec![[0.0; 6]; base.numbering.nodes()];
            nodes[joint.index()][dof.index()] = 1.0;
            border.push(gathered(&nodes));
            corner[6 + place] = 1.0 / typical[usize::from(dof.is_rotation())];
        }
        Self { frame, held, system, base, border, corner, inertia, accelerations }
    }

    /// Solves a case.
    pub(super) fn solve(&self, (case, first): (&LoadCase, &CaseResult)) -> Solved {
        let Frame { model, elements, wanted } = self.frame;
        let counters = Cell::new(Counters::default());
        let unsolved = |error| Solved {
            result: Err(error),
            passes: Vec::new(),
            pieces: 0,
            piece_error: 0.0,
            acceleration: None,
            condition: None,
            counters: Counters::default(),
        };
        let straight = match LoadVectors::of(model, elements, case) {
            Ok(loads) => loads,
            Err(error) => return unsolved(error),
        };
        let mut steady = Steady::of(self.frame, &straight.spans, first);
        let mut fineness;
        let mut acceleration = None;
        let result = loop {
            let bent = Bent::of(elements, &straight.spans, steady.starts(), wanted.division);
            fineness = bent.fineness();
            let Some(bordered) = self.bordered(&bent, &counters) else {
                let stands = |share: f64| {
                    let starts: Vec<[f64; 2]> = steady.starts().iter().map(|both| both.map(|n| n * share)).collect();
                    let bent = Bent::of(elements, &straight.spans.times(share), &starts, wanted.division);
                    self.bordered(&bent, &counters).is_some()
                };
                break Err(SolveError::Buckles { case: case.name.clone(), factor: limit(stands) });
            };
            let nodes = bent.node_loads(&straight.direct, &straight.spans);
            let mut right = vec![0.0; self.base.numbering.len()];
            nodes.iter().enumerate().for_each(|(node, load)| self.base.numbering.gather(node, load, 1.0, &mut right));
            let (solution, factors, refined) = self.solved(&bordered, &right, &counters);
            if let Err(error) = finite(&self.base.numbering, &solution, &case.name, Stage::Solution) {
                break Err(error);
            }
            let movement = Movement::of(model, &self.base.numbering, &solution, &[]);
            let is_steady = steady.take(bent.starts(&movement.joints), movement.joints);
            if is_steady {
                acceleration = Some((self.accelerations * Vector6::from_column_slice(&factors)).into());
                let work: f64 = solution.iter().zip(&right).map(|(u, f)| u * f).sum();
                let (loads, more) = self.balanced(&straight, nodes, &factors);
                let recovery =
                    Recovery { model, elements, numbering: &self.base.numbering, held: self.held, system: self.system };
                break Ok(Box::new(recovery.recover(SolvedCase {
                    case,
                    loads: &loads,
                    prescribed: &[],
                    solution: &solution,
                    refined,
                    energy: work / 2.0,
                    bent: Some(SecondOrderPart { tubes: &bent, more }),
                })));
            }
            if let Some(error) = steady.spent(&case.name) {
                break Err(error);
            }
        };
        let (pieces, piece_error) = fineness;
        let counters = counters.get();
        Solved { result, passes: steady.passes(), pieces, piece_error, acceleration, condition: None, counters }
    }

    /// The loads with what inertia takes, and that by itself, reduced to the origin.
    fn balanced(&self, straight: &LoadVectors, mut nodes: Vec<[f64; 6]>, factors: &[f64]) -> (LoadVectors, [f64; 6]) {
        let places = rigid::places(self.frame.model);
        let mut direct = straight.direct.clone();
        let mut more = [0.0; 6];
        for (weights, factor) in self.inertia.iter().zip(factors) {
            for (node, weight) in weights.iter().enumerate() {
                let taken = weight.map(|value| -factor * value);
                let add = |sum: &mut [f64; 6], part: &[f64; 6]| sum.iter_mut().zip(part).for_each(|(s, p)| *s += p);
                add(&mut direct[node], &taken);
                add(&mut nodes[node], &taken);
                add(&mut more, &rigid::reduced(&taken, places[node]));
            }
        }
        (LoadVectors { nodes, direct, ..straight.clone() }, more)
    }

    /// The frame with these tubes, eliminated; `None` where it does not stand.
    ///
    /// The count: eliminating the springs' forces leaves K + K_g with W beside it, which has six negative eigenvalues more than
    /// K + K_g has among the movements about the mean place.
    fn bordered(&self, bent: &Bent<'_>, counters: &Cell<Counters>) -> Option<Bordered<'_>> {
        if bent.bowed() > 0 {
            return None;
        }
        count(counters, |count| {
            count.factorisations += 1;
            count.solves += 12;
        });
        let mut matrix = self.base.sound.clone();
        matrix.add_multiple(1.0, &bent.added(&self.base.numbering, &self.base.pattern));
        let signs = self.base.symbolic.signs(matrix.stiffness()).ok()?;
        let border = Border::of(&signs, &self.border.concat(), &self.corner);
        let below = border.negative()?;
        (signs.negative() + below == 6).then_some(Bordered { signs, matrix, border })
    }

    /// Movements, factors of W, and what is left.
    fn solved(
        &self,
        bordered: &Bordered<'_>,
        right: &[f64],
        counters: &Cell<Counters>,
    ) -> (Vec<f64>, Vec<f64>, Refined) {
        let mut movements = vec![0.0; right.len()];
        let mut factors = DVector::zeros(12);
        let lu = bordered.border.complement.clone().lu();
        let left = |movements: &[f64], factors: &DVector<f64>| {
            let mut rest: Vec<f64> =
                right.iter().zip(bordered.matrix.multiply(movements)).map(|(f, k)| f - k).collect();
            for (column, factor) in self.border.iter().zip(factors.iter()) {
                rest.iter_mut().zip(column).for_each(|(rest, b)| *rest -= factor * b);
            }
            let border =
                DVector::from_fn(12, |i, _| -eigen::dot(&self.border[i], movements) - self.corner[i] * factors[i]);
            (rest, border)
        };
        for _ in 0..=REFINEMENTS {
            let (mut rest, border) = left(&movements, &factors);
            bordered.signs.solve(&mut rest, 1);
            let passed = DVector::from_fn(12, |i, _| border[i] - eigen::dot(&self.border[i], &rest));
            let step = lu.solve(&passed).unwrap_or_else(|| DVector::from_element(12, f64::NAN));
            for (column, factor) in bordered.border.solved.chunks_exact(right.len()).zip(step.iter()) {
                rest.iter_mut().zip(column).for_each(|(rest, b)| *rest -= factor * b);
            }
            movements.iter_mut().zip(&rest).for_each(|(sum, part)| *sum += part);
            factors += step;
        }
        let size = |v: &[f64]| v.iter().fold(0.0, |most: f64, x| most.max(x.abs()));
        let scale = bordered.matrix.norm() * size(&movements) + size(right);
        let rest = size(&left(&movements, &factors).0);
        count(counters, |count| {
            count.solves += 1;
            count.refinement_solves += u64::from(REFINEMENTS);
        });
        let residual = if scale > 0.0 { rest / scale } else { 0.0 };
        (movements, factors.as_slice()[..6].to_vec(), Refined { residual, steps: REFINEMENTS })
    }
}

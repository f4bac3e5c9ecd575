//! Frames that supports hold.

use std::cell::Cell;

use strutwork_loads::LoadCase;

use super::bent::Bent;
use super::limit::limit;
use super::steady::Steady;
use super::{Frame, Solved, count};
use crate::analysis::{Group, Held, Prepared, Recovery, SecondOrderPart, SolvedCase, finite, prepare};
use crate::assembly::{LoadVectors, Pattern, System};
use crate::counters::Counters;
use crate::error::{SolveError, Stage};
use crate::linear::{Factored, Symbolic};
use crate::numbering::Numbering;
use crate::recover::Movement;
use crate::results::CaseResult;
use crate::rigid;
use crate::trust::{self, Refined};

/// A frame with its supports, and the loads of the cases that are held so.
pub(super) struct HeldFrame<'a> {
    frame: Frame<'a>,
    held: &'a Held,
    system: usize,
    numbering: Numbering,
    loads: Vec<LoadVectors>,
    prescribed: Vec<Vec<(usize, [f64; 6])>>,
    /// `None` where every freedom is held.
    base: Option<Base>,
}

/// The stiffness of first order, with what nothing stiffens held, ready for what axial forces add.
struct Base {
    pattern: Pattern,
    symbolic: Symbolic,
    system: System,
    /// Motions without resistance that nothing loads.
    idle: Vec<Vec<f64>>,
}

/// What one pass found.
struct Tried<'s> {
    solution: Vec<f64>,
    refined: Refined,
    energy: f64,
    /// The stiffness and its factor; `None` where every freedom is held.
    factored: Option<(System, Factored<'s>)>,
}

impl<'a> HeldFrame<'a> {
    pub(super) fn of(
        frame: Frame<'a>,
        held: &'a Held,
        system: usize,
        pairs: &[(&LoadCase, &CaseResult)],
        counters: &mut Counters,
    ) -> Result<Self, SolveError> {
        let Frame { model, elements, .. } = frame;
        let numbering = Numbering::of(model, held.supports());
        let cases: Vec<&LoadCase> = pairs.iter().map(|(case, _)| *case).collect();
        let Prepared { loads, prescribed, rights } = prepare(model, elements, &numbering, held.supports(), &cases)?;
        let base = if numbering.is_empty() {
            None
        } else {
            let pattern = Pattern::of(elements, &numbering);
            let mut system = System::assemble(elements, &numbering, &pattern, held.supports());
            let symbolic = Symbolic::analyse(&pattern, &numbering, &rigid::places(model));
            counters.symbolic_analyses += 1;
            let supports = held.supports();
            let mut group =
                Group { model, elements, numbering: &numbering, supports, cases: &cases, rights: &rights, counters };
            let idle = group.sound(&mut system, &symbolic)?.idle;
            Some(Base { pattern, symbolic, system, idle })
        };
        Ok(Self { frame, held, system, numbering, loads, prescribed, base })
    }

    /// Solves the case at this place.
    pub(super) fn solve(&self, place: usize, (case, first): (&LoadCase, &CaseResult)) -> Solved {
        let Frame { model, elements, wanted } = self.frame;
        let straight = &self.loads[place];
        let mut steady = Steady::of(self.frame, &straight.spans, first);
        let counters = Cell::new(Counters::default());
        let mut fineness;
        let mut condition = None;
        let result = loop {
            let bent = Bent::of(elements, &straight.spans, steady.starts(), wanted.division);
            fineness = bent.fineness();
            let loads = LoadVectors { nodes: bent.node_loads(&straight.direct, &straight.spans), ..straight.clone() };
            let tried = match self.pass(place, case, &bent, &loads, &counters) {
                Ok(Some(tried)) => tried,
                Ok(None) => {
                    let stands = |share: f64| {
                        let starts: Vec<[f64; 2]> =
                            steady.starts().iter().map(|both| both.map(|n| n * share)).collect();
                        self.stands(
                            &Bent::of(elements, &straight.spans.times(share), &starts, wanted.division),
                            &counters,
                        )
                    };
                    break Err(SolveError::Buckles { case: case.name.clone(), factor: limit(stands) });
                }
                Err(error) => break Err(error),
            };
            let movement = Movement::of(model, &self.numbering, &tried.solution, &self.prescribed[place]);
            let is_steady = steady.take(bent.starts(&movement.joints), movement.joints);
            if is_steady {
                let recovery =
                    Recovery { model, elements, numbering: &self.numbering, held: self.held, system: self.system };
                let result = recovery.recover(SolvedCase {
                    case,
                    loads: &loads,
                    prescribed: &self.prescribed[place],
                    solution: &tried.solution,
                    refined: tried.refined,
                    energy: tried.energy,
                    bent: Some(SecondOrderPart { tubes: &bent, more: [0.0; 6] }),
                });
                condition = tried.factored.map(|(system, factored)| {
                    let (condition, solves) = trust::condition(&system, &factored);
                    count(&counters, |count| count.condition_solves += solves);
                    (condition, factored.smallest_pivot().0)
                });
                break Ok(Box::new(result));
            }
            if let Some(error) = steady.spent(&case.name) {
                break Err(error);
            }
        };
        let (pieces, piece_error) = fineness;
        let counters = counters.get();
        Solved { result, passes: steady.passes(), pieces, piece_error, acceleration: None, condition, counters }
    }

    /// The solution with these tubes; `None` where the frame does not stand.
    fn pass(
        &self,
        place: usize,
        case: &LoadCase,
        bent: &Bent<'_>,
        loads: &LoadVectors,
        counters: &Cell<Counters>,
    ) -> Result<Option<Tried<'_>>, SolveError> {
        if bent.bowed() > 0 {
            return Ok(None);
        }
        let Some(base) = &self.base else {
            let refined = Refined { residual: 0.0, steps: 0 };
            return Ok(Some(Tried { solution: Vec::new(), refined, energy: 0.0, factored: None }));
        };
        let system = self.loaded(base, bent);
        finite(&self.numbering, &system.diagonal(), &case.name, Stage::Assembly)?;
        let right = loads.right_side(
            self.frame.elements,
            &self.numbering,
            self.held.supports(),
            &self.prescribed[place],
            &|place, element| bent.stiffness(place, element),
        );
        finite(&self.numbering, &right, &case.name, Stage::Assembly)?;
        count(counters, |count| count.factorisations += 1);
        let Ok(factored) = base.symbolic.factor(system.stiffness()) else { return Ok(None) };
        let mut solution = right.clone();
        factored.solve(&mut solution, 1);
        finite(&self.numbering, &solution, &case.name, Stage::Solution)?;
        let refined = trust::refine(&system, &factored, system.norm(), &right, &mut solution);
        finite(&self.numbering, &solution, &case.name, Stage::Solution)?;
        count(counters, |count| {
            count.solves += 1;
            count.refinement_solves += u64::from(refined.steps);
        });
        for motion in &base.idle {
            let along: f64 = motion.iter().zip(&solution).map(|(m, u)| m * u).sum();
            solution.iter_mut().zip(motion).for_each(|(u, m)| *u -= along * m);
        }
        let work: f64 = solution.iter().zip(&right).map(|(u, f)| u * f).sum();
        Ok(Some(Tried { solution, refined, energy: work / 2.0, factored: Some((system, factored)) }))
    }

    /// Whether the frame stands with these tubes.
    fn stands(&self, bent: &Bent<'_>, counters: &Cell<Counters>) -> bool {
        if bent.bowed() > 0 {
            return false;
        }
        self.base.as_ref().is_none_or(|base| {
            count(counters, |count| count.factorisations += 1);
            base.symbolic.factor(self.loaded(base, bent).stiffness()).is_ok()
        })
    }

    fn loaded(&self, base: &Base, bent: &Bent<'_>) -> System {
        let mut system = base.system.clone();
        system.add_multiple(1.0, &bent.added(&self.numbering, &base.pattern));
        system
    }
}

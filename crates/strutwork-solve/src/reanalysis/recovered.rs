//! Forces, stresses and reactions of a variant, from its movements.

use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::Model;

use super::family::{RightsError, alike};
use super::group::Group;
use super::moved::Moved;
use crate::analysis::case::{Held, Recovery, SolvedCase};
use crate::analysis::{self, Prepared};
use crate::elements::Elements;
use crate::recover::Movement;
use crate::relief;
use crate::results::CaseResult;
use crate::trust::Refined;

impl Moved<'_> {
    /// Everything that [`solve_cases`](crate::solve_cases) gives for each case, for checks.
    ///
    /// `model` and `cases` are the variant's own: the same joints in the same order, and the sections and loads that the
    /// movements belong to. Where they are not, the residual of each case shows it. The residual is that of the forces in all
    /// pieces against the loads, over a size that is at most the one [`solve_cases`](crate::solve_cases) takes.
    ///
    /// # Errors
    /// As [`Family::rights`](super::Family::rights).
    pub fn results(&self, model: &Model, cases: &LoadCases) -> Result<Vec<CaseResult>, RightsError> {
        if !alike(&cases.0, &self.family.cases) {
            return Err(RightsError::OtherCases);
        }
        let elements = Elements::of(model);
        let stiffest = stiffest(&elements, model.joints().len() + model.bodies().len());
        let mut results: Vec<Option<CaseResult>> = cases.0.iter().map(|_| None).collect();
        for (system, group) in self.family.groups.iter().enumerate() {
            let (numbering, supports) = (&group.numbering, group.held.supports());
            let members: Vec<&LoadCase> = group.members.iter().map(|member| &cases.0[*member]).collect();
            let prepared = analysis::prepare(model, &elements, numbering, supports, &members)?;
            let held = held_as(group, model, &elements);
            let recovery = Recovery { model, elements: &elements, numbering, held: &held, system };
            for (index, case) in members.into_iter().enumerate() {
                let place = group.members[index];
                let solution: Vec<f64> = self.equations(place).collect();
                let refined = refined(model, &elements, group, &prepared, index, &solution, stiffest);
                let work: f64 = solution.iter().zip(&prepared.rights[index]).map(|(u, f)| u * f).sum();
                results[place] = Some(recovery.recover(SolvedCase {
                    case,
                    loads: &prepared.loads[index],
                    prescribed: &prepared.prescribed[index],
                    solution: &solution,
                    refined,
                    energy: work / 2.0,
                    bent: None,
                }));
            }
        }
        Ok(results.into_iter().flatten().collect())
    }
}

/// How the group is held, its displacements freed of rigid motion by the variant's own masses.
fn held_as(group: &Group, model: &Model, elements: &Elements) -> Held {
    match &group.held {
        Held::Supports(supports) => Held::Supports(supports.clone()),
        Held::Free { held, supports, .. } => Held::Free {
            held: held.clone(),
            supports: supports.clone(),
            projection: Box::new(relief::projection(model, elements)),
        },
    }
}

/// The residual of one case: what the forces in all pieces leave over of the loads.
fn refined(
    model: &Model,
    elements: &Elements,
    group: &Group,
    prepared: &Prepared,
    index: usize,
    solution: &[f64],
    stiffest: f64,
) -> Refined {
    let (numbering, supports) = (&group.numbering, group.held.supports());
    let movement = Movement::of(model, numbering, solution, &prepared.prescribed[index]);
    let all: Vec<(usize, [f64; 6])> = (0..numbering.nodes()).map(|node| (node, *movement.node(node))).collect();
    let left =
        prepared.loads[index].right_side(elements, numbering, supports, &all, &|_, element| element.global_stiffness());
    let size = |values: &[f64]| values.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let scale = stiffest * size(solution) + size(&prepared.rights[index]);
    Refined { residual: if scale > 0.0 { size(&left) / scale } else { 0.0 }, steps: 0 }
}

/// The greatest stiffness of a node against moving by itself, of the tubes alone.
fn stiffest(elements: &Elements, nodes: usize) -> f64 {
    let mut sums = vec![[0.0; 6]; nodes];
    for element in elements.tubes() {
        for (end, joint) in element.joints.into_iter().enumerate() {
            let own = element.quarters(end)[0].diagonal();
            sums[joint].iter_mut().zip(own.iter()).for_each(|(sum, value)| *sum += value);
        }
    }
    sums.into_iter().flatten().fold(0.0, f64::max)
}

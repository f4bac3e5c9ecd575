//! Forces, stresses and reactions of a variant, from its movements.

use strutwork_loads::LoadCases;
use strutwork_model::Model;

use super::family::{Family, RightsError, alike};
use super::group::Group;
use super::moved::Moved;
use crate::analysis::case::{Held, Recovery, SolvedCase};
use crate::analysis::{self, Prepared};
use crate::elements::Elements;
use crate::recover::Movement;
use crate::relief;
use crate::results::CaseResult;
use crate::trust::Refined;

/// A variant's own model and cases, ready for forces, stresses and reactions to be found from its movements.
///
/// The joints are the family's, in the same order; the sections and loads are those that the movements belong to. Where they
/// are not, the residual of a case shows it. The residual is that of the forces in all pieces against the loads, over a size
/// that is at most the one that [`solve_cases`](crate::solve_cases) takes.
pub struct Recovered<'a> {
    model: &'a Model,
    cases: &'a LoadCases,
    elements: Elements,
    stiffest: f64,
    /// How each group of the family is held.
    held: Vec<Held>,
}

impl<'a> Recovered<'a> {
    /// Of a variant's model and its cases, in the family's order; cases at the end may be left away.
    ///
    /// # Errors
    /// [`RightsError::OtherCases`].
    pub fn of(family: &Family, model: &'a Model, cases: &'a LoadCases) -> Result<Self, RightsError> {
        if !family.cases.get(..cases.0.len()).is_some_and(|own| alike(&cases.0, own)) {
            return Err(RightsError::OtherCases);
        }
        let elements = Elements::of(model);
        let stiffest = stiffest(&elements, model.joints().len() + model.bodies().len());
        let held = family.groups.iter().map(|group| held_as(group, model, &elements)).collect();
        Ok(Self { model, cases, elements, stiffest, held })
    }

    /// Everything that [`solve_cases`](crate::solve_cases) gives for one case.
    ///
    /// # Errors
    /// As [`Family::rights`].
    pub fn case(&self, moved: &Moved<'_>, place: usize) -> Result<CaseResult, RightsError> {
        let (system, _) = moved.family.places[place];
        let (model, elements, group) = (self.model, &self.elements, &moved.family.groups[system]);
        let (numbering, supports) = (&group.numbering, group.held.supports());
        let prepared = analysis::prepare(model, elements, numbering, supports, &[&self.cases.0[place]])?;
        let recovery = Recovery { model, elements, numbering, held: &self.held[system], system };
        let solution: Vec<f64> = moved.equations(place).collect();
        let refined = refined(model, elements, group, &prepared, &solution, self.stiffest);
        let work: f64 = solution.iter().zip(&prepared.rights[0]).map(|(u, f)| u * f).sum();
        Ok(recovery.recover(SolvedCase {
            case: &self.cases.0[place],
            loads: &prepared.loads[0],
            prescribed: &prepared.prescribed[0],
            solution: &solution,
            refined,
            energy: work / 2.0,
            bent: None,
        }))
    }
}

impl Moved<'_> {
    /// [`Recovered::case`] of every case.
    ///
    /// # Errors
    /// As [`Family::rights`].
    pub fn results(&self, model: &Model, cases: &LoadCases) -> Result<Vec<CaseResult>, RightsError> {
        let recovered = Recovered::of(self.family, model, cases)?;
        (0..cases.0.len()).map(|place| recovered.case(self, place)).collect()
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
    solution: &[f64],
    stiffest: f64,
) -> Refined {
    let (numbering, supports) = (&group.numbering, group.held.supports());
    let movement = Movement::of(model, numbering, solution, &prepared.prescribed[0]);
    let all: Vec<(usize, [f64; 6])> = (0..numbering.nodes()).map(|node| (node, *movement.node(node))).collect();
    let left =
        prepared.loads[0].right_side(elements, numbering, supports, &all, &|_, element| element.global_stiffness());
    let size = |values: &[f64]| values.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let scale = stiffest * size(solution) + size(&prepared.rights[0]);
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

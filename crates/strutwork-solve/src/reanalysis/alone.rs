//! Variants solved one at a time, by changing the family's elements and putting them back.

use super::family::{Family, Load};
use super::group::{Group, Way};
use super::update::Columns;
use super::variant::Variant;
use super::worker::Worker;
use crate::analysis;
use crate::assembly::System;
use crate::counters::Counters;
use crate::elements::Elements;
use crate::error::SolveError;

use super::worker::SUSPICIOUS_PIVOT;

impl Worker<'_> {
    /// Solves one variant by itself: solutions of each group over its equations.
    pub(super) fn by_itself(&mut self, variant: &Variant) -> Result<Vec<Columns>, SolveError> {
        let family = self.family;
        let elements = self.space.elements.get_or_insert_with(|| family.elements.clone());
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
            let whole =
                if let Way::Whole(_) = group.way { &mut self.space.work.whole } else { &mut self.space.work.singly };
            *whole += 1;
            match solve_group(family, group, elements, loads, &mut self.space.systems[number]) {
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

/// Solves one group of a variant whose elements are given, in the memory of another variant's `system` if there is one.
fn solve_group(
    family: &Family,
    group: &Group,
    elements: &Elements,
    own: Option<&Load>,
    system: &mut Option<System>,
) -> Result<Vec<f64>, SolveError> {
    let (model, numbering, supports) = (&*family.model, &group.numbering, group.held.supports());
    let cases: Vec<_> = group.members.iter().map(|member| &family.cases[*member]).collect();
    let anew = match own {
        None if group.loads_follow => Some(analysis::prepare(model, elements, numbering, supports, &cases)?),
        _ => None,
    };
    let loads = anew.as_ref().or(own.map(|own| &own.loads)).unwrap_or(&group.loads);
    if let Way::Whole(symbolic) = &group.way {
        let system = system.get_or_insert_with(|| System::empty(&group.pattern));
        system.fill(elements, numbering, &group.pattern, supports);
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

//! What is kept of the family's own factorisation for updates.

use strutwork_element::Vec12;
use strutwork_model::Model;

use super::small::{Deform, SIDE};
use crate::analysis::ground::{ground, typical_stiffness};
use crate::assembly::System;
use crate::counters::Counters;
use crate::elements::{Element, Elements};
use crate::linear::Symbolic;
use crate::mechanism;
use crate::numbering::Numbering;
use crate::reanalysis::ends::TubeLaw;
use crate::reanalysis::group::Group;
use crate::reanalysis::variant::TubeStiffness;
use crate::trust;

/// Vectors over the equations, one after another, each padded with zeros to four of the widest registers.
#[derive(Debug, Clone, Default)]
pub(in crate::reanalysis) struct Columns {
    pub(super) values: Vec<f64>,
    pub(super) stride: usize,
}

impl Columns {
    /// So many columns over so many equations.
    pub(in crate::reanalysis) fn new(equations: usize, count: usize) -> Self {
        let stride = equations.next_multiple_of(8 * SIDE);
        Self { values: vec![0.0; stride * count], stride }
    }

    /// One of them.
    pub(in crate::reanalysis) fn column(&self, index: usize) -> &[f64] {
        &self.values[index * self.stride..(index + 1) * self.stride]
    }

    /// One of them, to be changed.
    pub(in crate::reanalysis) fn column_mut(&mut self, index: usize) -> &mut [f64] {
        &mut self.values[index * self.stride..(index + 1) * self.stride]
    }
}

/// A tube that may change.
#[derive(Debug)]
pub(super) struct KeptTube {
    /// Its first column.
    pub(super) first: usize,
    pub(super) law: TubeLaw,
    /// As the family has it.
    pub(super) stiffness: TubeStiffness,
}

/// K⁻¹ over the deformations of the tubes that may change, and the family's own solutions.
#[derive(Debug)]
pub(in crate::reanalysis) struct Kept {
    pub(super) cases: usize,
    /// Of each tube of the model that may change: its first column, law and stiffness.
    tubes: Vec<Option<KeptTube>>,
    /// b of the six columns of each tube, one after another: equations, and for each the weights in the six columns.
    equations: Vec<u32>,
    weights: Vec<[f64; 8]>,
    starts: Vec<usize>,
    /// K⁻¹ b.
    pub(super) inverse: Columns,
    /// bᵢᵀ K⁻¹ bⱼ, square.
    flexibility: Vec<f64>,
    /// The family's solutions.
    pub(super) base: Columns,
    /// bᵀ u, case after case.
    deformed: Vec<f64>,
    /// √(fᵀu) of each case: the size of the loads in the measure of energy.
    pub(super) sizes: Vec<f64>,
}

impl Kept {
    /// Keeps what changes of these tubes need; `None` where the family is not factored as it stands.
    pub(in crate::reanalysis) fn of(
        model: &Model,
        elements: &Elements,
        group: &Group,
        tubes: &[usize],
        counters: &mut Counters,
    ) -> Option<Self> {
        let (numbering, supports) = (&group.numbering, group.held.supports());
        let n = numbering.len();
        let mut kept = Self {
            cases: group.members.len(),
            tubes: elements.tubes().iter().map(|_| None).collect(),
            equations: Vec::new(),
            weights: Vec::new(),
            starts: vec![0],
            inverse: Columns::new(n, 6 * tubes.len()),
            flexibility: Vec::new(),
            base: Columns::new(n, group.members.len()),
            deformed: Vec::new(),
            sizes: Vec::new(),
        };
        for (place, &tube) in tubes.iter().enumerate() {
            let element = &elements.tubes()[tube];
            let (law, stiffness) = (TubeLaw::of(element), TubeStiffness::of(&element.beam));
            kept.tubes[tube] = Some(KeptTube { first: 6 * place, law, stiffness });
            kept.add(element, numbering);
        }
        let mut system = System::assemble(elements, numbering, &group.pattern, supports);
        let left_out = mechanism::unstiffened(elements, numbering, &system);
        let typical = typical_stiffness(&system, numbering);
        for left in &left_out {
            ground(&mut system, numbering, left, typical);
        }
        let symbolic = Symbolic::analyse(&group.pattern, numbering, &crate::rigid::places(model));
        let factored = symbolic.factor(system.stiffness()).ok()?;
        counters.symbolic_analyses += 1;
        counters.factorisations += 1;
        let norm = system.norm();
        for column in 0..6 * tubes.len() {
            let mut right = vec![0.0; n];
            let parts = kept.starts[column / 6]..kept.starts[column / 6 + 1];
            for (equation, weights) in kept.equations[parts.clone()].iter().zip(&kept.weights[parts]) {
                right[*equation as usize] = weights[column % 6];
            }
            let mut solution = right.clone();
            factored.solve(&mut solution, 1);
            let refined = trust::refine(&system, &factored, norm, &right, &mut solution);
            counters.solves += 1;
            counters.refinement_solves += u64::from(refined.steps);
            kept.inverse.column_mut(column)[..n].copy_from_slice(&solution);
        }
        let count = 6 * tubes.len();
        // bᵢᵀ K⁻¹ bⱼ, whose two halves differ by rounding alone.
        let mut half = vec![0.0; count * count];
        for (j, row) in half.chunks_exact_mut(count.max(1)).enumerate() {
            for (tube, place) in row.as_chunks_mut::<6>().0.iter_mut().enumerate() {
                place.copy_from_slice(&kept.deformation(tube, kept.inverse.column(j))[..6]);
            }
        }
        kept.flexibility =
            (0..count * count).map(|place| (half[place] + half[place % count * count + place / count]) / 2.0).collect();
        for (case, (solution, right)) in group.base.iter().zip(&group.loads.rights).enumerate() {
            kept.base.column_mut(case)[..n].copy_from_slice(solution);
            for tube in 0..tubes.len() {
                kept.deformed.extend(&kept.deformation(tube, kept.base.column(case))[..6]);
            }
            let work: f64 = solution.iter().zip(right).map(|(u, f)| u * f).sum();
            kept.sizes.push(work.max(0.0).sqrt());
        }
        Some(kept)
    }

    /// Adds the six columns of a tube: stretch, twist, and in each plane the sum and the difference of its slopes over √2.
    fn add(&mut self, element: &Element, numbering: &Numbering) {
        let mut unit_deformations = [[0.0; 12]; 6];
        for i in 0..12 {
            let mut unit = Vec12::zeros();
            unit[i] = 1.0;
            let q = element.deformation(&unit).0;
            let half = std::f64::consts::FRAC_1_SQRT_2;
            let turned =
                [q[0], q[1], half * (q[2] + q[3]), half * (q[2] - q[3]), half * (q[4] + q[5]), half * (q[4] - q[5])];
            for (row, value) in unit_deformations.iter_mut().zip(turned) {
                row[i] = value;
            }
        }
        let mut spread = vec![0.0; numbering.len()];
        let mut weights: Vec<[f64; 8]> = vec![[0.0; 8]; numbering.len()];
        for (column, row) in unit_deformations.into_iter().enumerate() {
            for (joint, forces) in element.joints.iter().zip(row.as_chunks::<6>().0) {
                numbering.gather(*joint, forces, 1.0, &mut spread);
            }
            for (weights, weight) in weights.iter_mut().zip(&mut spread) {
                weights[column] = std::mem::take(weight);
            }
        }
        for (equation, weights) in weights.into_iter().enumerate().filter(|(_, weights)| *weights != [0.0; 8]) {
            self.equations.push(equation as u32);
            self.weights.push(weights);
        }
        self.starts.push(self.equations.len());
    }

    /// Whether a tube may change.
    pub(in crate::reanalysis) fn holds(&self, tube: usize) -> bool {
        self.tubes[tube].is_some()
    }

    /// A tube that may change.
    pub(super) fn tube(&self, tube: usize) -> Option<&KeptTube> {
        self.tubes[tube].as_ref()
    }

    /// Operations of an update of this rank.
    pub(super) fn flops(&self, rank: usize) -> f64 {
        super::flops(self.base.stride, self.cases, rank)
    }

    /// bᵀ v for the six columns of a tube, by its place among those that may change.
    pub(super) fn deformation(&self, tube: usize, moved: &[f64]) -> [f64; 8] {
        let parts = self.starts[tube]..self.starts[tube + 1];
        Deform { equations: &self.equations[parts.clone()], weights: &self.weights[parts], moved }.sum()
    }

    /// bᵀ K⁻¹ b over all columns, for one of them.
    pub(super) fn flexibility(&self, column: usize) -> &[f64] {
        let count = 6 * (self.starts.len() - 1);
        &self.flexibility[column * count..(column + 1) * count]
    }

    /// bᵀ u of a case over all columns.
    pub(super) fn deformed(&self, case: usize) -> &[f64] {
        let count = 6 * (self.starts.len() - 1);
        &self.deformed[case * count..(case + 1) * count]
    }
}

//! From an eigenvector to a mode.

use strutwork_element::Vec12;
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, JointId, Model, Subdivided, TubeId};

use super::{Masses, Mode, ModeName};
use crate::eigen::{Held, Pair, dot, greatest, rigid_motions};

/// The mode of a pair; its largest displacement is positive.
pub(super) fn mode(fine: &Subdivided, held: &Held, masses: &Masses, pair: &Pair) -> Mode {
    let mut vector = pair.vector.clone();
    if turned(held, &vector) {
        vector.iter_mut().for_each(|value| *value = -*value);
    }
    let moved = |node: usize| held.numbering.values(node, &vector);
    let joints: IndexVec<JointId, [f64; 6]> = fine.model.joints().ids().map(|joint| moved(joint.index())).collect();
    let bodies = (fine.model.joints().len()..held.numbering.nodes()).map(moved).collect();
    let weighed = masses.multiply(&vector);
    let square = 1.0 / pair.theta;
    // ω²/2 where nothing acts; under load the axial forces hold a part that is no strain.
    let strain = dot(&vector, &held.stiffness.multiply(&vector)) / 2.0;
    Mode {
        frequency: square.sqrt() / std::f64::consts::TAU,
        name: ModeName::default(),
        energy: energy(fine, held, &joints, strain),
        joints,
        bodies,
        participation: rigid_motions(&fine.model, &held.numbering).map(|motion| dot(&motion, &weighed)),
        residual: pair.residual,
    }
}

/// Whether the displacement of the greatest size is negative; the first of nearly equal ones counts.
fn turned(held: &Held, vector: &[f64]) -> bool {
    let moves = |equation: &usize| !held.numbering.freedom(*equation).1.is_rotation();
    greatest((0..vector.len()).filter(moves).map(|equation| vector[equation])) < 0.0
}

/// Share of each tube in the strain energy `whole`.
fn energy(fine: &Subdivided, held: &Held, joints: &IndexVec<JointId, [f64; 6]>, whole: f64) -> IndexVec<TubeId, f64> {
    let count = fine.pieces.iter().map(|(tube, _)| tube.index() + 1).max().unwrap_or(0);
    let mut energy = vec![0.0; count];
    for ((tube, _), element) in fine.pieces.iter().zip(held.elements.tubes()) {
        let [a, b] = element.joints.map(|joint| joints[JointId::new(joint)]);
        let (q, k) = element.deformation(&Vec12::from_iterator(a.into_iter().chain(b)));
        energy[tube.index()] += q.dot(&(k * q)) / 2.0 / whole;
    }
    energy.into_iter().collect()
}

/// Rᵀ M R.
pub(super) fn whole(model: &Model, held: &Held, masses: &Masses) -> [[f64; 6]; 6] {
    let motions = rigid_motions(model, &held.numbering);
    motions.each_ref().map(|motion| {
        let weighed = masses.multiply(motion);
        motions.each_ref().map(|other| dot(other, &weighed))
    })
}

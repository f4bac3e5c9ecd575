//! From an eigenvector to a way of buckling.

use strutwork_element::Vec12;
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, JointId};

use super::BucklingMode;
use super::forces::Axial;
use super::ready::Ready;
use crate::eigen::{Pair, greatest};

/// Freedoms of a tube's ends that bend it about its y, and about its z.
const PLANES: [[usize; 4]; 2] = [[2, 4, 8, 10], [1, 5, 7, 11]];

/// The way of buckling of a pair, scaled to a largest displacement of 1.
pub(super) fn mode(ready: &Ready<'_>, axial: &Axial, pair: &Pair, sign: f64, error_bound: Option<f64>) -> BucklingMode {
    let (fine, held) = (ready.fine, ready.held);
    let moved = |node: usize| held.numbering.values(node, &pair.vector);
    let joints: IndexVec<JointId, [f64; 6]> = fine.model.joints().ids().map(|joint| moved(joint.index())).collect();
    let factor = 1.0 / pair.theta;
    let count = fine.pieces.iter().map(|(tube, _)| tube.index() + 1).max().unwrap_or(0);
    let (mut energy, mut bending, mut pressing) = (vec![0.0; count], vec![[0.0; 2]; count], vec![[0.0; 2]; count]);
    for (piece, ((tube, _), element)) in fine.pieces.iter().zip(held.elements.tubes()).enumerate() {
        let tube = tube.index();
        let [a, b] = element.joints.map(|joint| joints[JointId::new(joint)]);
        let ends = Vec12::from_iterator(a.into_iter().chain(b));
        let (q, k) = element.deformation(&ends);
        // φᵀKφ = 1.
        energy[tube] += q.dot(&(k * q));
        let (own, _) = element.own_ends(&ends, &Vec12::zeros());
        let [from, to] = axial.ends(piece);
        let geometric = element.beam.geometric_stiffness(from, to);
        for (plane, places) in PLANES.iter().enumerate() {
            let part = q.fixed_rows::<2>(2 + 2 * plane).into_owned();
            bending[tube][plane] += part.dot(&(k.fixed_view::<2, 2>(2 + 2 * plane, 2 + 2 * plane) * part));
            let mut alone = Vec12::zeros();
            places.iter().for_each(|&place| alone[place] = own[place]);
            pressing[tube][plane] -= factor * alone.dot(&(geometric * alone));
        }
    }
    let largest = greatest(joints.iter().flat_map(|values| [values[0], values[1], values[2]]));
    let scale = if largest == 0.0 { 1.0 } else { 1.0 / largest };
    let scaled = |values: [f64; 6]| values.map(|value| value * scale);
    BucklingMode {
        factor: sign * factor,
        error_bound,
        bodies: (joints.len()..held.numbering.nodes()).map(|node| scaled(moved(node))).collect(),
        joints: joints.iter().map(|values| scaled(*values)).collect(),
        energy: energy.into_iter().collect(),
        bending: bending.into_iter().collect(),
        pressing: pressing.into_iter().collect(),
        residual: pair.residual,
    }
}

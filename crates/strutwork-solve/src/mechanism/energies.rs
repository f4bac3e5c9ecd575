//! What motions cost, summed from deformations.

use nalgebra::DMatrix;
use strutwork_element::Vec12;
use strutwork_element::beam::{Mat6, Vec6};
use strutwork_model::Dof;
use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};

use crate::elements::Elements;
use crate::numbering::Numbering;
use crate::results::LeftOut;

/// What holds the frame to the ground.
pub(super) struct Holding<'a> {
    pub supports: &'a [Support],
    /// Left-out freedoms: they are held by the stiffness put there, and are no free motion any more.
    pub grounded: &'a [LeftOut],
    /// That stiffness, for displacements and for rotations.
    pub typical: [f64; 2],
}

/// Energies vᵢᵀ K vⱼ, summed from the deformations of each piece, so that rigid motions cancel before they are squared.
pub(super) fn energies(
    elements: &Elements,
    numbering: &Numbering,
    holding: &Holding<'_>,
    block: &[Vec<f64>],
) -> DMatrix<f64> {
    let mut energies = DMatrix::zeros(block.len(), block.len());
    let mut deformations = vec![Vec6::zeros(); block.len()];
    for element in elements.tubes() {
        let mut stiffness = Mat6::zeros();
        for (vector, q) in block.iter().zip(&mut deformations) {
            let [a, b] = element.joints.map(|joint| numbering.values(joint, vector));
            (*q, stiffness) = element.deformation(&Vec12::from_iterator(a.into_iter().chain(b)));
        }
        add(&mut energies, &deformations, &stiffness);
    }
    for bush in elements.bushes() {
        for (vector, q) in block.iter().zip(&mut deformations) {
            let [joint, body] = bush.nodes.map(|node| numbering.values(node, vector));
            *q = Vec6::from(bush.stretch(&joint, &body));
        }
        add(&mut energies, &deformations, &Mat6::from_diagonal(&Vec6::from(bush.stiffness)));
    }
    for sheet in elements.sheets() {
        let moved: Vec<Vec<[f64; 6]>> = block
            .iter()
            .map(|vector| sheet.corners.iter().map(|corner| numbering.values(*corner, vector)).collect())
            .collect();
        for (j, moved_by) in moved.iter().enumerate() {
            let forces = sheet.joint_forces(moved_by);
            for (i, corners) in moved.iter().enumerate() {
                let work = |(u, f): (&[f64; 6], &[f64; 6])| u.iter().zip(f).map(|(u, f)| u * f).sum::<f64>();
                energies[(i, j)] += corners.iter().zip(&forces).map(work).sum::<f64>();
            }
        }
    }
    for support in holding.supports {
        let stiffness = Dof::ALL.map(|dof| match support.holds[dof] {
            Hold::Spring(stiffness) => stiffness,
            Hold::Fixed | Hold::Free => 0.0,
        });
        for (vector, q) in block.iter().zip(&mut deformations) {
            *q = Vec6::from(numbering.values(support.joint.index(), vector));
        }
        add(&mut energies, &deformations, &Mat6::from_diagonal(&Vec6::from(stiffness)));
    }
    for left in holding.grounded {
        let stiffness = holding.typical[usize::from(left.dof.is_rotation())];
        let direction = Vec6::from(left.direction);
        for (vector, q) in block.iter().zip(&mut deformations) {
            *q = Vec6::from(numbering.own_values(left.joint.index(), vector));
        }
        add(&mut energies, &deformations, &(direction * direction.transpose() * stiffness));
    }
    energies
}

/// Adds qᵢᵀ k qⱼ.
fn add(energies: &mut DMatrix<f64>, deformations: &[Vec6], stiffness: &Mat6) {
    for (j, q) in deformations.iter().enumerate() {
        let force = stiffness * q;
        for (i, p) in deformations.iter().enumerate().take(j + 1) {
            let work = p.dot(&force);
            energies[(i, j)] += work;
            if i != j {
                energies[(j, i)] += work;
            }
        }
    }
}

//! Six freedoms that determine the place of a frame and strain nothing.

use nalgebra::{Matrix6, SymmetricEigen, Vector6};
use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};
use strutwork_model::{Dof, DofMap, JointId, Model};

use crate::elements::Elements;
use crate::mechanism;
use crate::rigid;

/// A rotation counts as this share of a displacement at the frame's size: joints' displacements are preferred, as holding
/// three joints apart is better determined than holding one against turning.
const ROTATION: f64 = 0.1;
/// A motion of the whole frame that changes a freedom by less than this share is not determined by it.
const DETERMINED: f64 = 1e-6;
/// An eigenvalue of a joint's own stiffness below this share of the rest is none.
const LOOSE: f64 = 1e-10;

/// Six freedoms of joints that determine the place of the frame: at each step the one that is moved most by the rigid
/// motions still possible (elimination with row pivoting), the first of equals.
///
/// Freedoms that nothing at the joint stiffens are passed over: holding them holds nothing.
pub(crate) fn determinate(model: &Model, elements: &Elements) -> Vec<(JointId, Dof)> {
    let (size, centre) = (mechanism::size(model), rigid::centre(model));
    // Movement of every freedom under the six rigid motions, turns times the frame's size.
    let mut rows: Vec<(JointId, Dof, Vector6<f64>)> = Vec::with_capacity(6 * model.joints().len());
    for (id, joint) in model.joints().iter_with_id() {
        let map = rigid::matrix(rigid::arm(centre, joint.at));
        for dof in Dof::ALL {
            let weight = if dof.is_rotation() { ROTATION * size } else { 1.0 };
            let row = Vector6::from_fn(|i, _| weight * map[(dof.index(), i)] / if i < 3 { 1.0 } else { size });
            rows.push((id, dof, row));
        }
    }
    let joints = Joints::of(model, elements);
    let mut passed_over = vec![false; rows.len()];
    let mut held: Vec<(JointId, Dof)> = Vec::new();
    let mut last_resort = false;
    while held.len() < 6 {
        let mut best = (0, DETERMINED);
        for (place, (_, _, row)) in rows.iter().enumerate().filter(|(place, _)| !passed_over[*place]) {
            let moved = row.norm();
            if moved > best.1 * (1.0 + 1e-9) {
                best = (place, moved);
            }
        }
        if best.1 == DETERMINED {
            if last_resort {
                break;
            }
            last_resort = true;
            passed_over.fill(false);
            continue;
        }
        let (joint, dof, row) = rows[best.0];
        if !last_resort && !joints.stiffened(joint.index(), dof) {
            passed_over[best.0] = true;
            continue;
        }
        held.push((joint, dof));
        let direction = row.normalize();
        for (_, _, other) in &mut rows {
            // Twice, so that what was taken out stays out.
            for _ in 0..2 {
                *other -= direction * direction.dot(other);
            }
        }
    }
    held.sort_unstable();
    held
}

/// The supports that hold these freedoms.
pub(crate) fn supports(held: &[(JointId, Dof)]) -> Vec<Support> {
    let mut supports: Vec<Support> = Vec::new();
    for (joint, dof) in held {
        if supports.last().is_none_or(|support| support.joint != *joint) {
            supports.push(Support { joint: *joint, holds: DofMap::default() });
        }
        if let Some(support) = supports.last_mut() {
            support.holds[*dof] = Hold::Fixed;
        }
    }
    supports
}

/// What is at each joint.
struct Joints<'e> {
    elements: &'e Elements,
    /// Tube ends: tube and end.
    tubes: Vec<Vec<(usize, usize)>>,
    /// Freedoms that a body holds, rigidly or by a spring.
    borne: Vec<[bool; 6]>,
}

impl<'e> Joints<'e> {
    fn of(model: &Model, elements: &'e Elements) -> Self {
        let mut tubes = vec![Vec::new(); model.joints().len()];
        for (place, element) in elements.tubes().iter().enumerate() {
            for (end, joint) in element.joints.into_iter().enumerate() {
                tubes[joint].push((place, end));
            }
        }
        let mut borne = vec![[false; 6]; model.joints().len()];
        for mount in model.mounts() {
            for (held, bond) in borne[mount.joint.index()].iter_mut().zip(mount.bonds.0) {
                *held |= bond != strutwork_model::model::Bond::Free;
            }
        }
        Self { elements, tubes, borne }
    }

    /// Whether the joint cannot move by itself, along or about anything that has a part in this freedom, without
    /// resistance.
    fn stiffened(&self, joint: usize, dof: Dof) -> bool {
        if self.borne[joint][dof.index()] {
            return true;
        }
        let mut block = Matrix6::zeros();
        for (tube, end) in &self.tubes[joint] {
            block += self.elements.tubes()[*tube].quarters(*end)[0];
        }
        for sheet in self.elements.sheets() {
            if let Some(corner) = sheet.corners.iter().position(|corner| *corner == joint) {
                block += sheet.matrix().fixed_view::<6, 6>(6 * corner, 6 * corner);
            }
        }
        for (i, _) in self.borne[joint].iter().enumerate().filter(|(_, held)| **held) {
            block.row_mut(i).fill(0.0);
            block.column_mut(i).fill(0.0);
        }
        let most = |range: std::ops::Range<usize>| range.map(|i| block[(i, i)]).fold(0.0, f64::max);
        let kinds = [most(0..3), most(3..6)].map(|most| if most > 0.0 { most } else { 1.0 });
        let scaled = Matrix6::from_fn(|i, j| block[(i, j)] / (kinds[i / 3] * kinds[j / 3]).sqrt());
        if !scaled.iter().all(|value| value.is_finite()) {
            // Refused once the stiffness stands; the decomposition would not end on it.
            return true;
        }
        let eigen = SymmetricEigen::new(scaled);
        (0..6).all(|i| eigen.eigenvalues[i] >= LOOSE || eigen.eigenvectors[(dof.index(), i)].abs() < 1e-6)
    }
}

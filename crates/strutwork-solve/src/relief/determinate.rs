//! Freedoms that determine the place of a frame and strain nothing.

use nalgebra::{DMatrix, Matrix6, SymmetricEigen, Vector6};
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
/// What supports hold of a motion of the whole frame below this share is nothing.
const HELD: f64 = 1e-9;
/// An eigenvalue of a joint's own stiffness below this share of the rest is none.
const LOOSE: f64 = 1e-10;

/// Motions of the whole frame that supports leave, square to each other: along x, y, z and about x, y, z through the joints'
/// middle, turns times the frame's size. All six where there are none.
pub(crate) fn loose(model: &Model, supports: &[Support]) -> Vec<Vector6<f64>> {
    let six = || (0..6).map(|i| Vector6::from_fn(|row, _| f64::from(u8::from(row == i))));
    let (size, centre) = (mechanism::size(model), rigid::centre(model));
    let mut held: Vec<Vector6<f64>> = Vec::new();
    for support in supports {
        let map = rigid::matrix(rigid::arm(centre, model.joints()[support.joint].at));
        for dof in Dof::ALL.into_iter().filter(|dof| support.holds[*dof] != Hold::Free) {
            held.push(moved(&map, dof, size, 1.0));
        }
    }
    if held.is_empty() {
        return six().collect();
    }
    let matrix = DMatrix::from_fn(held.len().max(6), 6, |row, column| held.get(row).map_or(0.0, |held| held[column]));
    let parts = matrix.svd(false, true);
    let (values, Some(directions)) = (parts.singular_values, parts.v_t) else { return Vec::new() };
    let left = (0..6).filter(|i| values[*i] <= HELD * values.max());
    left.map(|i| Vector6::from_fn(|row, _| directions[(i, row)])).collect()
}

/// Movement of a freedom under the six rigid motions, turns times the frame's size.
fn moved(map: &Matrix6<f64>, dof: Dof, size: f64, rotation: f64) -> Vector6<f64> {
    let weight = if dof.is_rotation() { rotation * size } else { 1.0 };
    Vector6::from_fn(|i, _| weight * map[(dof.index(), i)] / if i < 3 { 1.0 } else { size })
}

/// Freedoms of joints that determine the place of the frame among its `loose` motions, as many as these: at each step the
/// one that is moved most by those still possible (elimination with row pivoting), the first of equals.
///
/// Freedoms that nothing at the joint stiffens are passed over: holding them holds nothing.
pub(crate) fn determinate(model: &Model, elements: &Elements, loose: &[Vector6<f64>]) -> Vec<(JointId, Dof)> {
    let (size, centre) = (mechanism::size(model), rigid::centre(model));
    let mut rows: Vec<(JointId, Dof, Vector6<f64>)> = Vec::with_capacity(6 * model.joints().len());
    for (id, joint) in model.joints().iter_with_id() {
        let map = rigid::matrix(rigid::arm(centre, joint.at));
        for dof in Dof::ALL {
            let row = moved(&map, dof, size, ROTATION);
            let possible = if loose.len() < 6 { loose.iter().map(|way| way * way.dot(&row)).sum() } else { row };
            rows.push((id, dof, possible));
        }
    }
    let joints = Joints::of(model, elements);
    let mut passed_over = vec![false; rows.len()];
    let mut held: Vec<(JointId, Dof)> = Vec::new();
    let mut last_resort = false;
    while held.len() < loose.len() {
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

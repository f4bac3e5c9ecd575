//! Rigid pieces: their movement at another point, and forces reduced the other way.

use nalgebra::Matrix6;
use strutwork_model::Model;

/// Movement at `arm` (m) from the point whose movement is given: u + θ × r, θ.
pub(crate) fn carried(motion: &[f64; 6], arm: [f64; 3]) -> [f64; 6] {
    let [x, y, z] = cross([motion[3], motion[4], motion[5]], arm);
    [motion[0] + x, motion[1] + y, motion[2] + z, motion[3], motion[4], motion[5]]
}

/// A force and moment at `arm` (m) reduced to the point that the arm starts from: F, M + r × F.
pub(crate) fn reduced(force: &[f64; 6], arm: [f64; 3]) -> [f64; 6] {
    let [x, y, z] = cross(arm, [force[0], force[1], force[2]]);
    [force[0], force[1], force[2], force[3] + x, force[4] + y, force[5] + z]
}

/// [`carried`] as a matrix; its transpose is [`reduced`].
pub(crate) fn matrix([x, y, z]: [f64; 3]) -> Matrix6<f64> {
    let mut map = Matrix6::identity();
    for (row, column, value) in [(0, 4, z), (0, 5, -y), (1, 3, -z), (1, 5, x), (2, 3, y), (2, 4, -x)] {
        map[(row, column)] = value;
    }
    map
}

/// From one point to another.
pub(crate) fn arm(from: [f64; 3], to: [f64; 3]) -> [f64; 3] {
    [to[0] - from[0], to[1] - from[1], to[2] - from[2]]
}

pub(crate) fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// Places of all nodes: the joints', then the bodies' reference points, m.
pub(crate) fn places(model: &Model) -> Vec<[f64; 3]> {
    model.joints().iter().map(|joint| joint.at).chain(model.bodies().iter().map(|body| body.at)).collect()
}

/// Mean of the joints, m.
pub(crate) fn centre(model: &Model) -> [f64; 3] {
    let count = model.joints().len() as f64;
    let mut centre = [0.0; 3];
    for joint in model.joints() {
        centre.iter_mut().zip(joint.at).for_each(|(sum, x)| *sum += x / count);
    }
    centre
}

/// Euclidean length.
pub(crate) fn norm(v: &[f64]) -> f64 {
    v.iter().map(|x| x * x).sum::<f64>().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_matrix_carries_and_its_transpose_reduces() {
        let (v, arm) = ([0.3, -1.0, 0.7, 0.2, 0.5, -0.4], [1.5, -0.2, 0.8]);
        let (map, vector) = (matrix(arm), nalgebra::Vector6::from(v));
        assert!((map * vector - nalgebra::Vector6::from(carried(&v, arm))).norm() < 1e-15);
        assert!((map.tr_mul(&vector) - nalgebra::Vector6::from(reduced(&v, arm))).norm() < 1e-15);
    }
}

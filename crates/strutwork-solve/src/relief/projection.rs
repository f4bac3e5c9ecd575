//! Displacements free of rigid motion.

use nalgebra::{DMatrix, Matrix6, SymmetricEigen, Vector6};
use strutwork_model::Model;

use crate::mechanism;
use crate::recover::Movement;
use crate::rigid;

/// Inertia against a rigid motion below this share of the greatest is none.
const NO_INERTIA: f64 = 1e-9;

/// Takes the rigid motion out of displacements: of all rigid motions the one that leaves the least kinetic energy.
///
/// ```text
/// u ← u − R (RᵀMR)⁻¹ (MR)ᵀ u
/// ```
///
/// R holds the six rigid motions, M·R the loads of the six unit rigid accelerations. A turn that meets no inertia (all mass
/// on its axis) is taken out so that the joints turn and move least.
///
/// # Source
/// Liao (2011), A Study of Inertia Relief Analysis, AIAA 2011-2002 (abstract read); the formula derived.
pub(crate) struct Projection {
    /// Every node's place from the centre, m.
    arms: Vec<[f64; 3]>,
    joints: usize,
    size: f64,
    /// (M R)ᵀ: six values a node, for each rigid motion.
    weights: Vec<Vec<Vector6<f64>>>,
    /// (RᵀMR)⁺.
    inverse: Matrix6<f64>,
    /// Rigid motions without inertia, one a column.
    idle: DMatrix<f64>,
}

impl Projection {
    /// Of a model whose masses are not known.
    pub(crate) fn without_mass(model: &Model) -> Self {
        let none = vec![[0.0; 6]; model.joints().len() + model.bodies().len()];
        Self::of(model, rigid::centre(model), &std::array::from_fn(|_| none.clone()))
    }

    /// From the forces M·R that six unit rigid accelerations about `centre` (m) need, each over all nodes.
    pub(crate) fn of(model: &Model, centre: [f64; 3], loads: &[Vec<[f64; 6]>; 6]) -> Self {
        let arms: Vec<[f64; 3]> = rigid::places(model).into_iter().map(|at| rigid::arm(centre, at)).collect();
        let size = mechanism::size(model);
        // A turn counts as the angle times the size.
        let scale = |motion: usize| if motion < 3 { 1.0 } else { 1.0 / size };
        let weights: Vec<Vec<Vector6<f64>>> = loads
            .iter()
            .enumerate()
            .map(|(motion, nodes)| nodes.iter().map(|force| Vector6::from(*force) * scale(motion)).collect())
            .collect();
        let mut projection = Self {
            arms,
            joints: model.joints().len(),
            size,
            weights,
            inverse: Matrix6::zeros(),
            idle: DMatrix::zeros(6, 0),
        };
        let inertia: Matrix6<f64> = Matrix6::from_fn(|i, j| {
            let unit = Vector6::ith(j, 1.0);
            (projection.weights[i].iter().zip(&projection.arms))
                .map(|(w, arm)| w.dot(&projection.rigid(&unit, *arm)))
                .sum()
        });
        if !inertia.iter().all(|value| value.is_finite()) {
            // Refused with the loads; the decomposition would not end on it.
            return projection;
        }
        let eigen = SymmetricEigen::new((inertia + inertia.transpose()) / 2.0);
        let most = eigen.eigenvalues.max();
        let has_inertia = |i: &usize| eigen.eigenvalues[*i] > NO_INERTIA * most;
        let (moving, idle): (Vec<usize>, Vec<usize>) = (0..6).partition(has_inertia);
        for i in moving {
            let v = eigen.eigenvectors.column(i);
            projection.inverse += v * v.transpose() / eigen.eigenvalues[i];
        }
        projection.idle = DMatrix::from_fn(6, idle.len(), |row, column| eigen.eigenvectors[(row, idle[column])]);
        projection
    }

    /// Forces over the nodes that move the frame as one piece: M R, turns over the frame's size; and what each brings of the six
    /// accelerations, one column each. Motions that meet no inertia are moved by the joints' places and turns instead, as
    /// [`Self::apply`] takes them out, and bring none.
    pub(crate) fn movers(&self) -> ([Vec<[f64; 6]>; 6], Matrix6<f64>) {
        let product = &self.idle * self.idle.transpose();
        let idle: Matrix6<f64> = product.fixed_view::<6, 6>(0, 0).into_owned();
        let moved = Matrix6::identity() - idle;
        let even = |motion: usize, node: usize| {
            if node >= self.joints {
                return Vector6::zeros();
            }
            let values = self.rigid(&Vector6::ith(motion, 1.0), self.arms[node]);
            Vector6::from_fn(|i, _| values[i] * if i < 3 { 1.0 } else { self.size * self.size })
        };
        let forces = std::array::from_fn(|column| {
            let of_node = |node: usize| {
                let sum = (0..6).fold(Vector6::zeros(), |sum, motion| {
                    sum + self.weights[motion][node] * moved[(motion, column)]
                        + even(motion, node) * idle[(motion, column)]
                });
                sum.into()
            };
            (0..self.arms.len()).map(of_node).collect()
        });
        let turn = |i: usize| if i < 3 { 1.0 } else { 1.0 / self.size };
        (forces, Matrix6::from_fn(|i, j| turn(i) * moved[(i, j)]))
    }

    /// Takes the rigid motion out.
    pub(crate) fn apply(&self, movement: &mut Movement) {
        let along = Vector6::from_fn(|i, _| {
            self.weights[i].iter().enumerate().map(|(node, w)| w.dot(&Vector6::from(*movement.node(node)))).sum::<f64>()
        });
        self.take(&(self.inverse * along), movement);
        if self.idle.ncols() > 0 {
            // Least squares over the joints, turns times the size.
            let weight = |row: usize| if row < 3 { 1.0 } else { self.size };
            let mut normal = Matrix6::zeros();
            let mut right = Vector6::zeros();
            for node in 0..self.joints {
                let map = Matrix6::from_fn(|i, j| {
                    let scale = if j < 3 { 1.0 } else { 1.0 / self.size };
                    weight(i) * rigid::matrix(self.arms[node])[(i, j)] * scale
                });
                let values = movement.node(node);
                normal += map.tr_mul(&map);
                right += map.tr_mul(&Vector6::from_fn(|i, _| weight(i) * values[i]));
            }
            let normal = self.idle.tr_mul(&(normal * &self.idle));
            if let Some(factor) = normal.cholesky() {
                let shares = &self.idle * factor.solve(&self.idle.tr_mul(&right));
                self.take(&Vector6::from_fn(|i, _| shares[i]), movement);
            }
        }
    }

    /// Movement at an arm under a rigid motion whose turns are times the size.
    fn rigid(&self, motion: &Vector6<f64>, arm: [f64; 3]) -> Vector6<f64> {
        let scaled: [f64; 6] = std::array::from_fn(|i| if i < 3 { motion[i] } else { motion[i] / self.size });
        rigid::carried(&scaled, arm).into()
    }

    fn take(&self, motion: &Vector6<f64>, movement: &mut Movement) {
        for node in 0..self.arms.len() {
            let taken = self.rigid(motion, self.arms[node]);
            movement.node_mut(node).iter_mut().zip(taken.iter()).for_each(|(value, part)| *value -= part);
        }
    }
}

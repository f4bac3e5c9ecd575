//! A bay as a plane frame by itself: its tubes and panels, loaded by the shear that its edges pass on.

use nalgebra::{DMatrix, DVector, SMatrix, Vector2, Vector3};
use strutwork_model::ids::Id;
use strutwork_model::{JointId, Model};

use super::outline::Outline;
use super::shear_state::ShearState;
use crate::elements::{Element, Sheet};

/// A pivot or mode this soft beside the diagonal means that something can move without resistance.
const LOOSE: f64 = 1e-10;
/// Share of the load along free motions above which it meets no resistance.
const LOADED: f64 = 1e-9;

/// Tubes and panels of one bay, free to move in its plane alone.
#[derive(Debug)]
pub(super) struct PlaneFrame<'m> {
    model: &'m Model,
    outline: Outline,
    state: ShearState,
    /// What rotations are multiplied with, so that all freedoms are lengths, m.
    size: f64,
    /// The joints, as indices, in the order in which they came; the corners first.
    joints: Vec<usize>,
    /// Stiffness of tubes, N/m: joints by their place in `joints`, two movements and the scaled rotation each.
    tubes: Vec<([usize; 2], SMatrix<f64, 6, 6>)>,
    /// Stiffness of panels, N/m: likewise, two movements each.
    panels: Vec<(Vec<usize>, DMatrix<f64>)>,
}

impl<'m> PlaneFrame<'m> {
    /// A frame of four corners and nothing between them.
    pub(super) fn new(model: &'m Model, outline: Outline, corners: [JointId; 4]) -> Self {
        Self {
            model,
            state: ShearState::of(&outline.corners),
            size: outline.area().sqrt(),
            outline,
            joints: corners.map(Id::index).to_vec(),
            tubes: Vec::new(),
            panels: Vec::new(),
        }
    }

    /// Adds a tube, rigidly held to the plane: its stiffness seen by its joints, ends and releases included.
    pub(super) fn add_tube(&mut self, element: &Element) {
        let [x, y, normal] = self.outline.axes;
        let mut in_plane = SMatrix::<f64, 12, 6>::zeros();
        for end in 0..2 {
            for (column, axis) in [x, y].into_iter().enumerate() {
                in_plane.fixed_view_mut::<3, 1>(6 * end, 3 * end + column).copy_from(&axis);
            }
            in_plane.fixed_view_mut::<3, 1>(6 * end + 3, 3 * end + 2).copy_from(&(normal / self.size));
        }
        let stiffness = in_plane.tr_mul(&(element.global_stiffness() * in_plane));
        let joints = element.joints.map(|joint| self.place_of(joint));
        self.tubes.push((joints, stiffness));
    }

    /// Adds a panel whose corners are joints of the bay.
    pub(super) fn add_panel(&mut self, sheet: &Sheet) {
        let corners = sheet.corners.len();
        let axes = self.outline.axes;
        let in_plane =
            DMatrix::from_fn(3 * corners, 2 * corners, |i, j| if i / 3 == j / 2 { axes[j % 2][i % 3] } else { 0.0 });
        let stiffness = in_plane.tr_mul(&(sheet.panel.stiffness() * &in_plane));
        let joints = sheet.corners.iter().map(|joint| self.place_of(*joint)).collect();
        self.panels.push((joints, stiffness));
    }

    fn place_of(&mut self, joint: usize) -> usize {
        self.joints.iter().position(|known| *known == joint).unwrap_or_else(|| {
            self.joints.push(joint);
            self.joints.len() - 1
        })
    }

    /// Shear stiffness as the G·t of a skin that would give as much under the same edge forces, N/m; 0 where the frame folds.
    ///
    /// ```text
    /// (G·t)_eff = c_skin / fᵀ K⁻¹ f     c_skin: twice the energy of the same state in a skin of G·t = 1 N/m
    /// ```
    pub(super) fn shear_stiffness(&self) -> f64 {
        let freedoms = 3 * self.joints.len();
        let mut k = DMatrix::zeros(freedoms, freedoms);
        for (joints, stiffness) in &self.tubes {
            for (row, a) in joints.iter().enumerate() {
                for (column, b) in joints.iter().enumerate() {
                    let mut view = k.fixed_view_mut::<3, 3>(3 * a, 3 * b);
                    view += stiffness.fixed_view::<3, 3>(3 * row, 3 * column);
                }
            }
        }
        for (joints, stiffness) in &self.panels {
            for (row, a) in joints.iter().enumerate() {
                for (column, b) in joints.iter().enumerate() {
                    let mut view = k.fixed_view_mut::<2, 2>(3 * a, 3 * b);
                    view += stiffness.fixed_view::<2, 2>(2 * row, 2 * column);
                }
            }
        }
        let mut load = DVector::zeros(freedoms);
        for (corner, force) in self.state.corner_forces.iter().enumerate() {
            load.fixed_rows_mut::<2>(3 * corner).copy_from(force);
        }
        let Some(give) = self.give(k, load) else { return 0.0 };
        self.state.in_unit_skin / give
    }

    /// fᵀ K⁻¹ f of a load that balances itself; `None` where it meets no resistance.
    ///
    /// All freedoms are scaled to a unit diagonal, so that soft corners beside stiff edges are not taken for loose ones.
    fn give(&self, mut k: DMatrix<f64>, mut load: DVector<f64>) -> Option<f64> {
        let diagonal = k.diagonal();
        let typical = diagonal.max();
        let scale = diagonal.map(|stiffness| 1.0 / (if stiffness > 0.0 { stiffness } else { typical }).sqrt());
        for (i, own) in scale.iter().enumerate() {
            k.column_mut(i).component_mul_assign(&scale);
            k.column_mut(i).scale_mut(*own);
        }
        load.component_mul_assign(&scale);
        for motion in self.rigid_motions(&scale) {
            k.ger(1.0, &motion, &motion, 1.0);
        }
        if let Some(factor) = k.clone().cholesky()
            && factor.l_dirty().diagonal().iter().all(|pivot| pivot * pivot > LOOSE)
        {
            return Some(load.dot(&factor.solve(&load)));
        }
        let modes = k.symmetric_eigen();
        let mut give = 0.0;
        for (value, mode) in modes.eigenvalues.iter().zip(modes.eigenvectors.column_iter()) {
            let along = mode.dot(&load);
            if *value > LOOSE {
                give += along * along / value;
            } else if along.abs() > LOADED * load.norm() {
                return None;
            }
        }
        Some(give)
    }

    /// The three rigid motions in the plane, over the scaled freedoms, orthonormal.
    fn rigid_motions(&self, scale: &DVector<f64>) -> Vec<DVector<f64>> {
        let freedoms = 3 * self.joints.len();
        let turn_of = |joint: &usize| {
            let at: Vector3<f64> = self.model.joints()[JointId::new(*joint)].at.into();
            let from = at - self.outline.centre;
            Vector2::new(-from.dot(&self.outline.axes[1]), from.dot(&self.outline.axes[0]))
        };
        let turn: Vec<f64> =
            self.joints.iter().flat_map(|joint| [turn_of(joint).x, turn_of(joint).y, self.size]).collect();
        let slide = |axis: usize| DVector::from_fn(freedoms, |i, _| f64::from(u8::from(i % 3 == axis)));
        let mut motions: Vec<DVector<f64>> = Vec::with_capacity(3);
        for mut motion in [slide(0), slide(1), DVector::from_vec(turn)] {
            motion.component_div_assign(scale);
            for done in &motions {
                let along = done.dot(&motion);
                motion.axpy(-along, done, 1.0);
            }
            let norm = motion.norm();
            motions.push(motion / norm);
        }
        motions
    }
}

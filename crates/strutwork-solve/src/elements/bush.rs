//! The springs of one mount, between its joint and the point of the body that is there.

use nalgebra::{DMatrix, Matrix6};
use strutwork_model::ids::Id;
use strutwork_model::model::Bond;
use strutwork_model::{Model, MountId};

use crate::rigid;

/// A mount with a spring in at least one freedom.
#[derive(Debug, Clone)]
pub(crate) struct Bush {
    /// Node of the joint, node of the body.
    pub nodes: [usize; 2],
    /// Stiffnesses, N/m and N·m/rad, global axes; 0 where the mount has no spring.
    pub stiffness: [f64; 6],
    /// From the body's reference point to the joint, m.
    pub arm: [f64; 3],
}

impl Bush {
    /// The springs of a mount, if it has any.
    pub(super) fn of(model: &Model, id: MountId) -> Option<Self> {
        let mount = &model.mounts()[id];
        let stiffness = mount.bonds.0.map(|bond| match bond {
            Bond::Spring(stiffness) => stiffness,
            Bond::Rigid | Bond::Free => 0.0,
        });
        (stiffness != [0.0; 6]).then(|| Self {
            nodes: [mount.joint.index(), model.joints().len() + mount.body.index()],
            stiffness,
            arm: rigid::arm(model.bodies()[mount.body].at, model.joints()[mount.joint].at),
        })
    }

    /// Stretch of the springs, body less joint, from the movements of joint and body.
    pub(crate) fn stretch(&self, joint: &[f64; 6], body: &[f64; 6]) -> [f64; 6] {
        let point = rigid::carried(body, self.arm);
        std::array::from_fn(|dof| point[dof] - joint[dof])
    }

    /// Forces that the springs exert on the joint: k · stretch.
    pub(crate) fn on_joint(&self, joint: &[f64; 6], body: &[f64; 6]) -> [f64; 6] {
        let stretch = self.stretch(joint, body);
        std::array::from_fn(|dof| self.stiffness[dof] * stretch[dof])
    }

    /// Stiffness over the freedoms of joint and body.
    pub(crate) fn matrix(&self) -> DMatrix<f64> {
        // Stretch = [−1, carry] · (joint, body).
        let mut stretch = DMatrix::zeros(6, 12);
        stretch.view_mut((0, 0), (6, 6)).copy_from(&-Matrix6::identity());
        stretch.view_mut((0, 6), (6, 6)).copy_from(&rigid::matrix(self.arm));
        let weighted = DMatrix::from_fn(6, 12, |row, column| self.stiffness[row] * stretch[(row, column)]);
        stretch.tr_mul(&weighted)
    }
}

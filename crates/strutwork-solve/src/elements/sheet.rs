//! The mechanics of one panel, and the joints at its corners.

use nalgebra::DMatrix;
use strutwork_element::Panel;
use strutwork_element::panel::Skin;
use strutwork_model::ids::Id;
use strutwork_model::{Model, PanelId};

/// A panel over the movements of its corners.
#[derive(Debug, Clone)]
pub(crate) struct Sheet {
    /// Joints at the corners, as indices, in order round the edge.
    pub corners: Vec<usize>,
    /// Its mechanics.
    pub panel: Panel,
}

impl Sheet {
    pub(super) fn of(model: &Model, id: PanelId) -> Self {
        let row = &model.panels()[id];
        let material = &model.materials()[row.material];
        let places: Vec<[f64; 3]> = row.joints.iter().map(|joint| model.joints()[*joint].at).collect();
        let skin = Skin {
            thickness: row.thickness,
            youngs: material.youngs,
            shear: material.shear,
            fixing: row.fixing.map_or(0.0, |fixing| model.fixings()[fixing].kind.compliance()),
        };
        let panel = Panel::new(&places, skin).expect("bug: validation refuses corners that make no panel");
        Self { corners: row.joints.iter().map(|joint| joint.index()).collect(), panel }
    }

    /// Forces that the joints exert on the corners, from the joints' movements; a panel takes no moments.
    pub(crate) fn joint_forces(&self, moved: &[[f64; 6]]) -> Vec<[f64; 6]> {
        self.panel.corner_forces(&displacements(moved)).into_iter().map(|[x, y, z]| [x, y, z, 0.0, 0.0, 0.0]).collect()
    }

    /// Stiffness over all six freedoms of each corner.
    pub(crate) fn matrix(&self) -> DMatrix<f64> {
        let k = self.panel.stiffness();
        let n = 6 * self.corners.len();
        let place = |i: usize| (i % 6 < 3).then_some(i / 6 * 3 + i % 6);
        DMatrix::from_fn(n, n, |i, j| place(i).zip(place(j)).map_or(0.0, |(i, j)| k[(i, j)]))
    }
}

/// The displacements of movements.
pub(crate) fn displacements(moved: &[[f64; 6]]) -> Vec<[f64; 3]> {
    moved.iter().map(|[x, y, z, ..]| [*x, *y, *z]).collect()
}

//! The view that shows a sketch best.

use strutwork_model::model::Hold;
use strutwork_model::{Dof, Model};

use super::{Sketched, loads};
use crate::figures::view::View;

/// The view, and the plane that it shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Plane {
    /// The view.
    pub(super) view: View,
    /// Axis across the sheet where everything lies in one plane: 0 to 2.
    pub(super) normal: Option<usize>,
}

/// Flat views with the axis across them, the one preferred first.
const FLAT: [(View, usize); 3] = [(View::Side, 1), (View::Plan, 2), (View::Front, 0)];

impl Plane {
    /// The plane in which frame and loads lie; without one, all three axes are shown.
    pub(super) fn of(sketched: &Sketched<'_>) -> Self {
        let spans = spans(sketched.model);
        let least = 1e-6 * spans.iter().fold(0.0_f64, |most, span| most.max(*span));
        let acting = loads::vectors(sketched);
        let lies_in = |normal: usize| {
            spans[normal] <= least
                && acting.iter().all(|(force, moment)| {
                    let across =
                        |size: f64, all: &[f64; 3]| size.abs() > 1e-9 * all.iter().map(|x| x.abs()).sum::<f64>();
                    let turned = (0..3).filter(|axis| *axis != normal).any(|axis| across(moment[axis], moment));
                    !across(force[normal], force) && !turned
                })
        };
        if sketched.model.vehicle().is_some() {
            return Self { view: View::Isometric, normal: None };
        }
        // Of several planes the one to which most joints are held; of these the first.
        let held = |normal: usize| {
            let supports = sketched.model.supports().iter();
            supports.filter(|support| support.holds[Dof::ALL[normal]] == Hold::Fixed).count()
        };
        let planes = FLAT.into_iter().filter(|(_, normal)| lies_in(*normal));
        let flat = planes.reduce(|best, next| if held(next.1) > held(best.1) { next } else { best });
        flat.map_or(Self { view: View::Isometric, normal: None }, |(view, normal)| Self { view, normal: Some(normal) })
    }

    /// A direction of the frame on the sheet: px to the right and down for one metre at scale 1.
    pub(super) fn on_sheet(self, direction: [f64; 3]) -> (f64, f64) {
        let [right, up, _] = self.view.project(direction);
        (right, -up)
    }

    /// The two axes in the plane of the sheet, to the right and up; none in the isometric view.
    pub(super) fn axes(self) -> Option<[usize; 2]> {
        match self.view {
            View::Side => Some([0, 2]),
            View::Plan => Some([0, 1]),
            View::Front => Some([1, 2]),
            View::Isometric => None,
        }
    }
}

/// Extent of joints, bodies and masses along each axis, m.
fn spans(model: &Model) -> [f64; 3] {
    let joints = model.joints().iter().map(|joint| joint.at);
    let places: Vec<[f64; 3]> = joints
        .chain(model.bodies().iter().map(|body| body.at))
        .chain(model.masses().iter().map(|mass| mass.at))
        .chain(model.tubes().ids().flat_map(|tube| model.tube_ends(tube)))
        .collect();
    [0, 1, 2].map(|axis| {
        let low = places.iter().map(|at| at[axis]).fold(f64::INFINITY, f64::min);
        let high = places.iter().map(|at| at[axis]).fold(f64::NEG_INFINITY, f64::max);
        if low <= high { high - low } else { 0.0 }
    })
}

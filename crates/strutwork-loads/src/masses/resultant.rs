//! The resultant of a load case.

use nalgebra::Vector3;
use strutwork_element::LocalAxes;
use strutwork_model::TubeId;
use strutwork_model::model::{Axes, Model};

use crate::case::LoadCase;

/// Sum of everything applied in a case (not reactions), reduced to the origin.
///
/// # Units and shapes
/// fx, fy, fz in N; mx, my, mz in N·m; global axes. Temperatures and settlements have no resultant.
pub fn resultant(case: &LoadCase, model: &Model) -> [f64; 6] {
    resultant_about(case, model, [0.0; 3])
}

/// Sum of everything applied in a case (not reactions), reduced to a point. Loads along tubes are integrated exactly.
///
/// ```text
/// w(s) = w₁ + (w₂ − w₁)s, r(s) = r₁ + s d:   F = L (w₁ + w₂)/2,   M = L [ r₁ × (w₁ + w₂)/2 + d × (w₁/6 + w₂/3) ]
/// ```
///
/// # Units and shapes
/// `point` in m; fx, fy, fz in N; mx, my, mz in N·m; global axes.
///
/// # Source
/// Derived.
pub fn resultant_about(case: &LoadCase, model: &Model, point: [f64; 3]) -> [f64; 6] {
    Total::of(case, model, point).sum()
}

/// A resultant with the sizes of what was summed, against which rounding is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Total {
    point: Vector3<f64>,
    pub(crate) force: Vector3<f64>,
    pub(crate) moment: Vector3<f64>,
    /// Sum of the magnitudes of all forces, N.
    pub(crate) force_size: f64,
    /// Sum of the magnitudes of all moments and of forces times their distance from the point, N·m.
    pub(crate) moment_size: f64,
}

impl Total {
    /// Of nothing, about a point.
    pub(crate) fn about(point: [f64; 3]) -> Self {
        Self {
            point: Vector3::from(point),
            force: Vector3::zeros(),
            moment: Vector3::zeros(),
            force_size: 0.0,
            moment_size: 0.0,
        }
    }

    /// Of everything applied in a case.
    pub(crate) fn of(case: &LoadCase, model: &Model, point: [f64; 3]) -> Self {
        let mut total = Self::about(point);
        for load in &case.joint_loads {
            total.add(load.load.0, model.joints()[load.joint].at);
        }
        for load in &case.body_loads {
            total.add(load.load.0, model.bodies()[load.body].at);
        }
        for load in &case.tube_loads {
            let span = Span::of(model, load.tube);
            let (w1, w2) = (span.global(load.axes, load.from), span.global(load.axes, load.to));
            let (length, mean) = (span.length(), (w1 + w2) / 2.0);
            let arm = span.from - total.point;
            total.force += mean * length;
            total.moment += (arm.cross(&mean) + span.along.cross(&(w1 / 6.0 + w2 / 3.0))) * length;
            let size = length * (w1.norm() + w2.norm()) / 2.0;
            total.force_size += size;
            total.moment_size += size * (arm.norm() + length);
        }
        for load in &case.tube_point_loads {
            let span = Span::of(model, load.tube);
            let [fx, fy, fz] = span.global(load.axes, load.force).into();
            let [mx, my, mz] = span.global(load.axes, load.moment).into();
            total.add([fx, fy, fz, mx, my, mz], (span.from + span.along * load.at).into());
        }
        total
    }

    /// Adds a force and a moment at a place.
    pub(crate) fn add(&mut self, [fx, fy, fz, mx, my, mz]: [f64; 6], at: [f64; 3]) {
        let (force, moment) = (Vector3::new(fx, fy, fz), Vector3::new(mx, my, mz));
        let arm = Vector3::from(at) - self.point;
        self.force += force;
        self.moment += moment + arm.cross(&force);
        self.force_size += force.norm();
        self.moment_size += moment.norm() + arm.norm() * force.norm();
    }

    /// Forces, then moments.
    pub(crate) fn sum(&self) -> [f64; 6] {
        [self.force.x, self.force.y, self.force.z, self.moment.x, self.moment.y, self.moment.z]
    }

    /// Whether it is zero but for so large a share of the sizes.
    pub(crate) fn vanishes(&self, share: f64) -> bool {
        self.force.norm() <= share * self.force_size && self.moment.norm() <= share * self.moment_size
    }
}

/// A tube's place and axes.
struct Span {
    from: Vector3<f64>,
    along: Vector3<f64>,
    axes: Option<LocalAxes>,
}

impl Span {
    fn of(model: &Model, tube: TubeId) -> Self {
        let [from, to] = model.tube_ends(tube);
        Self {
            from: Vector3::from(from),
            along: Vector3::from(to) - Vector3::from(from),
            // Validation refuses a tube without length; such a tube would carry nothing here either.
            axes: LocalAxes::between(from, to, model.tubes()[tube].roll).ok(),
        }
    }

    fn length(&self) -> f64 {
        self.along.norm()
    }

    fn global(&self, axes: Axes, vector: [f64; 3]) -> Vector3<f64> {
        match (axes, &self.axes) {
            (Axes::Local, Some(local)) => local.rotation.tr_mul(&Vector3::from(vector)),
            _ => Vector3::from(vector),
        }
    }
}

//! Gravity and inertia: what acts on every tube and every mass at once, and the balance of a free vehicle.

use std::ops::Deref;

use nalgebra::{Matrix3, SymmetricEigen, Vector3};
use strutwork_model::model::Model;
use strutwork_model::units::{STANDARD_GRAVITY, to_deg};

use super::{CaseBuilder, all_finite, finite};
use crate::body::{BodyLoads, body_loads};
use crate::error::LoadError;
use crate::masses::resultant_about;

/// A principal inertia below this share of the greatest counts as none: all mass lies on one line.
const NO_INERTIA: f64 = 1e-9;

/// A moment below this share of the loads' size (sum of magnitudes times the extent of the masses) needs no balance.
const BALANCED: f64 = 1e-9;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// A body force, m/s², on every tube and every mass.
    ///
    /// # Errors
    /// [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`].
    pub fn act(&mut self, field: [f64; 3]) -> Result<(), LoadError> {
        all_finite("a body force", &field)?;
        self.need_mass("a body force")?;
        self.field = [0, 1, 2].map(|axis| self.field[axis] + field[axis]);
        Ok(())
    }

    /// Gravity along −z, times a factor, on every tube and every mass.
    ///
    /// # Errors
    /// [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`].
    pub fn gravity(&mut self, times: f64) -> Result<(), LoadError> {
        self.act([0.0, 0.0, -STANDARD_GRAVITY * times])?;
        let weight = self.mass.total * STANDARD_GRAVITY * times;
        self.step(&format!("Weight of tubes and masses, along −z, times {times}."), weight, "N")
    }

    /// The inertia of a steady acceleration of the whole vehicle, m/s²: the body force −a (d'Alembert).
    ///
    /// # Errors
    /// [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`].
    pub fn accelerate(&mut self, acceleration: [f64; 3]) -> Result<(), LoadError> {
        self.act(acceleration.map(|a| -a))?;
        let total = self.case.derivation.acceleration.get_or_insert([0.0; 6]);
        for (sum, part) in total.iter_mut().zip(acceleration) {
            *sum += part;
        }
        for (axis, value) in ["x", "y", "z"].into_iter().zip(acceleration) {
            if value != 0.0 {
                let text = format!("Inertia of the acceleration a_{axis}, as −m·a on every tube and mass.");
                self.step(&text, value / STANDARD_GRAVITY, "g")?;
            }
        }
        Ok(())
    }

    /// Brings the total of everything applied to zero by the inertia of six rigid-body accelerations (d'Alembert), as a
    /// free vehicle does by itself. Returns those accelerations; they are added to the case's.
    ///
    /// With F and M the resultant about the centre of gravity:
    /// ```text
    /// a = F/m,   α = I⁻¹ M,   body force at r from the centre of gravity:  −(a + α × r)
    /// ```
    /// Call it when everything else acts.
    ///
    /// # Units and shapes
    /// Returned: a_x, a_y, a_z in m/s², α_x, α_y, α_z in rad/s².
    ///
    /// # Assumes
    /// The vehicle is at rest in the mean: no gyroscopic terms.
    ///
    /// # Errors
    /// [`LoadError::NoMass`], [`LoadError::NoDensity`]; [`LoadError::NoInertia`] where a moment acts about a line that
    /// carries all the mass; [`LoadError::NotFinite`] where the loads overflow.
    ///
    /// # Source
    /// L. Liao, A Study of Inertia Relief Analysis, AIAA 2011-2002 (abstract: applied loads balanced by rigid-body
    /// inertia); the equations are derived.
    pub fn balance(&mut self) -> Result<[f64; 6], LoadError> {
        self.need_mass("balance by inertia")?;
        let (force, moment) = self.unbalanced();
        let acceleration = force / self.mass.total;
        let turn = self.angular(moment)?;
        let found = [acceleration.x, acceleration.y, acceleration.z, turn.x, turn.y, turn.z];
        all_finite("an acceleration that balances the case", &found)?;
        for axis in 0..3 {
            self.field[axis] -= found[axis];
            self.turn[axis] += found[axis + 3];
        }
        let total = self.case.derivation.acceleration.get_or_insert([0.0; 6]);
        for (sum, part) in total.iter_mut().zip(found) {
            *sum += part;
        }
        self.explain(
            "What is left over is balanced by the vehicle's own inertia: a = F/m and α = I⁻¹·M about the centre of \
             gravity, as −m·(a + α × r) on every tube and mass. Tubes count as thin rods, masses as points.",
        );
        for (axis, value) in ["x", "y", "z"].into_iter().zip(&found) {
            self.step(&format!("Acceleration a_{axis} that balances."), value / STANDARD_GRAVITY, "g")?;
        }
        for (axis, value) in ["x", "y", "z"].into_iter().zip(&found[3..]) {
            self.step(&format!("Angular acceleration α_{axis} that balances."), to_deg(*value), "deg/s²")?;
        }
        Ok(found)
    }

    /// Resultant about the centre of gravity of everything applied so far, body forces included.
    fn unbalanced(&self) -> (Vector3<f64>, Vector3<f64>) {
        let [fx, fy, fz, mx, my, mz] = resultant_about(&self.case, &self.model, self.mass.centre);
        // The loads along tubes integrate to exactly this: forces m·b, moments −I·α, as the centre is the mass's own.
        let force = Vector3::new(fx, fy, fz) + Vector3::from(self.field) * self.mass.total;
        let moment = Vector3::new(mx, my, mz) - self.inertia() * Vector3::from(self.turn);
        (force, moment)
    }

    fn inertia(&self) -> Matrix3<f64> {
        Matrix3::from_fn(|row, column| self.mass.inertia[row][column])
    }

    /// α = I⁻¹ M; zero about an axis without inertia, where no moment acts about it.
    fn angular(&self, moment: Vector3<f64>) -> Result<Vector3<f64>, LoadError> {
        let eigen = SymmetricEigen::new(self.inertia());
        let greatest = eigen.eigenvalues.max();
        let negligible = BALANCED * self.moment_size();
        let mut turn = Vector3::zeros();
        for (inertia, axis) in eigen.eigenvalues.iter().zip(eigen.eigenvectors.column_iter()) {
            let part = axis.dot(&moment);
            if *inertia > NO_INERTIA * greatest {
                turn += axis * (part / inertia);
            } else if part.abs() > negligible {
                return Err(LoadError::NoInertia { axis: [axis[0], axis[1], axis[2]], moment: part.abs() });
            }
        }
        Ok(turn)
    }

    /// The size of the moments in play, N·m: what rounding is measured against.
    pub(super) fn moment_size(&self) -> f64 {
        let centre = Vector3::from(self.mass.centre);
        let at_joints: f64 = self
            .case
            .joint_loads
            .iter()
            .map(|load| {
                let [fx, fy, fz, mx, my, mz] = load.load.0;
                let arm = (Vector3::from(self.model.joints()[load.joint].at) - centre).norm();
                arm * (fx.abs() + fy.abs() + fz.abs()) + mx.abs() + my.abs() + mz.abs()
            })
            .sum();
        let on_tubes: f64 = self
            .case
            .tube_loads
            .iter()
            .map(|load| {
                let row = &self.model.tubes()[load.tube];
                let arm = (Vector3::from(self.model.joints()[row.from].at) - centre).norm();
                let length = self.model.length(load.tube);
                (arm + length) * length * load.from.iter().chain(&load.to).map(|w| w.abs()).sum::<f64>()
            })
            .sum();
        let on_points: f64 = self
            .case
            .tube_point_loads
            .iter()
            .map(|load| {
                let row = &self.model.tubes()[load.tube];
                let arm = (Vector3::from(self.model.joints()[row.from].at) - centre).norm();
                (arm + self.model.length(load.tube)) * load.force.iter().map(|f| f.abs()).sum::<f64>()
                    + load.moment.iter().map(|m| m.abs()).sum::<f64>()
            })
            .sum();
        at_joints + on_tubes + on_points
    }

    /// Everything that has mass must have a known mass.
    pub(super) fn need_mass(&self, wanted: &'static str) -> Result<(), LoadError> {
        finite("the total mass", self.mass.total)?;
        if self.mass.total <= 0.0 {
            return Err(LoadError::NoMass { wanted });
        }
        match self.mass.without_density.first() {
            None => Ok(()),
            Some(&material) => {
                let material = self.model.materials()[material].name.clone();
                Err(LoadError::NoDensity { material })
            }
        }
    }

    /// The loads of gravity and inertia together, one along each tube.
    pub(super) fn body_loads(&self) -> Option<BodyLoads> {
        if self.field == [0.0; 3] && self.turn == [0.0; 3] {
            return None;
        }
        let (field, turn) = (Vector3::from(self.field), Vector3::from(self.turn));
        let centre = Vector3::from(self.mass.centre);
        Some(body_loads(&self.model, |at| (field - turn.cross(&(Vector3::from(at) - centre))).into()))
    }
}

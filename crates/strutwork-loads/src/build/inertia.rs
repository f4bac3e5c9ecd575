//! Gravity and inertia: what acts on everything that has mass at once, and the balance of a free vehicle.

use std::ops::Deref;

use nalgebra::{Matrix3, SymmetricEigen, Vector3};
use strutwork_model::model::{Model, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;

use super::{CaseBuilder, all_finite};
use crate::error::LoadError;
use crate::masses::Total;

/// A principal inertia below this share of the greatest counts as none: all mass lies on one line.
const NO_INERTIA: f64 = 1e-9;

/// A resultant below this share of the sum of magnitudes is rounding: it needs no acceleration.
const ROUNDING: f64 = 1e-12;

/// The balance is worked out anew this often at most: where weight and inertia cancel (free fall), what is left of the loads
/// is rounding beside the weight, and not beside itself.
const PASSES: usize = 3;

/// A moment about an axis without inertia below this share of the sum of magnitudes needs no balance.
const NEGLIGIBLE: f64 = 1e-9;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// A body force, m/s², on everything that has mass.
    ///
    /// # Errors
    /// [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`].
    pub fn act(&mut self, field: [f64; 3]) -> Result<(), LoadError> {
        all_finite("a body force", &field)?;
        self.need_mass("a body force")?;
        self.pull(field);
        Ok(())
    }

    /// A body force, m/s², on what has mass, whether or not all has.
    pub(crate) fn pull(&mut self, field: [f64; 3]) {
        let story = &mut self.case.derivation.body_force;
        for ((sum, told), part) in self.field.force.iter_mut().zip(story).zip(field) {
            *sum += part;
            *told += part;
        }
    }

    /// Gravity along −z, times a factor, on everything that has mass.
    ///
    /// # Errors
    /// [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`].
    pub fn gravity(&mut self, times: f64) -> Result<(), LoadError> {
        self.act([0.0, 0.0, -STANDARD_GRAVITY * times])?;
        let weight = self.mass().total * STANDARD_GRAVITY * times;
        self.step_of_account(&format!("Weight of everything that has mass, along −z, times {times}."), weight, "N")
    }

    /// The inertia of a steady acceleration of the whole vehicle, m/s²: the body force −a (d'Alembert).
    ///
    /// # Errors
    /// [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`].
    pub fn accelerate(&mut self, acceleration: [f64; 3]) -> Result<(), LoadError> {
        let before = self.case.derivation.body_force;
        self.act(acceleration.map(|a| -a))?;
        self.case.derivation.body_force = before;
        let [x, y, z] = acceleration;
        self.note_acceleration([x, y, z, 0.0, 0.0, 0.0]);
        for (axis, value) in ["x", "y", "z"].into_iter().zip(acceleration) {
            if value != 0.0 {
                let text = format!("Inertia of the acceleration a_{axis}, as −m·a on everything that has mass.");
                self.step(&text, value / STANDARD_GRAVITY, "g")?;
            }
        }
        Ok(())
    }

    /// Brings the total of everything applied to zero by the inertia of six rigid-body accelerations (d'Alembert), as a
    /// free vehicle does by itself, and leaves the vehicle free unless the case holds it. Returns those accelerations;
    /// they are added to the case's.
    ///
    /// With F and M the resultant about the centre of gravity:
    /// ```text
    /// a = F/m,   α = I⁻¹ M,   body force at r from the centre of gravity:  −(a + α × r)
    /// ```
    /// A resultant that is rounding gives accelerations of exactly zero, and the story says that the loads were balanced
    /// already. Call it when everything else acts; a case that nothing holds is balanced at its end by itself where the
    /// model's options allow it.
    ///
    /// # Units and shapes
    /// Returned: a_x, a_y, a_z in m/s², α_x, α_y, α_z in rad/s².
    ///
    /// # Assumes
    /// The vehicle is at rest in the mean: no gyroscopic terms. Uprights keep their place among the links.
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
        let total = self.total_so_far();
        all_finite("the sum of everything applied", &total.sum())?;
        let mut found = [0.0; 6];
        let mut left = total;
        for _ in 0..PASSES {
            let more = self.accelerations(&left)?;
            all_finite("an acceleration that balances the case", &more)?;
            if more == [0.0; 6] {
                break;
            }
            for axis in 0..3 {
                self.field.force[axis] -= more[axis];
                self.field.turn[axis] += more[axis + 3];
            }
            for (sum, part) in found.iter_mut().zip(more) {
                *sum += part;
            }
            left = self.total_so_far();
        }
        self.note_acceleration(found);
        self.balanced = true;
        self.tell_balance(&total, &found)?;
        Ok(found)
    }

    /// Adds to the case's acceleration.
    pub(super) fn note_acceleration(&mut self, acceleration: [f64; 6]) {
        let total = self.case.derivation.acceleration.get_or_insert([0.0; 6]);
        for (sum, part) in total.iter_mut().zip(acceleration) {
            *sum += part;
        }
    }

    fn tell_balance(&mut self, total: &Total, found: &[f64; 6]) -> Result<(), LoadError> {
        let without: Vec<String> = self.mass().massless.iter().map(|one| one.words(&self.model)).collect();
        if !without.is_empty() {
            self.explain(&format!("Without mass, and so without part in the balance: {}.", without.join("; ")));
        }
        if *found == [0.0; 6] {
            self.explain_of_account(
                "Everything applied is balanced already: forces and moments about the centre of gravity sum to zero but \
                 for rounding, so the accelerations that balance are exactly zero.",
            );
        } else {
            self.explain_of_account(
                "What is left over is balanced by the vehicle's own inertia: a = F/m and α = I⁻¹·M about the centre of \
                 gravity, as −m·(a + α × r) on everything that has mass. Tubes count as thin rods, panels as thin plates.",
            );
            let unit = |row: usize| if row < 3 { "N" } else { "N·m" };
            let names = ["F_x", "F_y", "F_z", "M_x", "M_y", "M_z"];
            for (row, (name, value)) in names.into_iter().zip(total.sum()).enumerate() {
                self.step_of_account(
                    &format!("Sum {name} of everything applied, about the centre of gravity."),
                    value,
                    unit(row),
                )?;
            }
        }
        for (axis, value) in ["x", "y", "z"].into_iter().zip(found) {
            self.step_of_account(&format!("Acceleration a_{axis} that balances."), value / STANDARD_GRAVITY, "g")?;
        }
        for (axis, value) in ["x", "y", "z"].into_iter().zip(&found[3..]) {
            self.step_of_account(&format!("Angular acceleration α_{axis} that balances."), *value, "rad/s²")?;
        }
        Ok(())
    }

    /// Resultant about the centre of gravity of everything applied so far: what is in the case, what acts on uprights, and
    /// the body force.
    pub(super) fn total_so_far(&self) -> Total {
        let mass = self.mass();
        let mut total = Total::of(&self.case, &self.model, mass.centre);
        if let Some(vehicle) = self.model.vehicle() {
            for wheel in Wheel::ALL {
                total.add(self.uprights[wheel as usize], vehicle.corner(wheel).contact);
            }
        }
        // The loads of the body force integrate to exactly this: forces m·b, moments −I·α, as the centre is the mass's own.
        let force = Vector3::from(self.field.force) * mass.total;
        let moment = -(self.inertia() * Vector3::from(self.field.turn));
        let gyration = (self.inertia().trace() / 2.0 / mass.total.max(f64::MIN_POSITIVE)).sqrt();
        total.force += force;
        total.moment += moment;
        total.force_size += force.norm();
        total.moment_size += moment.norm() + force.norm() * gyration;
        total
    }

    fn inertia(&self) -> Matrix3<f64> {
        Matrix3::from_fn(|row, column| self.mass().inertia[row][column])
    }

    /// a = F/m and α = I⁻¹ M; exactly zero where the resultant is rounding.
    fn accelerations(&self, total: &Total) -> Result<[f64; 6], LoadError> {
        let unless_small = |value: f64, size: f64| if value.abs() <= ROUNDING * size { 0.0 } else { value };
        let force = total.force.map(|part| unless_small(part, total.force_size));
        let moment = total.moment.map(|part| unless_small(part, total.moment_size));
        let acceleration = force / self.mass().total;
        let turn = self.angular(moment, total.moment_size)?;
        let inertia = self.inertia();
        let about = |axis: usize| unless_small(turn[axis] * inertia[(axis, axis)], total.moment_size) != 0.0;
        let turn = [0, 1, 2].map(|axis| if about(axis) { turn[axis] } else { 0.0 });
        Ok([acceleration.x, acceleration.y, acceleration.z, turn[0], turn[1], turn[2]])
    }

    /// α = I⁻¹ M; zero about an axis without inertia, where no moment acts about it.
    fn angular(&self, moment: Vector3<f64>, size: f64) -> Result<Vector3<f64>, LoadError> {
        let eigen = SymmetricEigen::new(self.inertia());
        let greatest = eigen.eigenvalues.max();
        let mut turn = Vector3::zeros();
        for (inertia, axis) in eigen.eigenvalues.iter().zip(eigen.eigenvectors.column_iter()) {
            let part = axis.dot(&moment);
            if *inertia > NO_INERTIA * greatest {
                turn += axis * (part / inertia);
            } else if part.abs() > NEGLIGIBLE * size {
                return Err(LoadError::NoInertia { axis: [axis[0], axis[1], axis[2]], moment: part.abs() });
            }
        }
        Ok(turn)
    }

    /// Everything that must have mass has it.
    pub(super) fn need_mass(&self, wanted: &'static str) -> Result<(), LoadError> {
        self.basis.need_mass(&self.model, wanted)
    }
}

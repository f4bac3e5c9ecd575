//! The wheels: loads by statics, and the road's forces on them.

use std::ops::Deref;

use strutwork_model::model::{Carrier, Model, Suspension, Vehicle, Wheel};
use strutwork_model::units::{STANDARD_GRAVITY, to_mm};

use super::{CaseBuilder, all_finite, unknown};
use crate::error::LoadError;
use crate::wheels;

/// The wheel with this name.
///
/// # Errors
/// [`LoadError::UnknownName`], with the nearest name.
pub(crate) fn wheel_named(name: &str) -> Result<Wheel, LoadError> {
    Wheel::from_name(name).ok_or_else(|| unknown("wheel", name, Wheel::ALL.map(Wheel::name)))
}

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// The model's vehicle.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`], naming what it was wanted for.
    pub fn vehicle(&self, wanted: &'static str) -> Result<&Vehicle, LoadError> {
        self.model.vehicle().ok_or(LoadError::NoVehicle { wanted })
    }

    /// The wheel with this name.
    ///
    /// # Errors
    /// [`LoadError::UnknownName`], with the nearest name.
    pub fn wheel(&self, name: &str) -> Result<Wheel, LoadError> {
        wheel_named(name)
    }

    /// Vertical wheel loads, N, in the order of [`Wheel::ALL`], under a steady acceleration, m/s², and `vertical_g` times
    /// the weight: see [`wheels::wheel_loads`]. Nothing is applied; the derivation notes equations and loads.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`], [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`],
    /// [`LoadError::DegenerateWheels`].
    pub fn wheel_loads(&mut self, acceleration: [f64; 2], vertical_g: f64) -> Result<[f64; 4], LoadError> {
        all_finite("the acceleration of the wheel loads", &[acceleration[0], acceleration[1], vertical_g])?;
        self.need_mass("the weight on the wheels")?;
        let vehicle = self.vehicle("what its wheels carry")?;
        let (mass, cg) = (self.mass.total, self.mass.centre);
        let loads = wheels::wheel_loads(vehicle, mass, cg, acceleration, vertical_g)?;
        let height = wheels::cg_height(vehicle, cg);
        let given = vehicle.cg_height.is_some();
        let share = vehicle.front_roll_share;

        self.step("Total mass m of tubes and masses.", mass, "kg")?;
        self.step("Centre of gravity x_cg.", to_mm(cg[0]), "mm")?;
        self.step("Centre of gravity y_cg.", to_mm(cg[1]), "mm")?;
        let source = if given { ", as the vehicle table gives it" } else { ", from the masses" };
        self.step(&format!("Its height h above the contact patches{source}."), to_mm(height), "mm")?;
        self.step("Front axle's share s of the roll couple.", share, "")?;
        self.step("Forward acceleration a_x.", acceleration[0] / STANDARD_GRAVITY, "g")?;
        self.step("Acceleration to the left a_y.", acceleration[1] / STANDARD_GRAVITY, "g")?;
        self.step("Weight felt over weight n.", vertical_g, "×")?;
        self.explain(
            "Wheel loads N from vertical equilibrium ΣN = m·g·n, pitch Σ(x − x_cg)·N = −m·a_x·h, roll \
             Σ(y − y_cg)·N = −m·a_y·h, and the front axle's share of the roll couple (1 − s)·C_f = s·C_r with \
             C = (N_left − N_right)·track/2. Roll-centre heights are left out.",
        );
        for wheel in Wheel::ALL {
            self.step(&format!("Vertical load N on the {} wheel.", wheel.name()), loads[wheel as usize], "N")?;
        }
        Ok(loads)
    }

    /// A force of the road on a wheel, N, at its contact point, shared statically equivalent among the corner's joints.
    ///
    /// Forces on one wheel add up. A negative vertical sum in a physical case is remarked on (L001).
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`]; [`LoadError::NotFinite`].
    pub fn wheel_force(&mut self, wheel: Wheel, force: [f64; 3]) -> Result<(), LoadError> {
        all_finite(&format!("the force on the {} wheel", wheel.name()), &force)?;
        let corner = self.vehicle("where its wheels are")?.corner(wheel);
        let contact = corner.contact;
        if let Suspension::Rigid(Carrier::Joints(joints)) = &corner.suspension {
            let joints = joints.clone();
            self.spread_load(force, [0.0; 3], contact, &joints)?;
        }
        let sum = &mut self.case.derivation.wheel_forces.get_or_insert_default()[wheel as usize];
        for (total, part) in sum.iter_mut().zip(force) {
            *total += part;
        }
        Ok(())
    }
}

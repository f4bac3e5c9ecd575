//! The wheels: loads by statics, and the road's forces on them.

use std::ops::Deref;

use strutwork_model::model::{Carrier, Model, Vehicle, Wheel};
use strutwork_model::units::{STANDARD_GRAVITY, to_mm, to_nm_per_deg};

use super::{CaseBuilder, all_finite, unknown};
use crate::error::LoadError;
use crate::loads::{Loads, PointLoad};
use crate::wheels::{self, Ride};

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

    /// Vertical wheel loads, N, in the order of [`Wheel::ALL`]: see [`wheels::wheel_loads`]. Nothing is applied; the
    /// derivation notes equations and loads.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`], [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NotFinite`],
    /// [`LoadError::DegenerateWheels`], [`LoadError::NoRollStiffness`].
    pub fn wheel_loads(&mut self, ride: &Ride) -> Result<[f64; 4], LoadError> {
        let [ax, ay] = ride.acceleration;
        all_finite("the acceleration of the wheel loads", &[ax, ay, ride.vertical_g])?;
        self.need_mass("the weight on the wheels")?;
        let vehicle = self.vehicle("what its wheels carry")?;
        let (mass, cg) = (self.mass().total, self.mass().centre);
        let loads = wheels::wheel_loads(vehicle, mass, cg, ride)?;
        let height = wheels::cg_height(vehicle, cg);
        let given = vehicle.cg_height.is_some();
        let share = vehicle.front_roll_share;

        self.step_of_account("Total mass m of everything.", mass, "kg")?;
        self.step_of_account("Centre of gravity x_cg.", to_mm(cg[0]), "mm")?;
        self.step_of_account("Centre of gravity y_cg.", to_mm(cg[1]), "mm")?;
        let source = if given { ", as the vehicle table gives it" } else { ", from the masses" };
        self.step(&format!("Its height h above the contact patches{source}."), to_mm(height), "mm")?;
        self.step("Front axle's share s of the roll couple.", share, "")?;
        if let Some(stiffness) = ride.frame_stiffness {
            self.tell_twisting_frame(stiffness)?;
        }
        self.step("Forward acceleration a_x.", ax / STANDARD_GRAVITY, "g")?;
        self.step("Acceleration to the left a_y.", ay / STANDARD_GRAVITY, "g")?;
        self.step("Weight felt over weight n.", ride.vertical_g, "×")?;
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

    /// The steps of a frame that twists.
    fn tell_twisting_frame(&mut self, stiffness: f64) -> Result<(), LoadError> {
        let vehicle = self.vehicle("how stiff it is in roll")?;
        let cg = self.mass().centre;
        let model = wheels::roll_model(vehicle, Some(stiffness))?;
        let of_mass = wheels::front_mass_share(vehicle, cg);
        self.explain(
            "The frame twists: of the roll couple that cornering adds the front axle takes s′ = w + (s − w)·K_c/(K_c + K_s) \
             (two-mass roll model; K_s = K_f·K_r/(K_f + K_r)) in the place of s.",
        );
        self.step("Torsional stiffness K_c of the frame.", to_nm_per_deg(stiffness), "N·m/deg")?;
        self.step("Roll stiffness K_s of the axles in series.", to_nm_per_deg(model.in_series()), "N·m/deg")?;
        self.step("Front axle's share w of the mass.", of_mass, "")?;
        self.step("Share K_c/(K_c + K_s) of a shift of roll couple that reaches the tyres.", model.reaching(), "")?;
        self.step("Front axle's share s′ of the roll couple of cornering.", model.carried_share(of_mass), "")
    }

    /// A force of the road on a wheel, N, at its contact point, the wheel taken as one piece with its upright: for vertical
    /// and lateral forces, and for brakes that sit on the upright. A rigid corner's carrier takes it statically equivalent,
    /// a linked corner's upright gives it to its links.
    ///
    /// Forces on one wheel add up. A negative vertical sum in a physical case is remarked on (L001).
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`]; [`LoadError::NotFinite`].
    pub fn wheel_force(&mut self, wheel: Wheel, force: [f64; 3]) -> Result<(), LoadError> {
        let contact = self.vehicle("where its wheels are")?.corner(wheel).contact;
        self.on_wheel(wheel, &PointLoad::force(force, contact))
    }

    /// A force on a wheel, N, that acts through its centre and brings no torque to the upright: of an obstacle that a wheel
    /// rolls over.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`]; [`LoadError::NoWheelRadius`]; [`LoadError::NotFinite`].
    pub fn wheel_centre_force(&mut self, wheel: Wheel, force: [f64; 3]) -> Result<(), LoadError> {
        let centre = self.wheel_centre(wheel, "where the force at the wheel's centre acts")?;
        self.on_wheel(wheel, &PointLoad::force(force, centre))
    }

    /// The driving force of a wheel, N along x, positive forwards: see [`CaseBuilder::brake_force`]. Its torque comes
    /// through a shaft wherever the axle says what takes the shafts' reaction.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`]; [`LoadError::NoWheelRadius`]; [`LoadError::NotFinite`].
    pub fn drive_force(&mut self, wheel: Wheel, along: f64) -> Result<(), LoadError> {
        let axle = &self.vehicle("what drives its wheels")?.axles[wheel.axle()];
        let reaction = axle.shaft_reaction.clone();
        self.longitudinal(wheel, along, reaction.as_ref(), "driving torque")
    }

    /// The braking force of a wheel, N along x, negative when it slows a vehicle that moves forwards.
    ///
    /// Brakes on the upright: the force acts at the contact point. Inboard brakes (and drive, through shafts): the upright
    /// sees the force at the wheel's centre, r above the contact point, and the torque about the wheel's axis, M_y = −r·F_x,
    /// acts on what takes the shafts' reaction. The total on the vehicle is the same.
    ///
    /// # Assumes
    /// The wheel's axis lies along y.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`]; [`LoadError::NoWheelRadius`]; [`LoadError::NotFinite`].
    pub fn brake_force(&mut self, wheel: Wheel, along: f64) -> Result<(), LoadError> {
        let axle = &self.vehicle("what brakes its wheels")?.axles[wheel.axle()];
        let reaction = if axle.inboard_brakes { axle.shaft_reaction.clone() } else { None };
        self.longitudinal(wheel, along, reaction.as_ref(), "braking torque")
    }

    fn longitudinal(
        &mut self,
        wheel: Wheel,
        along: f64,
        reaction: Option<&Carrier>,
        torque: &str,
    ) -> Result<(), LoadError> {
        let Some(reaction) = reaction else { return self.wheel_force(wheel, [along, 0.0, 0.0]) };
        let contact = self.vehicle("where its wheels are")?.corner(wheel).contact;
        let centre = self.wheel_centre(wheel, "the torque of its shafts")?;
        self.on_wheel(wheel, &PointLoad::force([along, 0.0, 0.0], centre))?;
        let about_y = -(centre[2] - contact[2]) * along;
        all_finite("the torque of a shaft", &[about_y])?;
        self.put(reaction, &PointLoad { force: [0.0; 3], moment: [0.0, about_y, 0.0], at: centre });
        if about_y == 0.0 {
            return Ok(());
        }
        let text = format!(
            "Torque M_y = −r·F_x of the {} wheel's shaft on what takes it ({torque}); the upright sees the force at the \
             wheel's centre.",
            wheel.name()
        );
        self.step(&text, about_y, "N·m")
    }

    /// The centre of a wheel, m.
    fn wheel_centre(&self, wheel: Wheel, wanted: &'static str) -> Result<[f64; 3], LoadError> {
        let vehicle = self.vehicle(wanted)?;
        let [x, y, z] = vehicle.corner(wheel).contact;
        let axle = wheel.axle();
        match vehicle.axles[axle].wheel_radius {
            Some(radius) => Ok([x, y, z + radius]),
            None => Err(LoadError::NoWheelRadius { axle: wheels::AXLES[axle], wanted }),
        }
    }

    fn on_wheel(&mut self, wheel: Wheel, load: &PointLoad) -> Result<(), LoadError> {
        all_finite(&format!("the force on the {} wheel", wheel.name()), &load.force)?;
        let mut loads = Loads::default();
        loads.put_on_wheel(&self.model, wheel, load);
        self.take(loads);
        let sum = &mut self.case.derivation.wheel_forces.get_or_insert_default()[wheel as usize];
        for (total, part) in sum.iter_mut().zip(load.force) {
            *total += part;
        }
        Ok(())
    }
}

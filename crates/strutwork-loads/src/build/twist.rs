//! Pure torsion: equal and opposite couples at the two axles.

use std::ops::Deref;

use strutwork_model::model::{Carrier, Model, Point, Wheel};
use strutwork_model::units::to_mm;

use super::{CaseBuilder, finite};
use crate::error::LoadError;
use crate::loads::PointLoad;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// Equal and opposite couples about x at the two axles, N·m, each as two vertical forces at the spring places of its
    /// corners, and the wish to read the torsional stiffness between them.
    ///
    /// A positive couple pushes the front left spring place up and the rear left one down. The four forces cancel, so that a
    /// vehicle whose spring places mirror each other is balanced without inertia and without supports.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`]; [`LoadError::NotFinite`]; [`LoadError::OutOfRange`] where a station has no breadth along y.
    pub fn twist_axles(&mut self, couple: f64) -> Result<(), LoadError> {
        finite("the couple of the twist", couple)?;
        self.measure_vehicle_twist(couple)?;
        let vehicle = self.vehicle("where twist is applied")?;
        let springs = vehicle.corners.each_ref().map(|corner| corner.spring);
        for (axle, sign) in [("front", 1.0), ("rear", -1.0)] {
            let first = if axle == "front" { Wheel::FrontLeft } else { Wheel::RearLeft } as usize;
            let [left, right] = [springs[first], springs[first + 1]];
            let breadth = left.at(&self.model)[1] - right.at(&self.model)[1];
            let force = sign * couple / breadth;
            self.step(&format!("Distance of the {axle} spring places along y."), to_mm(breadth), "mm")?;
            let direction = if force < 0.0 { "down on the left and up" } else { "up on the left and down" };
            self.step(
                &format!("Force at each {axle} spring place: T / distance, {direction} on the right."),
                force.abs(),
                "N",
            )?;
            for (place, force) in [(left, force), (right, -force)] {
                let carrier = match place {
                    Point::Joint(joint) => Carrier::Joints(vec![joint]),
                    Point::OnBody { body, .. } => Carrier::Body(body),
                };
                let at = place.at(&self.model);
                let load = PointLoad { force: [0.0, 0.0, force], moment: [0.0; 3], at };
                self.place_on(place.name(&self.model), &carrier, &load);
            }
        }
        Ok(())
    }
}

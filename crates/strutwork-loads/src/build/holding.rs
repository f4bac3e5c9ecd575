//! How the frame is held in the case, and what is to be read off the solution.

use std::ops::Deref;

use strutwork_model::model::{Hold, Model, Point, Support, Wheel};
use strutwork_model::{Dof, DofMap, JointId};

use super::{CaseBuilder, finite};
use crate::case::{Measure, Nature};
use crate::error::LoadError;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// Holds freedoms of a joint fixed; those held before stay held.
    pub fn hold(&mut self, joint: JointId, dofs: &[Dof]) {
        for &dof in dofs {
            self.support(joint).holds[dof] = Hold::Fixed;
        }
    }

    /// Holds a freedom of a joint by a spring to ground, N/m or N·m/rad.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`]; [`LoadError::OutOfRange`] where the stiffness is not above zero.
    pub fn hold_by_spring(&mut self, joint: JointId, dof: Dof, stiffness: f64) -> Result<(), LoadError> {
        finite("the stiffness of a support", stiffness)?;
        if stiffness <= 0.0 {
            let range = "above zero; leave the freedom out to leave it free";
            return Err(LoadError::OutOfRange { what: "the stiffness of a support", value: stiffness, range });
        }
        self.support(joint).holds[dof] = Hold::Spring(stiffness);
        Ok(())
    }

    /// Holds the frame as `supports.csv` says, on top of what is held already.
    pub fn hold_as_model(&mut self) {
        for support in self.model.supports().to_vec() {
            for dof in Dof::ALL {
                if support.holds[dof] != Hold::Free {
                    self.support(support.joint).holds[dof] = support.holds[dof];
                }
            }
        }
    }

    /// Holds a vehicle at three spring joints, statically determinate: rear left in x, y and z, rear right in x and z,
    /// front left in z. Nothing is forced to deform by it.
    ///
    /// In a physical case the loads are balanced by the vehicle's own inertia, so that these supports take nothing; in a
    /// notional case they are the rig. The remark says which.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`].
    pub fn hold_vehicle(&mut self) -> Result<(), LoadError> {
        let joint = |wheel: Wheel| match self.vehicle("where it is held")?.corner(wheel).spring {
            Point::Joint(joint) => Ok(joint),
            Point::OnBody { .. } => Err(LoadError::NotAtJoint { wheel: wheel.name() }),
        };
        let (rear_left, rear_right, front_left) =
            (joint(Wheel::RearLeft)?, joint(Wheel::RearRight)?, joint(Wheel::FrontLeft)?);
        self.hold(rear_left, &[Dof::Ux, Dof::Uy, Dof::Uz]);
        self.hold(rear_right, &[Dof::Ux, Dof::Uz]);
        self.hold(front_left, &[Dof::Uz]);
        self.held_as_vehicle = true;
        let name = |joint: JointId| self.model.joints()[joint].name.as_str();
        let how = format!(
            "Held statically determinate at the spring joints: {} in x, y, z; {} in x, z; {} in z.",
            name(rear_left),
            name(rear_right),
            name(front_left)
        );
        let what = match self.case.nature {
            Nature::Physical | Nature::Ultimate => {
                "The vehicle's own inertia balances what acts, so these supports take nothing; displacements are \
                 relative to them."
            }
            Nature::Plain | Nature::Notional => "These supports are the rig: their reactions balance what acts.",
        };
        self.remark(&format!("{how} {what}"));
        Ok(())
    }

    /// Asks for the torsional stiffness between the front and the rear spring joints under a couple, N·m, about x.
    ///
    /// # Errors
    /// [`LoadError::NoVehicle`]; [`LoadError::NotFinite`].
    pub fn measure_vehicle_twist(&mut self, couple: f64) -> Result<(), LoadError> {
        let vehicle = self.vehicle("where twist is read")?;
        let joint = |wheel| vehicle.corner(wheel).spring;
        let front = [joint(Wheel::FrontLeft), joint(Wheel::FrontRight)];
        let rear = [joint(Wheel::RearLeft), joint(Wheel::RearRight)];
        self.measure_twist(front, rear, couple)
    }

    /// Asks for the torsional stiffness between two stations, each a left and a right joint, under a couple, N·m, about x.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`]; [`LoadError::OutOfRange`] where a station has no breadth along y.
    pub fn measure_twist(&mut self, front: [Point; 2], rear: [Point; 2], couple: f64) -> Result<(), LoadError> {
        finite("the couple of the twist", couple)?;
        for [left, right] in [front, rear] {
            let breadth = left.at(&self.model)[1] - right.at(&self.model)[1];
            if breadth <= 0.0 {
                let range = "above zero: the left joint lies on the +y side of the right one";
                return Err(LoadError::OutOfRange {
                    what: "the breadth of a twist station, m,",
                    value: breadth,
                    range,
                });
            }
        }
        self.case.measures.push(Measure::Twist { front, rear, couple });
        Ok(())
    }

    /// Asks for the movement of a joint.
    pub fn measure_movement(&mut self, joint: JointId) {
        self.case.measures.push(Measure::Movement { joint });
    }

    fn support(&mut self, joint: JointId) -> &mut Support {
        let supports = &mut self.case.supports;
        let place = supports.iter().position(|support| support.joint == joint).unwrap_or_else(|| {
            supports.push(Support { joint, holds: DofMap::default() });
            supports.len() - 1
        });
        &mut supports[place]
    }
}

//! What acts at joints and along tubes, as the script gives it.

use std::ops::Deref;

use strutwork_model::model::{
    Axes, Carrier, JointLoad, Model, PlainCase, Settlement, Temperature, TubeLoad, TubePointLoad,
};
use strutwork_model::{BodyId, Dof, DofMap, JointId, TubeId};

use super::{CaseBuilder, all_finite, finite};
use crate::error::LoadError;
use crate::loads::PointLoad;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// A force, N, and a moment, N·m, at a joint, global axes.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`].
    pub fn joint_load(&mut self, joint: JointId, force: [f64; 3], moment: [f64; 3]) -> Result<(), LoadError> {
        all_finite(&format!("the load at joint `{}`", self.model.joints()[joint].name), &[force, moment].concat())?;
        let [fx, fy, fz] = force;
        let [mx, my, mz] = moment;
        let row = &self.model.joints()[joint];
        let (on, at) = (format!("joint {}", row.name), row.at);
        self.tell_placed(on, &PointLoad { force, moment, at });
        self.case.joint_loads.push(JointLoad { joint, load: DofMap([fx, fy, fz, mx, my, mz]) });
        Ok(())
    }

    /// A force, N, and a moment, N·m, acting at a point, m, shared among joints statically equivalent.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`]; [`LoadError::OutOfRange`] for an empty list of joints.
    pub fn spread_load(
        &mut self,
        force: [f64; 3],
        moment: [f64; 3],
        at: [f64; 3],
        joints: &[JointId],
    ) -> Result<(), LoadError> {
        if joints.is_empty() {
            return Err(LoadError::OutOfRange { what: "the number of joints", value: 0.0, range: "at least 1" });
        }
        all_finite("a load shared among joints", &[force, moment, at].concat())?;
        let on = format!("{} joints together", joints.len());
        self.place_on(on, &Carrier::Joints(joints.to_vec()), &PointLoad { force, moment, at });
        Ok(())
    }

    /// A force, N, and a moment, N·m, on a body, the force acting at a point, m; `None`: at the body's reference point.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`].
    pub fn body_load(
        &mut self,
        body: BodyId,
        force: [f64; 3],
        moment: [f64; 3],
        at: Option<[f64; 3]>,
    ) -> Result<(), LoadError> {
        let row = &self.model.bodies()[body];
        let at = at.unwrap_or(row.at);
        all_finite(&format!("the load on body `{}`", row.name), &[force, moment, at].concat())?;
        let on = format!("body {}", row.name);
        self.place_on(on, &Carrier::Body(body), &PointLoad { force, moment, at });
        Ok(())
    }

    /// A load along a tube, linear from end to end, N per metre of tube; uniform where `from` equals `to`.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`].
    pub fn tube_load(&mut self, tube: TubeId, axes: Axes, from: [f64; 3], to: [f64; 3]) -> Result<(), LoadError> {
        all_finite(&format!("the load along tube `{}`", self.model.tubes()[tube].name), &[from, to].concat())?;
        self.case.tube_loads.push(TubeLoad { tube, axes, from, to });
        Ok(())
    }

    /// A force, N, and a moment, N·m, at a place along a tube, 0 at `from` to 1 at `to`.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`]; [`LoadError::OutOfRange`] for a place off the tube.
    pub fn tube_point_load(
        &mut self,
        tube: TubeId,
        axes: Axes,
        at: f64,
        force: [f64; 3],
        moment: [f64; 3],
    ) -> Result<(), LoadError> {
        let name = &self.model.tubes()[tube].name;
        all_finite(&format!("the load at a place along tube `{name}`"), &[force, moment].concat())?;
        finite("the place along the tube", at)?;
        if !(0.0..=1.0).contains(&at) {
            return Err(LoadError::OutOfRange { what: "the place along the tube", value: at, range: "from 0 to 1" });
        }
        self.case.tube_point_loads.push(TubePointLoad { tube, axes, at, force, moment });
        Ok(())
    }

    /// A change of a tube's temperature: a uniform rise, K, and gradients along local y and z, K/m.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`].
    pub fn temperature(&mut self, tube: TubeId, rise: f64, gradients: [f64; 2]) -> Result<(), LoadError> {
        let [gradient_y, gradient_z] = gradients;
        let name = &self.model.tubes()[tube].name;
        all_finite(&format!("the temperature of tube `{name}`"), &[rise, gradient_y, gradient_z])?;
        self.case.temperatures.push(Temperature { tube, rise, gradient_y, gradient_z });
        Ok(())
    }

    /// What the load files say.
    pub(crate) fn act_as_written(&mut self, plain: &PlainCase) {
        for load in &plain.joint_loads {
            let joint = &self.model.joints()[load.joint];
            let ([fx, fy, fz, mx, my, mz], at) = (load.load.0, joint.at);
            let on = format!("joint {}", joint.name);
            self.tell_placed(on, &PointLoad { force: [fx, fy, fz], moment: [mx, my, mz], at });
        }
        for load in &plain.body_loads {
            let body = &self.model.bodies()[load.body];
            let ([fx, fy, fz, mx, my, mz], at) = (load.load.0, body.at);
            let on = format!("body {}", body.name);
            self.tell_placed(on, &PointLoad { force: [fx, fy, fz], moment: [mx, my, mz], at });
        }
        self.case.joint_loads.extend_from_slice(&plain.joint_loads);
        self.case.body_loads.extend_from_slice(&plain.body_loads);
        self.case.tube_loads.extend_from_slice(&plain.tube_loads);
        self.case.tube_point_loads.extend_from_slice(&plain.tube_point_loads);
        self.case.temperatures.extend_from_slice(&plain.temperatures);
        self.case.settlements.extend_from_slice(&plain.settlements);
    }

    /// A prescribed movement, m or rad, of a freedom that the case holds fixed (checked when the case is finished).
    ///
    /// # Errors
    /// [`LoadError::NotFinite`].
    pub fn settle(&mut self, joint: JointId, dof: Dof, value: f64) -> Result<(), LoadError> {
        finite(&format!("the settlement of joint `{}`", self.model.joints()[joint].name), value)?;
        self.case.settlements.push(Settlement { joint, dof, value });
        Ok(())
    }
}

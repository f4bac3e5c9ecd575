//! The end of a case: gravity and inertia become loads, and what a reader must know is remarked on.

use std::ops::Deref;

use strutwork_model::model::{Hold, Model, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;

use super::CaseBuilder;
use crate::case::{LoadCase, Nature};
use crate::error::LoadError;
use crate::masses::resultant_about;

/// A wheel pulls on the road where its vertical force is below this share of the vehicle's weight, negative.
const PULLS: f64 = -1e-9;

/// A physical case is balanced where its resultant is below this share of the loads' magnitudes.
const BALANCED: f64 = 1e-9;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// The finished case.
    ///
    /// Remarks are added for a wheel that would have to pull on the road in a physical case (L001), and for a physical
    /// case that is held as a vehicle but not balanced (L014).
    ///
    /// # Errors
    /// [`LoadError::SettlementNotFixed`]; [`LoadError::NotFinite`] where sums of loads overflow.
    pub fn finish(mut self) -> Result<LoadCase, LoadError> {
        self.check_settlements()?;
        if let Some(loads) = self.body_loads() {
            self.case.tube_loads.extend(loads.tube_loads);
            self.case.joint_loads.extend(loads.joint_loads);
        }
        self.remark_on_pulling_wheels();
        self.remark_on_imbalance()?;
        Ok(self.case)
    }

    fn check_settlements(&self) -> Result<(), LoadError> {
        for settlement in &self.case.settlements {
            let fixed = self
                .case
                .supports
                .iter()
                .any(|support| support.joint == settlement.joint && support.holds[settlement.dof] == Hold::Fixed);
            if !fixed {
                return Err(LoadError::SettlementNotFixed {
                    joint: self.model.joints()[settlement.joint].name.clone(),
                    dof: settlement.dof.name(),
                });
            }
        }
        Ok(())
    }

    fn remark_on_pulling_wheels(&mut self) {
        let (Nature::Physical, Some(forces)) = (self.case.nature, self.case.derivation.wheel_forces) else {
            return;
        };
        let limit = PULLS * self.mass.total * STANDARD_GRAVITY;
        for wheel in Wheel::ALL {
            let vertical = forces[wheel as usize][2];
            if vertical < limit {
                self.coded_remark(
                    "L001",
                    format!(
                        "The {} wheel would have to pull on the road with {:.1} N, which it cannot: it lifts, and the \
                     case cannot occur as it stands.",
                        wheel.name(),
                        -vertical
                    ),
                );
            }
        }
    }

    fn remark_on_imbalance(&mut self) -> Result<(), LoadError> {
        let sum = resultant_about(&self.case, &self.model, self.mass.centre);
        super::all_finite("the sum of everything applied", &sum)?;
        if self.case.nature != Nature::Physical || !self.held_as_vehicle {
            return Ok(());
        }
        let forces = &self.case.joint_loads;
        let size: f64 = forces.iter().map(|load| load.load.0[..3].iter().map(|f| f.abs()).sum::<f64>()).sum::<f64>()
            + self.mass.total * self.field.iter().map(|b| b.abs()).sum::<f64>();
        let left_over = (sum[0].powi(2) + sum[1].powi(2) + sum[2].powi(2)).sqrt();
        let left_moment = (sum[3].powi(2) + sum[4].powi(2) + sum[5].powi(2)).sqrt();
        if left_over > BALANCED * size || left_moment > BALANCED * (size + self.moment_size()) {
            self.coded_remark("L014", format!(
                "The case is not balanced: {left_over:.3} N and {left_moment:.3} N·m about the centre of gravity are \
                 left to supports that a vehicle on the road does not have."
            ));
        }
        Ok(())
    }
}

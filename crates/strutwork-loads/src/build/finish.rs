//! The end of a case: gravity and inertia become loads, links take what acts on uprights, and what a reader must know is
//! remarked on.

use std::ops::Deref;

use strutwork_model::model::{Hold, Model, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;

use super::CaseBuilder;
use crate::case::{LinkForce, LoadCase, Nature};
use crate::error::LoadError;
use crate::loads::Loads;
use crate::masses::Total;

/// A wheel pulls on the road where its vertical force is below this share of the vehicle's weight, negative.
const PULLS: f64 = -1e-9;

/// A case is balanced where its resultant is below this share of the loads' magnitudes.
const BALANCED: f64 = 1e-9;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// The finished case.
    ///
    /// A case that nothing holds is balanced by inertia here, where the model's options ask for it and the case did not
    /// yet do so, and is then free. Remarks are added for a wheel that would have to pull on the road in a physical case
    /// (L001), and for a physical case that is held as a vehicle but not balanced (L014).
    ///
    /// # Errors
    /// [`LoadError::SettlementNotFixed`]; [`LoadError::NotFinite`] where sums of loads overflow; for a case that nothing
    /// holds those of [`CaseBuilder::balance`], and [`LoadError::NotBalanced`] where something acts that came after it.
    pub fn finish(mut self) -> Result<LoadCase, LoadError> {
        self.check_settlements()?;
        let floats = self.case.supports.is_empty();
        if floats && !self.balanced && self.model.options().inertia_relief {
            self.balance()?;
        }
        self.case.free = floats && self.balanced;
        let total = self.total_so_far();
        // The load files of a held frame are told by the solver, which names the joint.
        if self.case.free || self.case.nature != Nature::Plain {
            super::all_finite("the sum of everything applied", &total.sum())?;
        }
        if self.case.free && !total.vanishes(BALANCED) {
            return Err(LoadError::NotBalanced { force: total.force.norm(), moment: total.moment.norm() });
        }
        self.resolve();
        self.remark_on_pulling_wheels();
        self.remark_on_imbalance(&total);
        Ok(self.case)
    }

    /// The body force becomes loads, and links take what acts on uprights.
    fn resolve(&mut self) {
        let mut loads = Loads { uprights: self.uprights, ..Loads::default() };
        loads.put_field(&self.model, &self.field);
        let forces = loads.through_links(&self.model, &self.basis.uprights);
        self.take(loads);
        let known = &mut self.case.derivation.link_forces;
        if known.is_empty() {
            *known = forces;
        } else {
            for (sum, part) in known.iter_mut().zip(&forces) {
                add(sum, part, 1.0);
            }
        }
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
        let limit = PULLS * self.mass().total * STANDARD_GRAVITY;
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

    fn remark_on_imbalance(&mut self, total: &Total) {
        if self.case.nature != Nature::Physical || !self.held_as_vehicle || total.vanishes(BALANCED) {
            return;
        }
        let (force, moment) = (total.force.norm(), total.moment.norm());
        self.coded_remark(
            "L014",
            format!(
                "The case is not balanced: {force:.3} N and {moment:.3} N·m about the centre of gravity are left to \
                 supports that a vehicle on the road does not have."
            ),
        );
    }
}

/// Adds a link's force, times a factor, to another of the same link.
pub(super) fn add(sum: &mut LinkForce, part: &LinkForce, times: f64) {
    for (total, value) in sum.on_frame.iter_mut().zip(part.on_frame) {
        *total += times * value;
    }
    sum.axial = sum.axial.zip(part.axial).map(|(total, value)| total + times * value);
}

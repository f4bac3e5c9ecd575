//! What rounding leaves of forces that are not there.

use strutwork_model::{Model, TubeId};
use strutwork_solve::results::SectionForces;

use super::beside_weld::beside_weld;
use crate::code::profile::ROUNDING;

/// The forces and moments of one part that count as none: below the share [`ROUNDING`] of its own resistance they are what the
/// arithmetic of the solution leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rounding {
    /// N.
    force: f64,
    /// N·m.
    moment: f64,
}

impl Rounding {
    /// Of a part with this resistance to force, N, and to moments, N·m.
    pub fn new(force: f64, moment: f64) -> Self {
        Self { force: ROUNDING * force, moment: ROUNDING * moment }
    }

    /// Of a tube, by A·f_y and the greater W_el·f_y beside its welds; nothing counts as none where one of them is not known.
    pub fn of(model: &Model, tube: TubeId) -> Self {
        let section = &model.sections()[model.tubes()[tube].section];
        let strength = beside_weld(model, tube).map_or(0.0, |beside| beside.strength.yield_stress);
        let modulus = section.wel_y.unwrap_or(0.0).max(section.wel_z.unwrap_or(0.0));
        Self::new(section.area * strength, modulus * strength)
    }

    /// A force, N.
    pub fn force(self, value: f64) -> f64 {
        if value.abs() < self.force { 0.0 } else { value }
    }

    /// A moment or torque, N·m.
    pub fn moment(self, value: f64) -> f64 {
        if value.abs() < self.moment { 0.0 } else { value }
    }

    /// All that acts in a section.
    pub fn forces(self, acting: SectionForces) -> SectionForces {
        SectionForces {
            n: self.force(acting.n),
            vy: self.force(acting.vy),
            vz: self.force(acting.vz),
            t: self.moment(acting.t),
            my: self.moment(acting.my),
            mz: self.moment(acting.mz),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_far_below_the_resistance_counts_as_none() {
        let rounding = Rounding::new(1e5, 1e3);
        let acting = SectionForces { n: -9e-5, vy: 2e-4, vz: 0.0, t: 9e-7, my: -2e-6, mz: 5.0 };
        let expected = SectionForces { n: 0.0, vy: 2e-4, vz: 0.0, t: 0.0, my: -2e-6, mz: 5.0 };
        assert_eq!(rounding.forces(acting), expected);
    }
}

//! Statics of linked corners: an upright is a free body under the tyre's force, held by the forces of its links.

mod fault;
mod motion;
mod upright;

use strutwork_model::model::{Link, LinkKind, Model, Suspension, Wheel};

use crate::case::LoadCase;
use crate::error::LoadError;

pub use fault::UprightFault;
pub use motion::Motion;
pub use upright::Upright;

/// The linked corners of a vehicle, ready to turn what acts on an upright into the forces of its links.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Uprights {
    /// In the order of [`Wheel::ALL`]; `None` for a rigid corner.
    of_wheels: [Option<Upright>; 4],
}

impl Uprights {
    /// Those of a model; none where it has no vehicle or all corners are rigid.
    ///
    /// # Errors
    /// [`LoadError::Upright`] for the first corner whose links do not hold its upright.
    pub fn of(model: &Model) -> Result<Self, LoadError> {
        let (found, faults) = Self::with_faults(model);
        faults.into_iter().next().map_or(Ok(found), Err)
    }

    fn with_faults(model: &Model) -> (Self, Vec<LoadError>) {
        let (mut found, mut faults) = (Self::default(), Vec::new());
        let Some(vehicle) = model.vehicle() else { return (found, faults) };
        for wheel in Wheel::ALL {
            let corner = vehicle.corner(wheel);
            if let Suspension::Linked(links) = &corner.suspension {
                match Upright::of(wheel, corner.contact, links) {
                    Ok(upright) => found.of_wheels[wheel as usize] = Some(upright),
                    Err(fault) => faults.push(fault),
                }
            }
        }
        (found, faults)
    }

    /// The upright of a linked corner.
    pub fn of_wheel(&self, wheel: Wheel) -> Option<&Upright> {
        self.of_wheels[wheel as usize].as_ref()
    }
}

/// Whether the links of every linked corner hold their upright.
///
/// # Errors
/// [`LoadError::Upright`] for each corner whose links do not, in the order of wheels.
pub fn check_suspension(model: &Model) -> Result<(), Vec<LoadError>> {
    let (_, faults) = Uprights::with_faults(model);
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

/// The link of a corner that is its spring: a spring or a strut; the first where there are several.
pub fn spring_link(links: &[Link]) -> Option<usize> {
    links.iter().position(|link| matches!(link.kind, LinkKind::Spring | LinkKind::Strut))
}

/// Force of a corner's spring over the wheel's vertical load in a case: the motion ratio as a ratio of forces.
///
/// `None` where the corner is rigid, has no spring or strut, or its wheel has no vertical load in the case.
///
/// # Signs and order
/// Positive where the load on the wheel compresses the spring.
pub fn spring_ratio(case: &LoadCase, model: &Model, wheel: Wheel) -> Option<f64> {
    let Suspension::Linked(links) = &model.vehicle()?.corner(wheel).suspension else { return None };
    let spring = spring_link(links)?;
    let vertical = case.wheel_force(wheel)?[2];
    let force = case.derivation.link_forces.iter().find(|force| force.wheel == wheel && force.link == spring)?;
    let tension = force.axial?;
    (vertical != 0.0).then(|| -tension / vertical)
}

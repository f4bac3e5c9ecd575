//! What the wheels carry at rest.

use strutwork_model::model::Model;

use super::{Ride, wheel_loads};
use crate::error::LoadError;
use crate::masses::MassModel;

/// What the wheels carry at rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StaticLoads {
    /// N, in the order of [`Wheel::ALL`](strutwork_model::model::Wheel::ALL).
    pub loads: [f64; 4],
    /// Share of the weight on each wheel, 0 to 1.
    pub shares: [f64; 4],
    /// Share on the front axle.
    pub front: f64,
    /// Share on the left wheels.
    pub left: f64,
}

/// Vertical wheel loads of the vehicle at rest, and their shares of the weight.
///
/// # Errors
/// [`LoadError::NoVehicle`]; [`LoadError::NoMass`]; [`LoadError::NoDensity`]; [`LoadError::DegenerateWheels`].
pub fn static_loads(model: &Model) -> Result<StaticLoads, LoadError> {
    let wanted = "what its wheels carry at rest";
    let vehicle = model.vehicle().ok_or(LoadError::NoVehicle { wanted })?;
    let mass = MassModel::of(model);
    mass.needed(model, wanted)?;
    let loads = wheel_loads(vehicle, mass.total, mass.centre, &Ride::REST)?;
    let weight: f64 = loads.iter().sum();
    let shares = loads.map(|load| load / weight);
    Ok(StaticLoads { loads, shares, front: shares[0] + shares[1], left: shares[0] + shares[2] })
}

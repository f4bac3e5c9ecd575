//! Inertia of the six unit rigid-body accelerations, as loads: what makes displacements of a free vehicle free of rigid
//! motion.

use strutwork_model::model::{BodyLoad, JointLoad, Model, TubeLoad};

use crate::basis::Basis;
use crate::error::LoadError;
use crate::field::Field;
use crate::loads::Loads;

/// The inertia of six unit accelerations of the whole model.
#[derive(Debug, Clone, PartialEq)]
pub struct UnitInertia {
    /// The centre of gravity, m: the accelerations are its own, and the angular ones turn about it.
    pub about: [f64; 3],
    /// kg.
    pub mass: f64,
    /// Inertia tensor about the centre of gravity, kg·m².
    pub inertia: [[f64; 3]; 3],
    /// One for each acceleration: along x, y, z by 1 m/s², about x, y, z by 1 rad/s².
    pub loads: [InertiaLoads; 6],
}

/// The inertia of one acceleration.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct InertiaLoads {
    /// Of tubes.
    pub tube_loads: Vec<TubeLoad>,
    /// Of panels and of masses on joints, and what links bring from uprights.
    pub joint_loads: Vec<JointLoad>,
    /// Of masses on bodies, and what links bring from uprights.
    pub body_loads: Vec<BodyLoad>,
}

/// The inertia loads −M·R of the six unit rigid accelerations R of a model, as a free case has them.
///
/// # Signs and order
/// d'Alembert: an acceleration along +x gives loads along −x. Their resultants are −m along x, y, z and −I about them.
/// Masses on an upright reach the frame through its links.
///
/// # Errors
/// [`LoadError::NoMass`], [`LoadError::NoDensity`]; [`LoadError::Upright`].
pub fn unit_inertia(model: &Model) -> Result<UnitInertia, LoadError> {
    let basis = Basis::of(model)?;
    basis.need_mass(model, "the inertia of a free vehicle")?;
    let about = basis.mass.centre;
    let loads = std::array::from_fn(|axis| {
        let mut field = Field { about, ..Field::default() };
        match axis {
            0..3 => field.force[axis] = -1.0,
            _ => field.turn[axis - 3] = 1.0,
        }
        let mut loads = Loads::default();
        loads.put_field(model, &field);
        loads.through_links(model, &basis.uprights);
        InertiaLoads { tube_loads: loads.tube_loads, joint_loads: loads.joint_loads, body_loads: loads.body_loads }
    });
    Ok(UnitInertia { about, mass: basis.mass.total, inertia: basis.mass.inertia, loads })
}

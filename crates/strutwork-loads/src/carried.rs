//! Inertia of what the frame carries, as forces on its joints and bodies: for natural modes.

use nalgebra::{Matrix3, Matrix6};
use strutwork_model::model::{BodyLoad, Carrier, JointLoad, Model};

use crate::error::LoadError;
use crate::loads::{Loads, PointLoad};
use crate::masses::{Piece, PieceOf, pieces};
use crate::suspension::Uprights;

/// A panel or a mass, and how what acts at its centre reaches the frame.
///
/// By reciprocity the same shares tell how its centre moves with the frame: the weighted mean of what carries it.
#[derive(Debug, Clone, PartialEq)]
pub struct CarriedInertia {
    /// What it is.
    pub of: PieceOf,
    /// Mass and inertia over the movement of its centre: kg, kg·m²; ux, uy, uz, rx, ry, rz, global axes.
    pub matrix: Matrix6<f64>,
    /// For each of the six unit forces and moments at its centre, what joints and bodies take.
    pub shares: [CarriedShare; 6],
}

/// What joints and bodies take of a unit force or moment.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CarriedShare {
    /// Joints, in order of use.
    pub joints: Vec<JointLoad>,
    /// Bodies, in order of use.
    pub bodies: Vec<BodyLoad>,
}

/// Panels and masses that weigh something, in the order of [`pieces`], with their shares.
///
/// A mass on an upright reaches the frame through the links of its corner, as its inertia does in load cases.
///
/// # Errors
/// [`LoadError::Upright`] where the links of a corner do not hold its upright.
pub fn carried_inertia(model: &Model) -> Result<Vec<CarriedInertia>, LoadError> {
    let uprights = Uprights::of(model)?;
    let found = pieces(model).filter(|piece| piece.mass > 0.0).filter_map(|piece| {
        let carrier = match piece.of {
            PieceOf::Tube(_) => return None,
            PieceOf::Panel(panel) => Carrier::Joints(model.panels()[panel].joints.clone()),
            PieceOf::Mass(place) => model.masses()[place].carrier.clone(),
        };
        Some(CarriedInertia {
            of: piece.of,
            matrix: matrix(&piece),
            shares: std::array::from_fn(|i| share(model, &uprights, &carrier, piece.centre, i)),
        })
    });
    Ok(found.collect())
}

fn matrix(piece: &Piece) -> Matrix6<f64> {
    let mut matrix = Matrix6::zeros();
    matrix.fixed_view_mut::<3, 3>(0, 0).copy_from(&(Matrix3::identity() * piece.mass));
    matrix.fixed_view_mut::<3, 3>(3, 3).copy_from(&Matrix3::from_fn(|row, column| piece.inertia[row][column]));
    matrix
}

fn share(model: &Model, uprights: &Uprights, carrier: &Carrier, at: [f64; 3], unit: usize) -> CarriedShare {
    let mut load = PointLoad { at, ..PointLoad::default() };
    if unit < 3 {
        load.force[unit] = 1.0;
    } else {
        load.moment[unit - 3] = 1.0;
    }
    let mut loads = Loads::default();
    loads.put(model, carrier, &load);
    loads.through_links(model, uprights);
    CarriedShare { joints: loads.joint_loads, bodies: loads.body_loads }
}

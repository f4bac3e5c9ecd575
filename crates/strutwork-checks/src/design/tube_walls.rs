//! What the formulas of stresses and welds need of a tube's section.

use strutwork_model::model::{Section, Shape};
use strutwork_solve::results::SectionForces;

use crate::code::walls::{Acting, Kind, Walls};

/// Properties that stresses follow from; `None` for a section given by its properties alone.
pub fn walls_of(section: &Section) -> Option<Walls> {
    let kind = match section.shape {
        Shape::Hollow { .. } => Kind::Hollow,
        Shape::Round { .. } | Shape::SolidRound { .. } => Kind::Round,
        Shape::Flat { .. } => Kind::Flat,
        Shape::Properties => return None,
    };
    Some(Walls {
        area: section.area,
        moduli: [section.wel_y?, section.wel_z?],
        torsion: section.torsion_modulus?,
        shear: [section.shear_area_y?, section.shear_area_z?],
        kind,
    })
}

/// The wall of a hollow section, the least size of a bar, m; `None` for a section given by its properties alone.
pub fn thickness(section: &Section) -> Option<f64> {
    match section.shape {
        Shape::Hollow { wall, .. } | Shape::Round { wall, .. } => Some(wall),
        Shape::SolidRound { diameter } => Some(diameter),
        Shape::Flat { height, width } => Some(height.min(width)),
        Shape::Properties => None,
    }
}

/// Section forces times a margin.
pub fn acting(forces: &SectionForces, margin: f64) -> Acting {
    let SectionForces { n, vy, vz, t, my, mz } = *forces;
    Acting {
        axial: margin * n,
        shear: [margin * vy, margin * vz],
        torque: margin * t,
        moments: [margin * my, margin * mz],
    }
}

//! What the rules for steel need of a tube: its profile, and why EN 1993 does not cover it.

use strutwork_model::model::{Section, Shape};

use crate::code::profile::{Form, Profile};

/// A section as the formulas take it; `None` for one that is given by its properties alone.
pub fn profile_of(section: &Section, yield_stress: f64, youngs: f64) -> Option<Profile> {
    let form = match section.shape {
        Shape::Hollow { height, width, wall, .. } => Form::Rectangular { height, width, wall },
        Shape::Round { diameter, wall } => Form::Round { diameter, wall },
        Shape::SolidRound { diameter } => Form::SolidRound { diameter },
        Shape::Flat { height, width } => Form::Flat { height, width },
        Shape::Properties => return None,
    };
    Some(Profile {
        form,
        area: section.area,
        second: [section.iy, section.iz],
        elastic: [section.wel_y?, section.wel_z?],
        plastic: [section.wpl_y?, section.wpl_z?],
        torsion: section.torsion_modulus?,
        shear: [section.shear_area_y?, section.shear_area_z?],
        yield_stress,
        youngs,
    })
}

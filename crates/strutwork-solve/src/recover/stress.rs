//! Stresses from section forces.

use strutwork_model::model::{Section, Shape};

use crate::results::{SectionForces, Stress};

/// Stresses at a station; `None` for a section given by its properties alone.
///
/// ```text
/// σ = N/A ± (|My|/Wel,y + |Mz|/Wel,z)      round: N/A ± √(My² + Mz²)/Wel
/// τ = |T|/Wt + max(|Vy|/Ay, |Vz|/Az)       round and flat: the resultant of the two shears
/// von Mises = √(σ² + 3τ²)
/// ```
///
/// # Assumes
/// The corner of a hollow section is taken as sharp, up to about 5 % on the safe side for a rounded one under bending in
/// both planes; the greatest σ and the greatest τ are taken together although they need not meet in one point.
///
/// # Source
/// EN 1993-1-1:2005, 6.2.1(5) for σ² + 3τ² (from memory); elementary beam theory for the rest.
pub fn stress(section: &Section, forces: &SectionForces) -> Option<Stress> {
    let (wel_y, wel_z) = (section.wel_y?, section.wel_z?);
    let (area_y, area_z) = (section.shear_area_y?, section.shear_area_z?);
    let torsion = forces.t.abs() / section.torsion_modulus?;
    let axial = forces.n / section.area;
    let round = section.round_radius.is_some();
    let (bending_y, bending_z) = if round {
        (forces.my.hypot(forces.mz) / wel_y, 0.0)
    } else {
        (forces.my.abs() / wel_y, forces.mz.abs() / wel_z)
    };
    let (shear_y, shear_z) = (forces.vy.abs() / area_y, forces.vz.abs() / area_z);
    // In a hollow rectangle each pair of walls carries one shear; a solid or round section carries both in one place.
    let shear = match section.shape {
        Shape::Hollow { .. } => shear_y.max(shear_z),
        Shape::Round { .. } | Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => {
            shear_y.hypot(shear_z)
        }
    };
    let bending = bending_y + bending_z;
    let sigma_max = if axial < 0.0 { axial - bending } else { axial + bending };
    let tau_max = torsion + shear;
    let von_mises = (sigma_max * sigma_max + 3.0 * tau_max * tau_max).sqrt();
    Some(Stress { axial, bending_y, bending_z, sigma_max, torsion, shear, tau_max, von_mises })
}

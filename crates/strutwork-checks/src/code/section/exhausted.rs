//! Which force by itself uses a section up, where nothing is left for the others.

use super::CrossSection;
use super::web::{self, Web};
use crate::code::Partial;
use crate::code::class::Under;
use crate::code::profile::Forces;

/// A force that uses the section up by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alone {
    /// In words: `axial force`.
    pub what: &'static str,
    /// Over what the section carries of it at its full strength, 1 or more.
    pub ratio: f64,
    /// The clause that it exceeds.
    pub clause: &'static str,
}

/// The force that leaves nothing for the others: of torsion, shear and axial force, the one that exceeds its own resistance most.
///
/// ```text
/// T/T_Rd,  V/V_pl,T,Rd where T < T_Rd,  N/N_Rd;  V: for rectangular tubes the greater of both directions, else the resultant
/// ```
///
/// From N = N_pl,Rd on 6.2.9 leaves no moment resistance, from V = V_pl,Rd on 6.2.8 and 6.2.10 leave no strength at all. The ratio
/// of what acts besides has no value then; the ratio of this force says how far it is over.
///
/// # Units and shapes
/// SI. γ_M0, γ_M1. `None` where none of them reaches its resistance.
///
/// # Source
/// EN 1993-1-1:2005 6.2.3, 6.2.4, 6.2.6, 6.2.7; EN 1993-1-5:2006 5 (from memory).
pub fn exhausted(section: &CrossSection, acting: &Forces, partial: Partial) -> Option<Alone> {
    let profile = &section.profile;
    let design = profile.yield_stress / partial.m0;
    let tau = design / 3.0_f64.sqrt();
    let class = section.class(Under { compression: -acting.n, moment: [0.0; 2] });
    let torque = acting.torque / (profile.torsion * tau);
    let across = [0, 1].map(|axis| acting.shear[axis] / (profile.shear[axis] * tau));
    let is_rectangular = profile.form.is_hollow() && !profile.form.is_round();
    let plain = if is_rectangular { across[0].max(across[1]) } else { across[0].hypot(across[1]) };
    let shear = if torque < 1.0 { plain / (1.0 - torque) } else { plain };
    let axial = if acting.n > 0.0 {
        let clause = "EN 1993-1-1 6.2.3, tension: nothing is left for a moment";
        Alone { what: "axial force", ratio: acting.n / (profile.area * design), clause }
    } else {
        let clause = "EN 1993-1-1 6.2.4, compression: nothing is left for a moment";
        Alone { what: "axial force", ratio: -acting.n / (section.pressed_area(class) * design), clause }
    };
    let buckling = [0, 1].map(|axis| Web::slender(profile, axis, acting, partial.m1).map_or(0.0, |web| web.ratio()));
    let all = [
        axial,
        Alone {
            what: if acting.torque > 0.0 { "shear force beside its torque" } else { "shear force" },
            ratio: shear,
            clause: "EN 1993-1-1 6.2.6 and 6.2.7(9), shear: nothing is left for the rest",
        },
        Alone {
            what: "shear force on its thin walls, which buckle,",
            ratio: buckling[0].max(buckling[1]),
            clause: web::CLAUSE,
        },
        Alone { what: "torque", ratio: torque, clause: "EN 1993-1-1 6.2.7, torsion: nothing is left for the rest" },
    ];
    let greatest = all.into_iter().fold(axial, |most, one| if one.ratio > most.ratio { one } else { most });
    (greatest.ratio >= 1.0).then_some(greatest)
}

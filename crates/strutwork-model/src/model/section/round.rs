//! Circular hollow sections and solid round bars.

use std::f64::consts::PI;

use super::build::mm;
use super::{Route, Section, Shape};

/// A circular hollow section whose sizes are known to fit.
///
/// ```text
/// A = π(D² − d²)/4,  I = π(D⁴ − d⁴)/64,  Wel = 2I/D,  Wpl = (D³ − d³)/6,  It = 2I,  Ct = 2Wel,  Av = 2A/π
/// ```
///
/// # Source
/// EN 10219-2 Annex B (circular); shear area EN 1993-1-1 6.2.6(3). Both from memory.
pub(super) fn tube(name: String, diameter: f64, wall: f64) -> Section {
    let bore = diameter - 2.0 * wall;
    let area = PI * (diameter.powi(2) - bore.powi(2)) / 4.0;
    Section {
        label: format!("round {} × {} mm", mm(diameter), mm(wall)),
        shape: Shape::Round { diameter, wall },
        route: Some(Route::ColdFormed),
        source: "EN 10219-2 Annex B formulas (from memory, checked against printed section tables); \
                 shear area EN 1993-1-1 6.2.6(3) (from memory)"
            .to_owned(),
        ..circular(name, diameter, bore, area, 2.0 * area / PI)
    }
}

/// A solid round bar. The shear area gives the greatest elastic shear stress, τ = 4V/3A at the middle.
pub(super) fn bar(name: String, diameter: f64) -> Section {
    let area = PI * diameter.powi(2) / 4.0;
    Section {
        label: format!("solid round {} mm", mm(diameter)),
        shape: Shape::SolidRound { diameter },
        source: "closed form for the circle".to_owned(),
        ..circular(name, diameter, 0.0, area, 0.75 * area)
    }
}

fn circular(name: String, diameter: f64, bore: f64, area: f64, shear_area: f64) -> Section {
    let second = PI * (diameter.powi(4) - bore.powi(4)) / 64.0;
    let elastic = 2.0 * second / diameter;
    let plastic = (diameter.powi(3) - bore.powi(3)) / 6.0;
    Section {
        name,
        shape: Shape::Properties,
        label: String::new(),
        area,
        iy: second,
        iz: second,
        j: 2.0 * second,
        wel_y: Some(elastic),
        wel_z: Some(elastic),
        wpl_y: Some(plastic),
        wpl_z: Some(plastic),
        torsion_modulus: Some(2.0 * elastic),
        shear_area_y: Some(shear_area),
        shear_area_z: Some(shear_area),
        surface: Some(PI * diameter),
        fibres: Vec::new(),
        round_radius: Some(diameter / 2.0),
        route: None,
        source: String::new(),
    }
}

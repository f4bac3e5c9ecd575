//! What a weld is worth: correlation factor, strengths, full-strength throat, mass.

use std::f64::consts::SQRT_2;

use super::super::Partial;

/// Added to the triangle of a fillet for its crown, as a share of its area (common practice, no source).
const CROWN: f64 = 0.2;

/// β_w by the yield strength of the weaker part, Pa: 0.80 up to 235 MPa, 0.85 up to 275, 0.90 up to 355, above 1.0.
///
/// # Source
/// EN 1993-1-8:2005 Table 4.1 (read in several design guides), which goes by grade; a strength between two takes the higher
/// factor, which is on the safe side.
pub fn correlation(yield_stress: f64) -> f64 {
    // A hair wide, so that 235 MPa as the standard names it counts as such.
    match yield_stress / 1e6 * (1.0 - 1e-9) {
        least if least <= 235.0 => 0.80,
        least if least <= 275.0 => 0.85,
        least if least <= 355.0 => 0.90,
        _ => 1.0,
    }
}

/// Shear strength of a fillet weld by the simplified method, Pa.
///
/// ```text
/// f_vw,d = f_u / (√3 β_w γ_M2)
/// ```
///
/// # Source
/// EN 1993-1-8:2005 4.5.3.3, (4.4) (read in several design guides).
///
/// # Example
/// ```
/// use strutwork_checks::code::weld::shear_strength;
/// assert!((shear_strength(360e6, 0.8, 1.25) / 1e6 - 207.8).abs() < 0.05);
/// ```
pub fn shear_strength(ultimate: f64, correlation: f64, gamma: f64) -> f64 {
    ultimate / (3.0_f64.sqrt() * correlation * gamma)
}

/// Stresses on a throat against their limits, by the directional method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Directional {
    /// √(σ_⊥² + 3(τ_⊥² + τ_∥²)), Pa.
    pub combined: f64,
    /// Its limit f_u/(β_w γ_M2), and that of σ_⊥, 0.9 f_u/γ_M2, Pa.
    pub limits: [f64; 2],
    /// Each over its limit: together, and σ_⊥ by itself.
    pub used: [f64; 2],
}

/// The directional method on one place of a throat.
///
/// ```text
/// √(σ_⊥² + 3(τ_⊥² + τ_∥²)) ≤ f_u/(β_w γ_M2)   and   σ_⊥ ≤ 0.9 f_u/γ_M2
/// ```
///
/// # Units and shapes
/// σ_⊥ and τ_⊥ across the throat, τ_∥ along it: Pa.
///
/// # Source
/// EN 1993-1-8:2005 4.5.3.2(6), (4.1) (read in several design guides).
pub fn directional([normal, across, along]: [f64; 3], ultimate: f64, correlation: f64, gamma: f64) -> Directional {
    let combined = (normal * normal + 3.0 * (across * across + along * along)).sqrt();
    let limits = [ultimate / (correlation * gamma), 0.9 * ultimate / gamma];
    Directional { combined, limits, used: [combined / limits[0], normal.abs() / limits[1]] }
}

/// The throat at which a fillet is as strong as the tube's wall pulled square to the weld, m.
///
/// ```text
/// a = √2 β_w γ_M2 f_y t / (γ_M0 f_u),  γ_M2 ≥ 1.25
/// ```
///
/// # Assumes
/// γ_M2 is not below its recommended value: the weld is not to break before the wall yields, whatever margin is on the loads.
///
/// # Source
/// Derived from EN 1993-1-8:2005 4.5.3.2 with 7.3.1(4), by which the weld's resistance a length is not to be less than the
/// wall's (a copy was read).
///
/// # Example
/// ```
/// use strutwork_checks::code::{Partial, weld::full_strength_throat};
/// let throat = full_strength_throat(2e-3, 235e6, 360e6, 0.8, &Partial::RECOMMENDED);
/// assert!((throat / 2e-3 - 0.92).abs() < 0.005);
/// ```
pub fn full_strength_throat(wall: f64, yield_stress: f64, ultimate: f64, correlation: f64, partial: &Partial) -> f64 {
    let gamma = partial.m2.max(Partial::RECOMMENDED.m2);
    SQRT_2 * correlation * gamma * yield_stress * wall / (partial.m0 * ultimate)
}

/// Mass of weld metal, kg: of a fillet the triangle a² L of equal legs and a fifth for its crown; of a butt weld as much as of
/// a fillet as thick as the wall.
///
/// # Units and shapes
/// Throat and length in m, density in kg/m³.
///
/// # Source
/// Common practice, no source.
pub fn metal(throat: f64, length: f64, density: f64) -> f64 {
    (1.0 + CROWN) * throat * throat * length * density
}

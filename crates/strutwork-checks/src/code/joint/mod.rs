//! Welded joints of hollow sections after EN 1993-1-8 section 7: what a brace may put into the wall of the chord.
//!
//! A chord runs through; a brace is welded onto its face. Everything here is for one brace of one plane: the outline of the
//! chord (`h₀` in the plane, `b₀` across it) and of the brace, the angle between them, and the way in which the brace's force
//! is balanced. Overlapping and gapped partners stand beside it in [`Kind`].

mod acting;
mod bending;
mod check;
mod parts;
mod rectangular;
mod round;
mod shares;
mod validity;
mod written;

pub use acting::{Acting, ChordForces};
pub use bending::{Bending, bending};
pub use check::{Balance, Outcome, check};
pub use parts::{Brace, Chord, Kind, Outline, Partner};
pub use shares::{Pushed, Shares, shares};
pub use validity::{moments_outside, outside, stands_apart};

use std::f64::consts::PI;

/// Where the formulas come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-8:2005 section 7: Table 7.10 and notes of Table 7.11 (text read); k_g of Table 7.2 (read in a \
                          calculation sheet); moments out of the plane of Table 7.14 (read in a manufacturer's design guide); \
                          the rest of Tables 7.1 to 7.3, 7.5, 7.8 to 7.12, 7.14 and of 7.1 (from memory); parts of the force \
                          added up linearly: CIDECT Design Guide 3, 2nd ed. (2009), page 34 (read)";

/// Ways in which a joint can fail, each with its formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mode {
    /// The chord's face yields in bending.
    ChordFace,
    /// The chord's side walls crush or buckle; between β = 0.85 and 1 interpolated from the face.
    SideWall,
    /// The brace breaks where its load crowds into its stiff sides.
    Brace,
    /// The brace punches through the chord's face.
    Punching,
    /// The chord shears across in the gap.
    ChordShear,
    /// The chord's section is pushed out of square; for moments out of the plane alone.
    Distortion,
}

impl Mode {
    /// Every mode, in the order of [`Axial::modes`].
    pub const ALL: [Self; 6] =
        [Self::ChordFace, Self::SideWall, Self::Brace, Self::Punching, Self::ChordShear, Self::Distortion];

    /// Its words in messages.
    pub const fn word(self) -> &'static str {
        match self {
            Self::ChordFace => "chord face failure",
            Self::SideWall => "chord side wall failure",
            Self::Brace => "brace failure",
            Self::Punching => "punching shear",
            Self::ChordShear => "chord shear",
            Self::Distortion => "distortion of the chord's section",
        }
    }
}

/// Resistance of a joint to the axial force of one brace, mode by mode, with the numbers that entered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axial {
    /// Of the joint as the formulas take it: b₁/b₀ or the mean of both braces.
    pub beta: f64,
    /// γ = b₀/2t₀ or d₀/2t₀.
    pub gamma: f64,
    /// η = h₁/b₀ or h₁/d₀.
    pub eta: f64,
    /// Chord stress factor: k_n of a rectangular chord, k_p of a round one.
    pub k: f64,
    /// Gap factor k_g of a round chord; 1 elsewhere.
    pub k_g: f64,
    /// b_eff, m; 0 where no formula asks for it.
    pub b_eff: f64,
    /// b_e,p of punching, or b_e,ov of an overlap, m; 0 where no formula asks for it.
    pub b_second: f64,
    /// Side walls: [χ, f_b in Pa, chord face at β = 0.85 in N, side wall at β = 1 in N]; zeros where not asked for.
    pub side: [f64; 4],
    /// Shear area of the chord A_v, m²; 0 where not asked for.
    pub shear_area: f64,
    /// What all modes are multiplied by: π/4 for a round brace on a flat face, and the reduction for high yield strength.
    pub factor: f64,
    /// Characteristic resistance (γ_M5 = 1) of each mode in the order of [`Mode::ALL`], N, `factor` included; `None` where
    /// the mode does not arise.
    pub modes: [Option<f64>; 6],
}

impl Axial {
    /// The least of all modes with its mode, N, characteristic.
    pub fn governing(&self) -> (Mode, f64) {
        least(&self.modes)
    }
}

/// The least of the modes that arise.
fn least(modes: &[Option<f64>; 6]) -> (Mode, f64) {
    let found = Mode::ALL.into_iter().zip(modes).filter_map(|(mode, value)| Some((mode, (*value)?)));
    found.min_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((Mode::ChordFace, 0.0))
}

/// The resistance of the joint to the axial force of `brace`, characteristic (γ_M5 = 1).
///
/// Rectangular chord, T, Y and X joints (Tables 7.10 and 7.11):
///
/// ```text
/// β ≤ 0.85       k_n f_y0 t₀² / ((1 − β) sinθ) · (2η/sinθ + 4√(1 − β))
/// β = 1          k_n f_b t₀ / sinθ · (2h₁/sinθ + 10 t₀);  between: linear from 0.85 to 1
/// β ≥ 0.85       f_y1 t₁ (2h₁ − 4t₁ + 2b_eff);  and up to β = 1 − 1/γ: f_y0 t₀/(√3 sinθ) · (2h₁/sinθ + 2b_e,p)
/// K, N gap       8.9 k_n f_y0 t₀² √γ / sinθ · (b₁ + b₂ + h₁ + h₂)/(4b₀)
/// K, N overlap   f_yi t_i (b_eff + b_e,ov + 2h_i − 4t_i), with 2h_i λ_ov/50 below 50 %, b_i for b_eff from 80 %
/// ```
///
/// Round chord (Tables 7.2 and 7.3):
///
/// ```text
/// T, Y           γ^0.2 k_p f_y0 t₀² / sinθ · (2.8 + 14.2 β²)
/// X              k_p f_y0 t₀² / sinθ · 5.2/(1 − 0.81 β)
/// K, N           k_g k_p f_y0 t₀² / sinθ · (1.8 + 10.2 d₁/d₀) of the brace in compression
/// punching       f_y0 t₀ π d₁ (1 + sinθ)/(2 sin²θ)/√3
/// rectangular brace: T k_p f_y0 t₀² (4 + 20β²)(1 + 0.25η),  X 5 k_p f_y0 t₀²/(1 − 0.81β) · (1 + 0.25η)
/// ```
///
/// # Units and shapes
/// SI.
///
/// # Signs and order
/// Continuous in β but for the modes that the tables bring in at β = 0.85 and take out at 1 − 1/γ.
///
/// # Assumes
/// Perimeter welds at least as strong as the brace's wall. A brace wider than the chord counts as β = 1.
///
/// # Source
/// EN 1993-1-8:2005. Table 7.10 (text read: with −4t_i not scaled by the overlap), notes of Table 7.11 (text read; the copy
/// asks for chord shear of X joints wherever θ < 90°, the corrigendum of 2009 where cosθ > h₁/h₀, from memory: the latter is
/// used). The rest of Tables 7.2, 7.3, 7.11, 7.12 from memory. Table 7.3 is for θ = 90°; at other angles its values are used
/// as they stand. Where the yield strength of chord or brace exceeds 355 MPa all are multiplied by 0.9 (7.1.1(4), from
/// memory), above 460 MPa by 0.8 (EN 1993-1-12, from memory).
pub fn axial(chord: &Chord, brace: &Brace, kind: Kind) -> Axial {
    let mut found = match chord.outline {
        Outline::Rectangular { depth, width } => rectangular::axial(chord, [depth, width], brace, kind),
        Outline::Round { diameter } => round::axial(chord, diameter, brace, kind),
    };
    found.factor = shape_factor(chord, brace) * grade_factor(chord, brace);
    for mode in found.modes.iter_mut().flatten() {
        *mode *= found.factor;
    }
    found
}

/// π/4 for a round brace on a flat face.
fn shape_factor(chord: &Chord, brace: &Brace) -> f64 {
    if brace.outline.is_round() && !chord.outline.is_round() { PI / 4.0 } else { 1.0 }
}

/// What the resistance is multiplied by for steel of high yield strength.
fn grade_factor(chord: &Chord, brace: &Brace) -> f64 {
    // A hair wide, so that 355 MPa as the standard names it counts as such.
    let strength = chord.yield_stress.max(brace.yield_stress) * (1.0 - 1e-9);
    if strength <= 355e6 {
        1.0
    } else if strength <= 460e6 {
        0.9
    } else {
        0.8
    }
}

/// Reduction factor of EN 1993-1-1 6.3.1.2 for a slenderness and an imperfection factor.
fn buckling_factor(slenderness: f64, imperfection: f64) -> f64 {
    let phi = buckling_phi(slenderness, imperfection);
    (1.0 / (phi + (phi * phi - slenderness * slenderness).max(0.0).sqrt())).min(1.0)
}

/// Φ = 0.5 (1 + α(λ̄ − 0.2) + λ̄²).
fn buckling_phi(slenderness: f64, imperfection: f64) -> f64 {
    0.5 * (1.0 + imperfection * (slenderness - 0.2) + slenderness * slenderness)
}

#[cfg(test)]
mod tests;

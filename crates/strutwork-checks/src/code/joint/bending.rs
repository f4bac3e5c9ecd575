//! Resistance of a joint to the moments of its brace: EN 1993-1-8 Tables 7.5 and 7.14.

use super::rectangular::{self, FACE_ALONE};
use super::{Brace, Chord, Kind, Mode, Outline, axial, grade_factor, least, round, shape_factor};

/// Resistance to moments in the plane and out of it, mode by mode, N·m, characteristic (γ_M5 = 1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bending {
    /// In the plane of chord and brace, in the order of [`Mode::ALL`]; `None` where the mode does not arise.
    pub in_plane: [Option<f64>; 6],
    /// Out of the plane.
    pub out_of_plane: [Option<f64>; 6],
}

impl Bending {
    /// The least of each, with its mode.
    pub fn governing(&self) -> [(Mode, f64); 2] {
        [least(&self.in_plane), least(&self.out_of_plane)]
    }
}

/// The resistance of a T or X joint to the moments of `brace`.
///
/// ```text
/// rectangular chord, β ≤ 0.85
///   M_ip  k_n f_y0 t₀² h₁ (1/(2η) + 2/√(1 − β) + η/(1 − β))
///   M_op  k_n f_y0 t₀² (h₁(1 + β)/(2(1 − β)) + √(2b₀b₁(1 + β)/(1 − β)))
/// above 0.85
///   M_ip  0.5 f_yk t₀ (h₁ + 5t₀)²;  f_y1 (W_pl,1 − (1 − b_eff/b₁) b₁ (h₁ − t₁) t₁)
///   M_op  f_yk t₀ (b₀ − t₀)(h₁ + 5t₀);  f_y1 (W_pl,1 − 0.5 (1 − b_eff/b₁)² b₁² t₁)
///   f_yk = f_y0 of T joints, 0.8 f_y0 of X joints
/// any β, not for X joints: distortion  M_op  2 f_y0 t₀ (h₁ t₀ + √(b₀ h₀ t₀ (b₀ + h₀)))
/// round chord
///   M_ip  4.85 f_y0 t₀² d₁ √γ β k_p/sinθ;  punching f_y0 t₀ d₁²/√3 · (1 + 3 sinθ)/(4 sin²θ)
///   M_op  f_y0 t₀² d₁ 2.7/(1 − 0.81β) k_p/sinθ;  punching f_y0 t₀ d₁²/√3 · (3 + sinθ)/(4 sin²θ)
///   rectangular brace  M_ip = h₁ N_1,Rd,  M_op = 0.5 b₁ N_1,Rd
/// ```
///
/// # Assumes
/// Table 7.14 is for rectangular braces at 90°; it is used for other angles as it stands, and times π/4 with d₁ for b₁ and h₁
/// for round ones: engineering judgement, which [`super::moments_outside`] puts into words.
///
/// # Source
/// EN 1993-1-8:2005 Tables 7.3, 7.5 and 7.14 (from memory); the four formulas out of the plane on a rectangular chord were
/// read in a manufacturer's design guide (Corus Tubes, Design of SHS welded joints, page 29).
pub fn bending(chord: &Chord, brace: &Brace, across: bool) -> Bending {
    let grade = grade_factor(chord, brace);
    let (mut found, factor) = match (chord.outline, brace.outline) {
        (Outline::Rectangular { depth, width }, _) => {
            (on_flat(chord, [depth, width], brace, across), shape_factor(chord, brace) * grade)
        }
        (Outline::Round { .. }, Outline::Rectangular { depth, width }) => {
            // The grade's factor is in the axial resistance.
            let force = axial(chord, brace, if across { Kind::X } else { Kind::Y }).modes[Mode::ChordFace as usize];
            let one = |arm: f64| {
                let mut modes = [None; 6];
                modes[Mode::ChordFace as usize] = force.map(|force| force * arm);
                modes
            };
            (Bending { in_plane: one(depth), out_of_plane: one(0.5 * width) }, 1.0)
        }
        (Outline::Round { diameter }, Outline::Round { .. }) => (on_round(chord, diameter, brace), grade),
    };
    for mode in found.in_plane.iter_mut().chain(&mut found.out_of_plane).flatten() {
        *mode *= factor;
    }
    found
}

fn on_flat(chord: &Chord, [h0, b0]: [f64; 2], brace: &Brace, across: bool) -> Bending {
    let (t0, f0) = (chord.wall, chord.yield_stress);
    let (h1, b1, t1, f1) = (brace.outline.depth(), brace.outline.width(), brace.wall, brace.yield_stress);
    let beta = rectangular::width_ratio(b1, b0);
    let eta = h1 / b0;
    let mut found = Bending { in_plane: [None; 6], out_of_plane: [None; 6] };
    if beta <= FACE_ALONE {
        let unit = rectangular::stress_factor(chord.stress_ratio, beta) * f0 * t0 * t0;
        let free = 1.0 - beta;
        found.in_plane[Mode::ChordFace as usize] =
            Some(unit * h1 * (1.0 / (2.0 * eta) + 2.0 / free.sqrt() + eta / free));
        found.out_of_plane[Mode::ChordFace as usize] =
            Some(unit * (h1 * (1.0 + beta) / (2.0 * free) + (2.0 * b0 * b1 * (1.0 + beta) / free).sqrt()));
    } else {
        let strength = if across { 0.8 * f0 } else { f0 };
        let reach = h1 + 5.0 * t0;
        found.in_plane[Mode::SideWall as usize] = Some(0.5 * strength * t0 * reach * reach);
        found.out_of_plane[Mode::SideWall as usize] = Some(strength * t0 * (b0 - t0) * reach);
        let lost = 1.0 - rectangular::effective_width([b0, t0, f0], [b1, t1, f1]) / b1;
        found.in_plane[Mode::Brace as usize] = Some((f1 * (brace.plastic[0] - lost * b1 * (h1 - t1) * t1)).max(0.0));
        found.out_of_plane[Mode::Brace as usize] =
            Some((f1 * (brace.plastic[1] - 0.5 * lost * lost * b1 * b1 * t1)).max(0.0));
    }
    if !across {
        found.out_of_plane[Mode::Distortion as usize] =
            Some(2.0 * f0 * t0 * (h1 * t0 + (b0 * h0 * t0 * (b0 + h0)).sqrt()));
    }
    found
}

fn on_round(chord: &Chord, d0: f64, brace: &Brace) -> Bending {
    let (t0, f0, d1) = (chord.wall, chord.yield_stress, brace.outline.width());
    let sin = brace.angle.sin();
    let beta = (d1 / d0).min(1.0);
    let unit = round::stress_factor(chord.stress_ratio) * f0 * t0 * t0 * d1 / sin;
    let mut found = Bending { in_plane: [None; 6], out_of_plane: [None; 6] };
    found.in_plane[Mode::ChordFace as usize] = Some(4.85 * unit * (d0 / (2.0 * t0)).sqrt() * beta);
    found.out_of_plane[Mode::ChordFace as usize] = Some(2.7 * unit / (1.0 - 0.81 * beta));
    if d1 <= d0 - 2.0 * t0 {
        let punch = f0 * t0 * d1 * d1 / 3.0_f64.sqrt() / (4.0 * sin * sin);
        found.in_plane[Mode::Punching as usize] = Some(punch * (1.0 + 3.0 * sin));
        found.out_of_plane[Mode::Punching as usize] = Some(punch * (3.0 + sin));
    }
    found
}

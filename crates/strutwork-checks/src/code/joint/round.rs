//! Axial resistance on a round chord: EN 1993-1-8 Tables 7.2 and 7.3.

use std::f64::consts::PI;

use super::{Axial, Brace, Chord, Kind, Mode, Outline, Partner};

/// k_p = 1 − 0.3 n_p (1 + n_p) ≤ 1 for a chord in compression; not below 0.
pub(super) fn stress_factor(ratio: f64) -> f64 {
    if ratio <= 0.0 { 1.0 } else { (1.0 - 0.3 * ratio * (1.0 + ratio)).clamp(0.0, 1.0) }
}

/// k_g = γ^0.2 (1 + 0.024 γ^1.2/(1 + exp(0.5 g/t₀ − 1.33))), g negative for an overlap.
fn gap_factor(gamma: f64, gap: f64, wall: f64) -> f64 {
    gamma.powf(0.2) * (1.0 + 0.024 * gamma.powf(1.2) / (1.0 + (0.5 * gap / wall - 1.33).exp()))
}

pub(super) fn axial(chord: &Chord, d0: f64, brace: &Brace, kind: Kind) -> Axial {
    let (t0, f0) = (chord.wall, chord.yield_stress);
    let width = brace.outline.width();
    let sin = brace.angle.sin();
    let gamma = d0 / (2.0 * t0);
    let beta = (width / d0).min(1.0);
    let eta = brace.outline.depth() / d0;
    let k = stress_factor(chord.stress_ratio);
    let unit = k * f0 * t0 * t0;
    let mut found = Axial {
        beta,
        gamma,
        eta,
        k,
        k_g: 1.0,
        b_eff: 0.0,
        b_second: 0.0,
        side: [0.0; 4],
        shear_area: 0.0,
        factor: 1.0,
        modes: [None; 6],
    };
    let face = match (brace.outline, kind) {
        (Outline::Rectangular { .. }, Kind::X) => 5.0 * unit / (1.0 - 0.81 * beta) * (1.0 + 0.25 * eta),
        (Outline::Rectangular { .. }, _) => unit * (4.0 + 20.0 * beta * beta) * (1.0 + 0.25 * eta),
        (Outline::Round { .. }, Kind::Y) => gamma.powf(0.2) * unit / sin * (2.8 + 14.2 * beta * beta),
        (Outline::Round { .. }, Kind::X) => unit / sin * 5.2 / (1.0 - 0.81 * beta),
        (Outline::Round { .. }, Kind::Gap { partner, gap, .. }) => {
            let first = compressed_diameter(brace, &partner);
            found.k_g = gap_factor(gamma, gap, t0);
            found.k_g * unit / sin * (1.8 + 10.2 * (first / d0).min(1.0))
        }
        (Outline::Round { .. }, Kind::Overlap { partner, share, on_top, .. }) => {
            let first = compressed_diameter(brace, &partner);
            found.k_g = gap_factor(gamma, -overlap_length(brace, &partner, share, on_top), t0);
            found.k_g * unit / sin * (1.8 + 10.2 * (first / d0).min(1.0))
        }
    };
    found.modes[Mode::ChordFace as usize] = Some(face);
    // Punching arises where the brace stands within the chord's mid-walls.
    if width <= d0 - 2.0 * t0 && !matches!(kind, Kind::Overlap { .. }) {
        let value = match brace.outline {
            Outline::Round { diameter } => f0 * t0 / 3.0_f64.sqrt() * PI * diameter * (1.0 + sin) / (2.0 * sin * sin),
            Outline::Rectangular { .. } => f0 * t0 / 3.0_f64.sqrt() * brace.area / brace.wall,
        };
        found.modes[Mode::Punching as usize] = Some(value);
    }
    found
}

/// d₁: of the brace in compression, with which the table measures both.
fn compressed_diameter(brace: &Brace, partner: &Partner) -> f64 {
    if brace.compressed { brace.outline.width() } else { partner.outline.width() }
}

/// q of an overlap, m: its share of the upper brace's footprint along the chord.
pub(super) fn overlap_length(brace: &Brace, partner: &Partner, share: f64, on_top: bool) -> f64 {
    let (depth, angle) =
        if on_top { (brace.outline.depth(), brace.angle) } else { (partner.outline.depth(), partner.angle) };
    share * depth / angle.sin()
}

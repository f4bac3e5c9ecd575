//! Axial resistance on a square or rectangular chord: EN 1993-1-8 Tables 7.10, 7.11 and 7.12.

use std::f64::consts::PI;

use super::{Axial, Brace, Chord, Kind, Mode, Partner, buckling_factor};

/// Above this width ratio the side walls begin to carry, Table 7.11.
pub(super) const FACE_ALONE: f64 = 0.85;

/// From this overlap on the sides of the overlapping brace count in full, Table 7.10.
pub(super) const HALF: f64 = 0.5;

/// From this overlap on its width on the chord counts in full, Table 7.10.
pub(super) const HEAVY: f64 = 0.8;

/// β = b₁/b₀ ≤ 1. A quotient that is 0.85 but for the rounding of sizes in metres is 0.85: 34 mm on 40 mm.
pub(super) fn width_ratio(b1: f64, b0: f64) -> f64 {
    let beta = (b1 / b0).min(1.0);
    if (beta - FACE_ALONE).abs() < 1e-9 { FACE_ALONE } else { beta }
}

/// Whether the brace can punch through the face: β ≤ 1 − 1/γ, a hair wide for the rounding of sizes in metres.
fn stands_inside(beta: f64, gamma: f64) -> bool {
    beta <= 1.0 - 1.0 / gamma + 1e-9
}

/// k_n = 1.3 − 0.4 n/β ≤ 1 for a chord in compression; not below 0.
pub(super) fn stress_factor(ratio: f64, beta: f64) -> f64 {
    if ratio <= 0.0 { 1.0 } else { (1.3 - 0.4 * ratio / beta).clamp(0.0, 1.0) }
}

/// b_eff = 10/(b₀/t₀) · f_y0 t₀/(f_y1 t₁) · b₁ ≤ b₁, of a brace on a tube with these sizes.
pub(super) fn effective_width(on: [f64; 3], brace: [f64; 3]) -> f64 {
    let [b0, t0, f0] = on;
    let [b1, t1, f1] = brace;
    (10.0 * t0 / b0 * f0 * t0 / (f1 * t1) * b1).min(b1)
}

/// b_e,p = 10/(b₀/t₀) · b₁ ≤ b₁.
fn punching_width(b0: f64, t0: f64, b1: f64) -> f64 {
    (10.0 * t0 / b0 * b1).min(b1)
}

pub(super) fn axial(chord: &Chord, [h0, b0]: [f64; 2], brace: &Brace, kind: Kind) -> Axial {
    match kind {
        Kind::Y => one_brace(chord, [h0, b0], brace, false),
        Kind::X => one_brace(chord, [h0, b0], brace, true),
        Kind::Gap { partner, gap, .. } => in_gap(chord, [h0, b0], brace, &partner, gap),
        Kind::Overlap { partner, share, on_top, .. } => overlap(chord, b0, brace, &partner, share, on_top),
    }
}

fn blank(chord: &Chord, b0: f64, h1: f64, beta: f64) -> Axial {
    Axial {
        beta,
        gamma: b0 / (2.0 * chord.wall),
        eta: h1 / b0,
        k: stress_factor(chord.stress_ratio, beta),
        k_g: 1.0,
        b_eff: 0.0,
        b_second: 0.0,
        side: [0.0; 4],
        shear_area: 0.0,
        factor: 1.0,
        modes: [None; 6],
    }
}

fn one_brace(chord: &Chord, [h0, b0]: [f64; 2], brace: &Brace, cross: bool) -> Axial {
    let (t0, f0) = (chord.wall, chord.yield_stress);
    let (h1, b1, t1, f1) = (brace.outline.depth(), brace.outline.width(), brace.wall, brace.yield_stress);
    let (sin, cos) = brace.angle.sin_cos();
    let beta = width_ratio(b1, b0);
    let mut found = blank(chord, b0, h1, beta);
    let face = |beta: f64| {
        let k = stress_factor(chord.stress_ratio, beta);
        k * f0 * t0 * t0 / ((1.0 - beta) * sin) * (2.0 * found.eta / sin + 4.0 * (1.0 - beta).sqrt())
    };
    if beta <= FACE_ALONE {
        found.modes[Mode::ChordFace as usize] = Some(face(beta));
    } else {
        let (chi, strength) = side_wall_strength(chord, h0, brace, cross);
        let k = stress_factor(chord.stress_ratio, 1.0);
        let mut side = k * strength * t0 / sin * (2.0 * h1 / sin + 10.0 * t0);
        if cross && cos > h1 / h0 {
            found.shear_area = 2.0 * h0 * t0;
            side = side.min(f0 * found.shear_area / (3.0_f64.sqrt() * sin));
        }
        let at_limit = face(FACE_ALONE);
        found.side = [chi, strength, at_limit, side];
        let place = (beta - FACE_ALONE) / (1.0 - FACE_ALONE);
        found.modes[Mode::SideWall as usize] = Some(at_limit + place * (side - at_limit));
    }
    if beta >= FACE_ALONE {
        found.b_eff = effective_width([b0, t0, f0], [b1, t1, f1]);
        found.modes[Mode::Brace as usize] = Some(f1 * t1 * (2.0 * h1 - 4.0 * t1 + 2.0 * found.b_eff));
        if stands_inside(beta, found.gamma) {
            found.b_second = punching_width(b0, t0, b1);
            let around = 2.0 * h1 / sin + 2.0 * found.b_second;
            found.modes[Mode::Punching as usize] = Some(f0 * t0 / (3.0_f64.sqrt() * sin) * around);
        }
    }
    found
}

/// χ and f_b: f_y0 in tension; χ f_y0 of T and Y joints, 0.8 χ f_y0 sinθ of X joints in compression.
fn side_wall_strength(chord: &Chord, h0: f64, brace: &Brace, cross: bool) -> (f64, f64) {
    if !brace.compressed {
        return (1.0, chord.yield_stress);
    }
    let chi = buckling_factor(side_wall_slenderness(chord, h0, brace), chord.imperfection);
    let across = if cross { 0.8 * brace.angle.sin() } else { 1.0 };
    (chi, across * chi * chord.yield_stress)
}

/// λ̄ = 3.46 (h₀/t₀ − 2) √(1/sinθ) / (π √(E/f_y0)).
pub(super) fn side_wall_slenderness(chord: &Chord, h0: f64, brace: &Brace) -> f64 {
    3.46 * (h0 / chord.wall - 2.0).max(0.0) * (1.0 / brace.angle.sin()).sqrt()
        / (PI * (chord.youngs / chord.yield_stress).sqrt())
}

/// A_v = (2h₀ + α b₀) t₀; α = 0 for round braces and √(1/(1 + 4g²/3t₀²)) for flat ones.
fn chord_shear_area(t0: f64, [h0, b0]: [f64; 2], brace: &Brace, gap: f64) -> f64 {
    let alpha = if brace.outline.is_round() {
        0.0
    } else {
        (1.0 / (1.0 + 4.0 * gap.max(0.0).powi(2) / (3.0 * t0 * t0))).sqrt()
    };
    (2.0 * h0 + alpha * b0) * t0
}

fn in_gap(chord: &Chord, [h0, b0]: [f64; 2], brace: &Brace, partner: &Partner, gap: f64) -> Axial {
    let (t0, f0) = (chord.wall, chord.yield_stress);
    let (h1, b1, t1, f1) = (brace.outline.depth(), brace.outline.width(), brace.wall, brace.yield_stress);
    let (h2, b2) = (partner.outline.depth(), partner.outline.width());
    let sin = brace.angle.sin();
    let beta = (b1 + b2 + h1 + h2) / (4.0 * b0);
    let mut found = blank(chord, b0, h1, beta);
    found.modes[Mode::ChordFace as usize] = Some(8.9 * found.k * f0 * t0 * t0 * found.gamma.sqrt() / sin * beta);
    if !face_alone([h0, b0], t0, brace, partner) {
        let root = 3.0_f64.sqrt();
        found.shear_area = chord_shear_area(t0, [h0, b0], brace, gap);
        found.modes[Mode::ChordShear as usize] = Some(f0 * found.shear_area / (root * sin));
        found.b_eff = effective_width([b0, t0, f0], [b1, t1, f1]);
        found.modes[Mode::Brace as usize] = Some(f1 * t1 * (2.0 * h1 - 4.0 * t1 + b1 + found.b_eff));
        if stands_inside(beta, found.gamma) {
            found.b_second = punching_width(b0, t0, b1);
            found.modes[Mode::Punching as usize] =
                Some(f0 * t0 / (root * sin) * (2.0 * h1 / sin + b1 + found.b_second));
        }
    }
    found
}

/// Whether Table 7.10 with chord face failure alone suffices for a gap joint: square chord, square or round braces of much the
/// same width, b₀/t₀ ≥ 15 (Table 7.9).
fn face_alone([h0, b0]: [f64; 2], t0: f64, brace: &Brace, partner: &Partner) -> bool {
    let even = |outline: super::Outline| outline.is_round() || outline.is_square();
    let mean = f64::midpoint(brace.outline.width(), partner.outline.width());
    let alike = |width: f64| (0.6..=1.3).contains(&(mean / width));
    (h0 - b0).abs() < 1e-6
        && even(brace.outline)
        && even(partner.outline)
        && alike(brace.outline.width())
        && alike(partner.outline.width())
        && b0 / t0 >= 15.0
}

/// Failure of the overlapping brace i; the overlapped one j has the same efficiency.
fn overlap(chord: &Chord, b0: f64, brace: &Brace, partner: &Partner, share: f64, on_top: bool) -> Axial {
    let own = brace.as_partner();
    let (top, under) = if on_top { (&own, partner) } else { (partner, &own) };
    let (h_i, b_i, t_i, f_i) = (top.outline.depth(), top.outline.width(), top.wall, top.yield_stress);
    let beta =
        (own.outline.width() + own.outline.depth() + partner.outline.width() + partner.outline.depth()) / (4.0 * b0);
    let mut found = blank(chord, b0, brace.outline.depth(), beta);
    found.b_eff = effective_width([b0, chord.wall, chord.yield_stress], [b_i, t_i, f_i]);
    found.b_second = effective_width([under.outline.width(), under.wall, under.yield_stress], [b_i, t_i, f_i]);
    let across = if share < HEAVY { found.b_eff } else { b_i };
    let along = 2.0 * h_i * (share / HALF).min(1.0) - 4.0 * t_i;
    let of_top = f_i * t_i * (across + found.b_second + along).max(0.0);
    let value = if on_top { of_top } else { of_top / (top.area * f_i) * brace.squash() };
    found.modes[Mode::Brace as usize] = Some(value);
    found
}

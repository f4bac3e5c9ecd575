//! For which joints the formulas hold: EN 1993-1-8 7.1.1 and Tables 7.1, 7.8 and 7.9.

use super::{Brace, Chord, Kind, Outline, Partner};

/// Sizes at a limit count as within it: a nanometre, or as much of a ratio.
const HAIR: f64 = 1e-9;

/// Young's modulus of what EN 1993 is for, Pa: wide enough for stainless steel and for rounded values.
const STEEL: std::ops::RangeInclusive<f64> = 190e9..=220e9;

/// Moments below this share of the limit are not worth a word: engineering judgement, no source.
const SLIGHT: f64 = 0.02;

/// Why the tables do not cover a joint's moments, given their parts of its utilisation; `None` where they do or are slight.
///
/// # Source
/// EN 1993-1-8:2005 7.5.2.1 and Table 7.14: T and X joints of rectangular braces at 90° (from memory).
pub fn moments_outside(chord: &Chord, brace: &Brace, parts: [f64; 2]) -> Option<String> {
    let share = parts[0] + parts[1];
    if chord.outline.is_round() || share <= SLIGHT {
        return None;
    }
    let (angle, percent) = (brace.angle.to_degrees(), share * 100.0);
    if brace.outline.is_round() {
        Some(format!("moments of a round brace ({percent:.0} % of the limit): Table 7.14 is for rectangular ones"))
    } else if angle < 89.0 {
        Some(format!("moments of a brace at {angle:.1}° ({percent:.0} % of the limit): Table 7.14 is for 90°"))
    } else {
        None
    }
}

/// Why the code does not cover a joint: each limit that is passed, with the value; empty where all hold.
///
/// ```text
/// walls              2.5 mm ≤ t; t₀ ≤ 25 mm; f_y ≤ 460 MPa (above 355 the resistance is reduced); θ ≥ 30°
/// rectangular chord  b₀/t₀, h₀/t₀, b_i/t_i, h_i/t_i ≤ 35; 0.5 ≤ h/b ≤ 2; what is compressed of class 1 or 2
///                    b_i/b₀ ≥ 0.25, K and N gap ≥ 0.35 and ≥ 0.1 + 0.01 b₀/t₀; round brace 0.4 ≤ d_i/b₀ ≤ 0.8, d_i/t_i ≤ 50
///                    gap g ≥ t₁ + t₂, g/b₀ ≥ 0.5(1 − β); overlap 25 to 100 %, b_i/b_j ≥ 0.75
/// round chord        0.2 ≤ d_i/d₀ ≤ 1; 10 ≤ d₀/t₀ ≤ 50 (X: 40); 10 ≤ d_i/t_i ≤ 50; g ≥ t₁ + t₂; overlap ≥ 25 %
/// ```
///
/// # Units and shapes
/// SI.
///
/// # Source
/// EN 1993-1-8:2005 7.1.1, 7.1.2, Tables 7.1 and 7.8 (from memory; −0.55 ≤ e/h₀ ≤ 0.25, 5.1.5(5), from memory). Class 2 walls in
/// compression: c/t ≤ 38ε with c = b − 3t, round d/t ≤ 70ε², EN 1993-1-1 Table 5.2 (from memory).
pub fn outside(chord: &Chord, brace: &Brace, kind: Kind) -> Vec<String> {
    let mut reasons = Vec::new();
    general(chord, brace, &mut reasons);
    match chord.outline {
        Outline::Rectangular { depth, width } => rectangular(chord, [depth, width], brace, kind, &mut reasons),
        Outline::Round { diameter } => round(chord, diameter, brace, kind, &mut reasons),
    }
    if let Kind::Gap { partner, gap, .. } = kind {
        let least = brace.wall + partner.wall;
        if gap < least - HAIR {
            reasons.push(format!("gap {:.1} mm, less than t₁ + t₂ = {:.1} mm", gap * 1e3, least * 1e3));
        }
    }
    if let Kind::Overlap { share, partner, .. } = kind {
        if share < 0.25 - HAIR {
            reasons.push(format!("overlap {:.0} %, less than 25 %", share * 100.0));
        }
        if share > 1.0 + HAIR {
            reasons.push(format!("overlap {:.0} %, more than 100 %", share * 100.0));
        }
        if share > 0.6 {
            reasons.push(format!(
                "overlap {:.0} %, more than 60 %: shear between braces and chord (7.1.2(6)) is not checked",
                share * 100.0
            ));
        }
        let flat = |outline: Outline| outline.depth() < outline.width() - HAIR;
        if flat(brace.outline) || flat(partner.outline) {
            reasons.push(
                "overlap of braces wider than deep: shear between braces and chord (7.1.2(6)) is not checked"
                    .to_owned(),
            );
        }
    }
    if let Kind::Gap { eccentricity, .. } | Kind::Overlap { eccentricity, .. } = kind {
        let ratio = eccentricity / chord.outline.depth();
        if !ratio.is_finite() {
            reasons.push("the axes of the braces do not cross".to_owned());
        } else if !(-0.55 - HAIR..=0.25 + HAIR).contains(&ratio) {
            let off = eccentricity * 1e3;
            reasons.push(format!(
                "the braces' axes cross {off:.1} mm off the chord's: e/h₀ = {ratio:.2}, not in −0.55 to 0.25"
            ));
        }
    }
    reasons
}

fn general(chord: &Chord, brace: &Brace, reasons: &mut Vec<String>) {
    for (name, wall) in [("chord", chord.wall), ("brace", brace.wall)] {
        if wall < 2.5e-3 - HAIR {
            reasons.push(format!("{name} wall {:.2} mm, less than 2.5 mm", wall * 1e3));
        }
    }
    if chord.wall > 25e-3 + HAIR {
        reasons.push(format!("chord wall {:.1} mm, more than 25 mm", chord.wall * 1e3));
    }
    for (name, strength) in [("chord", chord.yield_stress), ("brace", brace.yield_stress)] {
        if strength > 460e6 * (1.0 + HAIR) {
            reasons.push(format!("{name} yield strength {:.0} MPa, more than 460 MPa", strength / 1e6));
        }
    }
    if !STEEL.contains(&chord.youngs) {
        reasons.push(format!("a chord with E = {:.0} MPa is not of steel", chord.youngs / 1e6));
    }
    let angle = brace.angle.to_degrees();
    if angle < 30.0 - 1e-6 {
        reasons.push(format!("brace at {angle:.1}° to the chord, less than 30°"));
    }
}

/// Adds `name value not in least to most`.
fn within(reasons: &mut Vec<String>, name: &str, value: f64, [least, most]: [f64; 2]) {
    if value < least - HAIR {
        reasons.push(format!("{name} = {value:.2}, less than {least:.2}"));
    } else if value > most + HAIR {
        reasons.push(format!("{name} = {value:.2}, more than {most:.2}"));
    }
}

fn rectangular(chord: &Chord, [h0, b0]: [f64; 2], brace: &Brace, kind: Kind, reasons: &mut Vec<String>) {
    let t0 = chord.wall;
    let slender = |side: f64, wall: f64, strength: f64| (side - 3.0 * wall) / wall / (235e6 / strength).sqrt();
    within(reasons, "b₀/t₀", b0 / t0, [0.0, 35.0]);
    within(reasons, "h₀/t₀", h0 / t0, [0.0, 35.0]);
    within(reasons, "h₀/b₀", h0 / b0, [0.5, 2.0]);
    if chord.stress_ratio > 0.0 {
        within(reasons, "chord (b₀ − 3t₀)/(t₀ε)", slender(b0.max(h0), t0, chord.yield_stress), [0.0, 38.0]);
    }
    let t1 = brace.wall;
    match brace.outline {
        Outline::Rectangular { depth, width } => {
            within(reasons, "b₁/t₁", width / t1, [0.0, 35.0]);
            within(reasons, "h₁/t₁", depth / t1, [0.0, 35.0]);
            within(reasons, "h₁/b₁", depth / width, [0.5, 2.0]);
            if brace.compressed {
                let most = if matches!(kind, Kind::Overlap { .. }) { 33.0 } else { 38.0 };
                within(
                    reasons,
                    "brace (b₁ − 3t₁)/(t₁ε)",
                    slender(width.max(depth), t1, brace.yield_stress),
                    [0.0, most],
                );
            }
            let least = match kind {
                Kind::Gap { .. } => 0.35_f64.max(0.1 + 0.01 * b0 / t0),
                _ => 0.25,
            };
            within(reasons, "b₁/b₀", width / b0, [least, 1.0]);
        }
        Outline::Round { diameter } => {
            within(reasons, "d₁/b₀", diameter / b0, [0.4, 0.8]);
            within(reasons, "d₁/t₁", diameter / t1, [0.0, 50.0]);
            if brace.compressed {
                within(reasons, "brace d₁/(t₁ε²)", diameter / t1 * brace.yield_stress / 235e6, [0.0, 50.0]);
            }
        }
    }
    match kind {
        Kind::Gap { partner, gap, .. } => {
            let beta = mean_ratio(brace, &partner, b0);
            let least = 0.5 * (1.0 - beta);
            if least > 0.0 {
                within(reasons, "g/b₀", gap / b0, [least, f64::INFINITY]);
            }
        }
        Kind::Overlap { partner, on_top, .. } => {
            let (top, under) = if on_top {
                (brace.outline.width(), partner.outline.width())
            } else {
                (partner.outline.width(), brace.outline.width())
            };
            within(reasons, "b_i/b_j of the overlap", top / under, [0.75, f64::INFINITY]);
        }
        Kind::Y | Kind::X => {}
    }
}

/// (b₁ + b₂ + h₁ + h₂)/(4b₀), the β of a K or N joint on a rectangular chord.
fn mean_ratio(brace: &Brace, partner: &Partner, b0: f64) -> f64 {
    let around = |outline: Outline| outline.width() + outline.depth();
    (around(brace.outline) + around(partner.outline)) / (4.0 * b0)
}

/// Whether a gap joint on a rectangular chord is so wide that each brace counts as a joint of its own: g/b₀ > 1.5(1 − β) and
/// g ≥ t₁ + t₂ (Table 7.8, note; from memory).
pub fn stands_apart(chord: &Chord, brace: &Brace, partner: &Partner, gap: f64) -> bool {
    let Outline::Rectangular { width, .. } = chord.outline else { return false };
    let beta = mean_ratio(brace, partner, width);
    gap >= brace.wall + partner.wall && gap / width > 1.5 * (1.0 - beta)
}

fn round(chord: &Chord, d0: f64, brace: &Brace, kind: Kind, reasons: &mut Vec<String>) {
    let t0 = chord.wall;
    let most = if matches!(kind, Kind::X) { 40.0 } else { 50.0 };
    within(reasons, "d₀/t₀", d0 / t0, [10.0, most]);
    if chord.stress_ratio > 0.0 {
        within(reasons, "chord d₀/(t₀ε²)", d0 / t0 * chord.yield_stress / 235e6, [0.0, 70.0]);
    }
    match brace.outline {
        Outline::Round { diameter } => {
            within(reasons, "d₁/d₀", diameter / d0, [0.2, 1.0]);
            within(reasons, "d₁/t₁", diameter / brace.wall, [10.0, 50.0]);
            if brace.compressed {
                within(reasons, "brace d₁/(t₁ε²)", diameter / brace.wall * brace.yield_stress / 235e6, [0.0, 70.0]);
            }
        }
        Outline::Rectangular { depth, width } => {
            within(reasons, "b₁/d₀", width / d0, [0.4, 1.0]);
            within(reasons, "h₁/d₀", depth / d0, [0.0, 4.0]);
            if brace.angle.to_degrees() < 89.0 {
                reasons.push("rectangular brace on a round chord at another angle than 90°".to_owned());
            }
            if matches!(kind, Kind::Gap { .. } | Kind::Overlap { .. }) {
                reasons.push("K or N joint of rectangular braces on a round chord".to_owned());
            }
        }
    }
}

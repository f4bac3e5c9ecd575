//! Joints against hand calculations, and laws that hold for all of them.

mod hand;
mod laws;

use super::*;

/// A square tube as a chord, mm and MPa: cold formed, nothing compressed.
fn square_chord(side: f64, wall: f64, strength: f64) -> Chord {
    rectangular_chord(side, side, wall, strength)
}

fn rectangular_chord(depth: f64, width: f64, wall: f64, strength: f64) -> Chord {
    let [depth, width, wall] = [depth, width, wall].map(|size| size * 1e-3);
    Chord {
        outline: Outline::Rectangular { depth, width },
        wall,
        yield_stress: strength * 1e6,
        youngs: 210e9,
        area: 2.0 * wall * (depth + width - 2.0 * wall),
        imperfection: 0.49,
        stress_ratio: 0.0,
    }
}

fn round_chord(diameter: f64, wall: f64, strength: f64) -> Chord {
    let (diameter, wall) = (diameter * 1e-3, wall * 1e-3);
    let area = PI * wall * (diameter - wall);
    Chord { outline: Outline::Round { diameter }, area, ..square_chord(1.0, wall * 1e3, strength) }
}

/// A rectangular brace in compression, mm, MPa, degrees; section values of sharp corners.
fn brace([depth, width, wall]: [f64; 3], strength: f64, angle: f64) -> Brace {
    let [h, b, t] = [depth, width, wall].map(|size| size * 1e-3);
    let plastic = |h: f64, b: f64| (b * h * h - (b - 2.0 * t) * (h - 2.0 * t).powi(2)) / 4.0;
    let elastic = |h: f64, b: f64| (b * h.powi(3) - (b - 2.0 * t) * (h - 2.0 * t).powi(3)) / (6.0 * h);
    Brace {
        outline: Outline::Rectangular { depth: h, width: b },
        wall: t,
        yield_stress: strength * 1e6,
        area: 2.0 * t * (h + b - 2.0 * t),
        plastic: [plastic(h, b), plastic(b, h)],
        elastic: [elastic(h, b), elastic(b, h)],
        angle: angle.to_radians(),
        compressed: true,
    }
}

fn round_brace(diameter: f64, wall: f64, strength: f64, angle: f64) -> Brace {
    let (d, t) = (diameter * 1e-3, wall * 1e-3);
    let plastic = (d.powi(3) - (d - 2.0 * t).powi(3)) / 6.0;
    let elastic = PI * (d.powi(4) - (d - 2.0 * t).powi(4)) / (32.0 * d);
    Brace {
        outline: Outline::Round { diameter: d },
        area: PI * t * (d - t),
        plastic: [plastic; 2],
        elastic: [elastic; 2],
        ..brace([1.0, 1.0, wall], strength, angle)
    }
}

fn gap(partner: &Brace, gap: f64) -> Kind {
    Kind::Gap { partner: partner.as_partner(), gap: gap * 1e-3, eccentricity: 0.0 }
}

fn overlap(partner: &Brace, share: f64, on_top: bool) -> Kind {
    Kind::Overlap { partner: partner.as_partner(), share, on_top, eccentricity: 0.0 }
}

fn acting(axial: f64, in_plane: f64, out_of_plane: f64) -> Acting {
    Acting { axial, moments: [in_plane, out_of_plane], chord: ChordForces::NONE, chord_axial: 0.0, margin: 1.0 }
}

fn mode(axial: &Axial, mode: Mode) -> f64 {
    axial.modes[mode as usize].unwrap_or_else(|| panic!("{} does not arise", mode.word()))
}

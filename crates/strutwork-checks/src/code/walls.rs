//! The greatest elastic stresses in a section, from what acts on it.

use crate::calculation::{Put, Sink, Unit};

/// Properties that stresses follow from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walls {
    /// A, m².
    pub area: f64,
    /// W_el about y and z, m³; equal for a round section.
    pub moduli: [f64; 2],
    /// W_t, m³.
    pub torsion: f64,
    /// Shear areas for V_y and V_z, m².
    pub shear: [f64; 2],
    /// How the parts of the stress come together.
    pub kind: Kind,
}

/// How bending about two axes, and shear along two, come together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A rectangular tube: corners take both moments, each pair of walls one shear.
    Hollow,
    /// Round: one resultant of each.
    Round,
    /// A solid flat: corners take both moments, the middle the resultant of both shears.
    Flat,
}

/// What acts at one place along a tube, tube axes, margin included; signs do not matter. N, N·m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Acting {
    /// Axial force.
    pub axial: f64,
    /// Along y and z.
    pub shear: [f64; 2],
    /// Torque.
    pub torque: f64,
    /// About y and z.
    pub moments: [f64; 2],
}

/// Greatest normal and greatest shear stress, Pa; the two need not meet in one point.
///
/// ```text
/// σ = N/A + M_y/W_y + M_z/W_z          round: N/A + √(M_y² + M_z²)/W_y
/// τ = T/W_t + max(V_y/A_y, V_z/A_z)    round and flat: T/W_t + √((V_y/A_y)² + (V_z/A_z)²)
/// ```
///
/// # Source
/// Elementary beam theory; shear areas of EN 1993-1-1:2005 6.2.6(3) (from memory).
pub fn stresses(walls: &Walls, acting: &Acting, sink: &mut impl Sink) -> [f64; 2] {
    let [vy, vz] = acting.shear.map(f64::abs);
    let [my, mz] = acting.moments.map(f64::abs);
    let (n, t) = (acting.axial.abs(), acting.torque.abs());
    let ([wy, wz], [ay, az]) = (walls.moduli, walls.shear);
    let bending = if walls.kind == Kind::Round { my.hypot(mz) / wy } else { my / wy + mz / wz };
    let sheared = if walls.kind == Kind::Hollow { (vy / ay).max(vz / az) } else { (vy / ay).hypot(vz / az) };
    let found = [n / walls.area + bending, t / walls.torsion + sheared];
    if sink.writes() {
        let put: [Put<'_>; 12] = [
            ("A", walls.area, Unit::MM2),
            ("W_y", wy, Unit::MM3),
            ("W_z", wz, Unit::MM3),
            ("W_t", walls.torsion, Unit::MM3),
            ("A_y", ay, Unit::MM2),
            ("A_z", az, Unit::MM2),
            ("N", n, Unit::N),
            ("V_y", vy, Unit::N),
            ("V_z", vz, Unit::N),
            ("T", t, Unit::NM),
            ("M_y", my, Unit::NM),
            ("M_z", mz, Unit::NM),
        ];
        let notes = [
            "section area",
            "elastic modulus about y",
            "elastic modulus about z",
            "torsion modulus",
            "shear area for V_y",
            "shear area for V_z",
            "axial force, margin included, like the next five",
            "shear along y",
            "shear along z",
            "torque",
            "moment about y",
            "moment about z",
        ];
        for ((symbol, value, unit), note) in put.into_iter().zip(notes) {
            sink.given(symbol, value, unit, note);
        }
        let round = walls.kind == Kind::Round;
        let normal = if round {
            "N / A + 1000 · √(M_y² + M_z²) / W_y"
        } else {
            "N / A + 1000 · M_y / W_y + 1000 · M_z / W_z"
        };
        let shear = if walls.kind == Kind::Hollow {
            "1000 · T / W_t + max(V_y / A_y, V_z / A_z)"
        } else {
            "1000 · T / W_t + √((V_y / A_y)² + (V_z / A_z)²)"
        };
        sink.step("σ", normal, &put, found[0], Unit::MPA, "greatest normal stress");
        sink.step("τ", shear, &put, found[1], Unit::MPA, "greatest shear stress, taken in the same point");
    }
    found
}

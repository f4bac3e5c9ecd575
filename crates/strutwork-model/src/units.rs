//! The doors: the only conversion factors between what users write and the SI units inside.

/// Standard gravity, m/s².
///
/// # Source
/// ISO 80000-3:2019, item 3-9.2 (standard acceleration of free fall, 9.806 65 m/s², exact); clause from memory.
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// Millimetres to metres.
pub const MM: f64 = 1e-3;
/// Square millimetres to square metres.
pub const MM2: f64 = 1e-6;
/// Cubic millimetres to cubic metres.
pub const MM3: f64 = 1e-9;
/// Millimetres to the fourth, to metres to the fourth.
pub const MM4: f64 = 1e-12;
/// Megapascals (N/mm²) to pascals.
pub const MPA: f64 = 1e6;
/// Degrees to radians.
pub const DEG: f64 = std::f64::consts::PI / 180.0;
/// Newtons a millimetre to newtons a metre.
pub const N_PER_MM: f64 = 1e3;
/// Newton metres a degree to newton metres a radian.
pub const NM_PER_DEG: f64 = 180.0 / std::f64::consts::PI;

/// Metres to millimetres. Divides, so that 1.2 m shows as 1200 mm, not 1199.9999999999998.
pub fn to_mm(metres: f64) -> f64 {
    metres / MM
}

/// Radians to degrees.
pub fn to_deg(radians: f64) -> f64 {
    radians.to_degrees()
}

/// Pascals to megapascals.
pub fn to_mpa(pascals: f64) -> f64 {
    pascals / MPA
}

/// Newton metres a radian to newton metres a degree.
pub fn to_nm_per_deg(stiffness: f64) -> f64 {
    stiffness / NM_PER_DEG
}

/// Radians a newton metre to degrees a kilonewton metre: twist over couple.
pub fn to_deg_per_knm(twist: f64) -> f64 {
    twist * NM_PER_DEG * 1e3
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn doors_close_again() {
        assert_eq!(to_mm(1.2 * MM * 1000.0), 1200.0);
        assert_eq!(to_mpa(235.0 * MPA), 235.0);
        assert!((to_deg(90.0 * DEG) - 90.0).abs() < 1e-12);
        assert!((to_nm_per_deg(1.0 * NM_PER_DEG) - 1.0).abs() < 1e-15);
        assert!((to_deg_per_knm(1.0 / (2500.0 * NM_PER_DEG)) - 0.4).abs() < 1e-15);
    }
}

//! Solid flat bars, and sections given by their properties alone.

use std::f64::consts::PI;

use super::build::{corners, mm};
use super::{Section, Shape};

/// Torsion constant J and torsion modulus (greatest shear stress τ = T/W) of a solid rectangle.
///
/// ```text
/// J = a b³ [1/3 − (64/π⁵)(b/a) Σ tanh(nπa/2b)/n⁵],  W = J / (b [1 − (8/π²) Σ 1/(n² cosh(nπa/2b))]),  n = 1, 3, 5, …
/// ```
/// with a the longer side, b the shorter.
///
/// # Units and shapes
/// m in; m⁴ and m³ out.
///
/// # Source
/// Timoshenko & Goodier, Theory of Elasticity, 3rd ed. 1970, article 109 (from memory; there 2a × 2b with a the half of the
/// shorter side). The tests check it against the closed limits and the numbers printed there.
fn torsion(height: f64, width: f64) -> (f64, f64) {
    let (a, b) = (height.max(width), height.min(width));
    let mut sum = 0.0;
    let mut edge = 0.0;
    // The terms fall with n⁵ and exponentially: forty of them leave nothing in the last digit.
    for n in (1..80).step_by(2).map(f64::from).rev() {
        let argument = n * PI * a / (2.0 * b);
        sum += argument.tanh() / n.powi(5);
        edge += 1.0 / (n.powi(2) * argument.cosh());
    }
    let j = a * b.powi(3) * (1.0 / 3.0 - 64.0 / PI.powi(5) * (b / a) * sum);
    (j, j / (b * (1.0 - 8.0 / PI.powi(2) * edge)))
}

/// A solid flat bar. The shear areas give the greatest elastic shear stress, τ = 3V/2A at the middle.
pub(super) fn flat(name: String, height: f64, width: f64) -> Section {
    let area = height * width;
    let (j, torsion_modulus) = torsion(height, width);
    let (wel_y, wel_z) = (width * height.powi(2) / 6.0, height * width.powi(2) / 6.0);
    Section {
        name,
        shape: Shape::Flat { height, width },
        label: format!("flat {} × {} mm", mm(height), mm(width)),
        area,
        iy: width * height.powi(3) / 12.0,
        iz: height * width.powi(3) / 12.0,
        j,
        wel_y: Some(wel_y),
        wel_z: Some(wel_z),
        wpl_y: Some(1.5 * wel_y),
        wpl_z: Some(1.5 * wel_z),
        torsion_modulus: Some(torsion_modulus),
        shear_area_y: Some(area / 1.5),
        shear_area_z: Some(area / 1.5),
        surface: Some(2.0 * (height + width)),
        fibres: corners(height, width),
        round_radius: None,
        route: None,
        source: "closed form for the rectangle; torsion after Timoshenko & Goodier (from memory)".to_owned(),
    }
}

/// A section of which only these properties are known.
pub(super) fn properties(name: String, [area, iy, iz, j]: [f64; 4]) -> Section {
    Section {
        name,
        shape: Shape::Properties,
        label: format!("given by its properties, A = {} mm²", (area * 1e12).round() / 1e6),
        area,
        iy,
        iz,
        j,
        wel_y: None,
        wel_z: None,
        wpl_y: None,
        wpl_z: None,
        torsion_modulus: None,
        shear_area_y: None,
        shear_area_z: None,
        surface: None,
        fibres: Vec::new(),
        round_radius: None,
        route: None,
        source: "properties as given in model.toml".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::torsion;

    // Timoshenko & Goodier, Theory of Elasticity, table in article 109 (from memory): k1 (M = k1 Gθ (2a)³(2b)) and k2
    // (τmax = M/(k2 (2a)²(2b))) for the ratio of the sides.
    const TABLE: [(f64, f64, f64); 5] =
        [(1.0, 0.1406, 0.208), (1.5, 0.196, 0.231), (2.0, 0.229, 0.246), (3.0, 0.263, 0.267), (10.0, 0.312, 0.312)];

    #[test]
    fn torsion_of_a_rectangle_follows_the_printed_table() {
        for (ratio, k1, k2) in TABLE {
            let (j, w) = torsion(2.0, 2.0 * ratio);
            let half_digit = if ratio == 1.0 { 0.5e-4 } else { 0.5e-3 };
            assert!((j / (8.0 * 2.0 * ratio) - k1).abs() <= half_digit, "k1 at {ratio}");
            // The series gives 0.2459 and 0.2672 at 2 and 3: the printed third digit.
            assert!((w / (4.0 * 2.0 * ratio) - k2).abs() <= 0.5e-3, "k2 at {ratio}");
        }
    }

    #[test]
    fn a_long_rectangle_tends_to_a_strip_and_turning_it_changes_nothing() {
        let (j, w) = torsion(1.0, 1e4);
        assert!((j / 1e4 - 1.0 / 3.0).abs() < 1e-4);
        assert!((w / 1e4 - 1.0 / 3.0).abs() < 1e-4);
        assert_eq!(torsion(3.0, 7.0), torsion(7.0, 3.0));
    }
}

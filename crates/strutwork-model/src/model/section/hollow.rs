//! Square and rectangular hollow sections with rounded corners, after EN 10219-2 Annex B.

use std::f64::consts::PI;

use super::{Route, Section, Shape};

/// The outer corner radius that EN 10219-2 calculates with, for a wall of this thickness.
///
/// ```text
/// r0 = 2.0 T (T ≤ 6 mm), 2.5 T (6 mm < T ≤ 10 mm), 3.0 T (T > 10 mm)
/// ```
///
/// # Units and shapes
/// m in, m out.
///
/// # Source
/// EN 10219-2, Annex B (from memory; the section tables that the tests quote agree with it to their last digit).
pub fn standard_outer_radius(wall: f64) -> f64 {
    // A hair wide, so that 6 mm written in metres counts as 6 mm.
    let factor = if wall <= 0.006 + 1e-9 {
        2.0
    } else if wall <= 0.010 + 1e-9 {
        2.5
    } else {
        3.0
    };
    factor * wall
}

/// Where the formulas come from, as the report prints it.
const SOURCE: &str = "EN 10219-2 Annex B formulas (from memory, checked against printed section tables); \
                      shear areas EN 1993-1-1 6.2.6(3) (from memory)";
const SOURCE_SHARP: &str = "sharp-cornered idealisation: EN 10219-2 Annex B formulas (from memory) with corner radius 0, \
                            the torsion constant along the sharp mid-line; shear areas EN 1993-1-1 6.2.6(3) (from memory)";

/// Distance of the centroid of a corner's missing piece from the tangent lines, over the radius, less than one half.
fn corner_centroid() -> f64 {
    3.0_f64.mul_add(-PI, 10.0) / 3.0_f64.mul_add(-PI, 12.0)
}

/// The piece that a radius takes off one sharp corner: area, and second moment about its own centroid.
fn corner(radius: f64) -> (f64, f64) {
    let area = (1.0 - PI / 4.0) * radius.powi(2);
    let own = (1.0 / 3.0 - PI / 16.0 - 1.0 / (3.0 * 3.0_f64.mul_add(-PI, 12.0))) * radius.powi(4);
    (area, own)
}

/// Second moment and plastic modulus for bending across the height `h` of a hollow rectangle `b` wide.
fn bending(h: f64, b: f64, t: f64, outer: f64, inner: f64) -> (f64, f64) {
    let ((a_o, own_o), (a_i, own_i)) = (corner(outer), corner(inner));
    let arm_o = h / 2.0 - corner_centroid() * outer;
    let arm_i = (h - 2.0 * t) / 2.0 - corner_centroid() * inner;
    let (h_i, b_i) = (h - 2.0 * t, b - 2.0 * t);
    let second = b * h.powi(3) / 12.0 - b_i * h_i.powi(3) / 12.0 - 4.0 * (own_o + a_o * arm_o.powi(2))
        + 4.0 * (own_i + a_i * arm_i.powi(2));
    let plastic = b * h.powi(2) / 4.0 - b_i * h_i.powi(2) / 4.0 - 4.0 * a_o * arm_o + 4.0 * a_i * arm_i;
    (second, plastic)
}

/// A hollow rectangle whose sizes are known to fit.
///
/// Area and bending are exact for the rounded shape. The torsion constant is the cell's plus the wall's own, 0.2 to 0.3 %
/// below the exact value for tubes of frame size; the torsion modulus gives the shear stress at the outside of the wall.
/// The fibres are the four sharp corners: for a rounded corner that is on the safe side by up to some 5 % when a tube bends
/// both ways at once.
///
/// ```text
/// A  = 2T(B + H − 2T) − (4 − π)(r0² − ri²)
/// It = T³h/3 + 2 K Ah,  h = 2[(B − T) + (H − T)] − 2 Rc(4 − π),  Ah = (B − T)(H − T) − Rc²(4 − π),  K = 2 Ah T/h
/// Ct = It/(T + K/T)
/// ```
pub(super) fn section(name: String, height: f64, width: f64, wall: f64, outer: f64) -> Section {
    let inner = (outer - wall).max(0.0);
    let (h, b, t) = (height, width, wall);
    let area = 2.0 * t * (b + h - 2.0 * t) - (4.0 - PI) * (outer.powi(2) - inner.powi(2));
    let (iy, wpl_y) = bending(h, b, t, outer, inner);
    let (iz, wpl_z) = bending(b, h, t, outer, inner);
    let middle = f64::midpoint(outer, inner);
    let line = 2.0 * ((b - t) + (h - t)) - 2.0 * middle * (4.0 - PI);
    let cell = (b - t) * (h - t) - middle.powi(2) * (4.0 - PI);
    let k = 2.0 * cell * t / line;
    let j = t.powi(3) * line / 3.0 + 2.0 * k * cell;
    Section {
        name,
        shape: Shape::Hollow { height, width, wall, outer_radius: outer },
        label: label(height, width, wall, outer),
        area,
        iy,
        iz,
        j,
        wel_y: Some(2.0 * iy / h),
        wel_z: Some(2.0 * iz / b),
        wpl_y: Some(wpl_y),
        wpl_z: Some(wpl_z),
        torsion_modulus: Some(j / (t + k / t)),
        shear_area_y: Some(area * b / (b + h)),
        shear_area_z: Some(area * h / (b + h)),
        surface: Some(2.0 * (h + b - 4.0 * outer + PI * outer)),
        fibres: super::build::corners(h, b),
        round_radius: None,
        route: Some(Route::ColdFormed),
        source: if outer > 0.0 { SOURCE } else { SOURCE_SHARP }.to_owned(),
    }
}

fn label(height: f64, width: f64, wall: f64, outer: f64) -> String {
    use super::build::mm;
    let word = if (height - width).abs() < 1e-9 { "square" } else { "rectangular" };
    let corner = if outer > 0.0 { "" } else { ", sharp corners" };
    format!("{word} {} × {} × {} mm{corner}", mm(height), mm(width), mm(wall))
}

//! The weld round the end of a tube, seen as a closed line of unit throat.

use std::f64::consts::PI;

/// Outside sizes of the tube that is welded on, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outline {
    /// Square, rectangular or flat.
    Rectangular {
        /// h, in the plane of tube and face normal.
        depth: f64,
        /// b, across that plane.
        width: f64,
        /// r, outer corner radius; 0 for sharp corners.
        corner: f64,
    },
    /// Round.
    Round {
        /// d.
        diameter: f64,
    },
}

/// The weld as a closed line of unit throat in the face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldLine {
    /// Sides in the plane of tube and face normal (u) and across it (v), m; the axes of the ellipse of a round tube.
    pub sides: [f64; 2],
    /// L, m.
    pub length: f64,
    /// Moduli for moments in the plane of tube and face normal, and out of it, m².
    pub moduli: [f64; 2],
    /// Enclosed area, m².
    pub enclosed: f64,
}

impl Outline {
    /// Whether it is round.
    pub const fn is_round(self) -> bool {
        matches!(self, Self::Round { .. })
    }

    /// The line that a tube with this outline meets a face in, at an angle between tube and face, rad.
    ///
    /// ```text
    /// rectangular: u = (h − (2 − π/2) r)/sinθ,  v = b − (2 − π/2) r,  L = 2(u + v)
    ///              W_ip = u²/3 + uv,  W_op = v²/3 + uv,  A_m = uv
    /// round:       u = d/sinθ,  v = d,  L = π(u + v)/2,  W_ip = πu(u + 3v)/16,  W_op = πv(3u + v)/16,
    ///              A_m = πuv/4
    /// ```
    ///
    /// A square tube of sharp corners cut square: L = 4b, W = 4b²/3, A_m = b².
    ///
    /// # Assumes
    /// Rounded corners: each side is shorter by what the four corners take off a quarter of the outline. Length and moduli of
    /// the ellipse are lower bounds, exact for the circle: √(u² sin² + v² cos²) is at least u sin² + v cos².
    ///
    /// # Source
    /// Derived.
    pub fn line(self, angle: f64) -> WeldLine {
        let sin = angle.sin();
        match self {
            Self::Rectangular { depth, width, corner } => {
                let less = (2.0 - PI / 2.0) * corner;
                let (u, v) = ((depth - less) / sin, width - less);
                WeldLine {
                    sides: [u, v],
                    length: 2.0 * (u + v),
                    moduli: [u * u / 3.0 + u * v, v * v / 3.0 + u * v],
                    enclosed: u * v,
                }
            }
            Self::Round { diameter } => {
                let (u, v) = (diameter / sin, diameter);
                WeldLine {
                    sides: [u, v],
                    length: PI * (u + v) / 2.0,
                    moduli: [PI * u * (u + 3.0 * v) / 16.0, PI * v * (3.0 * u + v) / 16.0],
                    enclosed: PI * u * v / 4.0,
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Length, moduli and enclosed area of any closed line, by going along it in small steps.
    fn along(point: impl Fn(f64) -> [f64; 2]) -> (f64, [f64; 2], f64) {
        let steps = 200_000;
        let (mut length, mut second, mut area, mut most) = (0.0, [0.0; 2], 0.0, [0.0_f64; 2]);
        for step in 0..steps {
            let [a, b] = [step, step + 1].map(|at| point(f64::from(at) / f64::from(steps)));
            let piece = (b[0] - a[0]).hypot(b[1] - a[1]);
            length += piece;
            for axis in 0..2 {
                second[axis] += piece * (a[axis] * a[axis] + a[axis] * b[axis] + b[axis] * b[axis]) / 3.0;
                most[axis] = most[axis].max(a[axis].abs());
            }
            area += (a[0] * b[1] - b[0] * a[1]) / 2.0;
        }
        (length, [second[0] / most[0], second[1] / most[1]], area)
    }

    #[test]
    fn a_sharp_square_cut_square() {
        let line = Outline::Rectangular { depth: 0.05, width: 0.05, corner: 0.0 }.line(PI / 2.0);
        assert!((line.length - 0.2).abs() < 1e-15);
        for modulus in line.moduli {
            assert!((modulus - 4.0 * 0.05 * 0.05 / 3.0).abs() < 1e-15);
        }
        assert!((line.enclosed - 0.0025).abs() < 1e-15);
    }

    #[test]
    fn a_rectangle_cut_at_45_degrees_is_that_of_its_footprint() {
        let line = Outline::Rectangular { depth: 0.03, width: 0.05, corner: 0.0 }.line(PI / 4.0);
        let (u, v) = (0.03 * 2.0_f64.sqrt(), 0.05);
        let corners = [[u, v], [-u, v], [-u, -v], [u, -v], [u, v]].map(|[x, y]| [x / 2.0, y / 2.0]);
        let (length, moduli, area) = along(|at| {
            let side = ((at * 4.0).floor() as usize).min(3);
            let share = at * 4.0 - side as f64;
            [0, 1].map(|axis| corners[side][axis] * (1.0 - share) + corners[side + 1][axis] * share)
        });
        for (ours, theirs) in
            [(line.length, length), (line.moduli[0], moduli[0]), (line.moduli[1], moduli[1]), (line.enclosed, area)]
        {
            assert!((ours / theirs - 1.0).abs() < 1e-6, "{ours} {theirs}");
        }
    }

    /// Exact for the circle, never more than the ellipse has.
    #[test]
    fn a_round_tube_is_a_lower_bound() {
        for degrees in [30.0_f64, 45.0, 60.0, 90.0] {
            let line = Outline::Round { diameter: 0.05 }.line(degrees.to_radians());
            let [u, v] = line.sides;
            let (length, moduli, area) = along(|at| {
                let (sin, cos) = (2.0 * PI * at).sin_cos();
                [u / 2.0 * cos, v / 2.0 * sin]
            });
            assert!((line.enclosed / area - 1.0).abs() < 1e-6);
            for (ours, exact) in [(line.length, length), (line.moduli[0], moduli[0]), (line.moduli[1], moduli[1])] {
                let ratio = ours / exact;
                let least = if degrees == 90.0 { 1.0 - 1e-6 } else { 0.9 };
                assert!(ratio < 1.0 + 1e-6 && ratio > least, "{degrees}: {ratio}");
            }
        }
    }

    /// Rounded corners: the perimeter of the section, 2(h + b) − (8 − 2π) r.
    #[test]
    fn rounded_corners_shorten_the_line_to_the_outline() {
        let line = Outline::Rectangular { depth: 0.04, width: 0.06, corner: 0.006 }.line(PI / 2.0);
        assert!((line.length - (0.2 - (8.0 - 2.0 * PI) * 0.006)).abs() < 1e-15);
    }
}

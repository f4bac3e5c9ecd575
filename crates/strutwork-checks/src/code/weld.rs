//! Fillet welds round the end of a tube after EN 1993-1-8 section 4: directional and simplified method.

use std::f64::consts::{PI, SQRT_2};

use super::joint::Outline;
use super::{Partial, Verdict};
use crate::calculation::{Put, Sink, Unit};

/// Where the formulas come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-8:2005 4.5.3 (read in several design guides); weld line as a thin closed line (derived); scope of \
                          walls and throats 4.1, 4.5.2, 4.3.2.1 (from memory)";

/// Added to the triangle of a fillet for its crown, as a share of its area (common practice, no source).
const CROWN: f64 = 0.2;

/// A weld all round the end of a tube that stands on a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weld {
    /// Sizes of the tube: h in the plane of tube and chord, b across it, m.
    pub outline: Outline,
    /// Outer corner radius of the tube, m; 0 for a round tube.
    pub corner: f64,
    /// Wall of the tube, m.
    pub wall: f64,
    /// θ between tube and face, rad, 0 < θ ≤ π/2; π/2 is a square cut.
    pub angle: f64,
    /// Throat a, m.
    pub throat: f64,
    /// f_y of the tube, Pa: the lower of the parent's and that beside the weld.
    pub yield_stress: f64,
    /// f_u of the weaker part joined, Pa, likewise.
    pub ultimate: f64,
    /// β_w.
    pub correlation: f64,
}

/// The weld seen as a closed line of unit throat in the face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldLine {
    /// Sides along the chord and across it, m; the axes of the ellipse of a round tube.
    pub sides: [f64; 2],
    /// L, m.
    pub length: f64,
    /// Moduli for moments in the plane of tube and chord, and out of it, m².
    pub moduli: [f64; 2],
    /// Enclosed area, m².
    pub enclosed: f64,
    /// Whether the line is an ellipse.
    pub round: bool,
}

/// What the tube brings to the face, in axes of the face, margin included: N, N·m. Magnitudes; signs do not matter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OnFace {
    /// Square to the face.
    pub normal: f64,
    /// In the face along the chord, and across it.
    pub shear: [f64; 2],
    /// Moments in the plane of tube and chord, and out of it.
    pub moments: [f64; 2],
    /// Moment about the face's normal.
    pub torque: f64,
}

impl Weld {
    /// The weld line.
    ///
    /// ```text
    /// rectangular: u = (h − (2 − π/2) r)/sinθ,  v = b − (2 − π/2) r,  L = 2(u + v)
    ///              W_ip = u²/3 + uv,  W_op = v²/3 + uv,  A_m = uv
    /// round:       u = d/sinθ,  v = d,  L = π(u + v)/2,  W_ip = πuv/4,  W_op = πv²/4,  A_m = πuv/4
    /// ```
    ///
    /// A square tube of sharp corners cut square: L = 4b, W = 4b²/3, A_m = b².
    ///
    /// # Assumes
    /// Corners of radius r shorten each side by as much as they shorten the line. The moduli of an ellipse are lower bounds.
    ///
    /// # Source
    /// Derived.
    pub fn line(&self) -> WeldLine {
        let sin = self.angle.sin();
        match self.outline {
            Outline::Rectangular { depth, width } => {
                let corner = (2.0 - PI / 2.0) * self.corner;
                let (u, v) = ((depth - corner) / sin, width - corner);
                WeldLine {
                    sides: [u, v],
                    length: 2.0 * (u + v),
                    moduli: [u * u / 3.0 + u * v, v * v / 3.0 + u * v],
                    enclosed: u * v,
                    round: false,
                }
            }
            Outline::Round { diameter } => {
                let (u, v) = (diameter / sin, diameter);
                let quarter = PI / 4.0;
                WeldLine {
                    sides: [u, v],
                    length: PI * (u + v) / 2.0,
                    moduli: [quarter * u * v, quarter * v * v],
                    enclosed: quarter * u * v,
                    round: true,
                }
            }
        }
    }

    /// Mass of weld metal, kg, for a density in kg/m³: the triangle of throat a, a² L, and a fifth for its crown.
    ///
    /// # Source
    /// Common practice, no source.
    pub fn metal(&self, density: f64) -> f64 {
        self.throat * self.throat * self.line().length * density * (1.0 + CROWN)
    }

    /// The throat at which the weld is as strong as the tube's wall pulled square to the weld, m.
    ///
    /// ```text
    /// a = √2 β_w γ_M2 f_y t / (γ_M0 f_u)
    /// ```
    ///
    /// # Source
    /// Derived from EN 1993-1-8 4.5.3.2 with 7.3.1(4): the weld's resistance a length is not to be less than the wall's (read).
    pub fn full_strength_throat(&self, partial: &Partial) -> f64 {
        SQRT_2 * self.correlation * partial.m2 * self.yield_stress * self.wall / (partial.m0 * self.ultimate)
    }

    /// Why the code does not cover the weld, one reason an entry.
    ///
    /// # Source
    /// Walls of 4 mm and over, of hollow section joints 2.5 mm and over: EN 1993-1-8 4.1; throats of 3 mm and over: 4.5.2(2); faces
    /// at 60° to 120°: 4.3.2.1 (all from memory).
    pub fn outside(&self) -> Vec<String> {
        let mut reasons = Vec::new();
        if self.wall < 2.5e-3 - 1e-9 {
            reasons.push(format!(
                "wall {:.2} mm: fillet welds are covered from 4 mm, those of hollow section joints from 2.5 mm",
                self.wall * 1e3
            ));
        }
        if self.throat < 3e-3 - 1e-9 {
            reasons.push(format!("throat {:.2} mm, less than 3 mm", self.throat * 1e3));
        }
        let angle = self.angle.to_degrees();
        if angle < 60.0 - 1e-6 {
            reasons.push(format!(
                "tube at {angle:.1}° to the face: fillet rules hold for 60° to 120°, so its toe needs a butt weld or a test"
            ));
        }
        reasons
    }
}

/// β_w by the yield strength of the weaker part, Pa: 0.80 to 235 MPa, 0.85 to 275, 0.90 to 355, above 1.0.
///
/// # Source
/// EN 1993-1-8 Table 4.1 (read in several design guides), which goes by grade; a strength between two takes the higher.
pub fn correlation(yield_stress: f64) -> f64 {
    // A hair wide, so that 235 MPa as the standard names it counts as such.
    match yield_stress / 1e6 - 0.5 {
        least if least <= 235.0 => 0.80,
        least if least <= 275.0 => 0.85,
        least if least <= 355.0 => 0.90,
        _ => 1.0,
    }
}

/// f_vw,d = f_u / (√3 β_w γ_M2), Pa: shear strength of a fillet weld by the simplified method.
///
/// # Source
/// EN 1993-1-8 4.5.3.3, (4.4) (read in several design guides).
///
/// # Example
/// ```
/// use strutwork_checks::code::weld::shear_strength;
/// assert!((shear_strength(360e6, 0.8, 1.25) / 1e6 - 207.8).abs() < 0.05);
/// ```
pub fn shear_strength(ultimate: f64, correlation: f64, gamma: f64) -> f64 {
    ultimate / (3.0_f64.sqrt() * correlation * gamma)
}

/// The weld against what the tube brings, by the directional method; the page shows the simplified one beside it.
///
/// ```text
/// p = N/L + M_ip/W_ip + M_op/W_op              square to the face, at the worst corner
/// q = max(V_u/2u, V_v/2v) + T/2A_m             along the weld; round: 2√(V_u² + V_v²)/L + T/2A_m
/// σ_⊥ = τ_⊥ = p/(√2 a),  τ_∥ = q/a
/// √(σ_⊥² + 3(τ_⊥² + τ_∥²)) ≤ f_u/(β_w γ_M2),   σ_⊥ ≤ 0.9 f_u/γ_M2
/// simplified: √(p² + q²) ≤ a f_vw,d
/// ```
///
/// # Units and shapes
/// SI.
///
/// # Assumes
/// A fillet of equal legs on a face square to it; shear in the two sides that lie along it; the greatest of everything in one
/// point, so a bound. Starts and ends of the weld are sound: no length is deducted.
///
/// # Source
/// EN 1993-1-8:2005 4.5.3.2 and 4.5.3.3 (read in several design guides).
pub fn check(weld: &Weld, acting: &OnFace, partial: &Partial, sink: &mut impl Sink) -> Verdict {
    let line = weld.line();
    let [u, v] = line.sides;
    let square = acting.normal.abs() / line.length
        + acting.moments[0].abs() / line.moduli[0]
        + acting.moments[1].abs() / line.moduli[1];
    let direct = if line.round {
        2.0 * acting.shear[0].hypot(acting.shear[1]) / line.length
    } else {
        (acting.shear[0].abs() / (2.0 * u)).max(acting.shear[1].abs() / (2.0 * v))
    };
    let along = direct + acting.torque.abs() / (2.0 * line.enclosed);
    let normal = square / (SQRT_2 * weld.throat);
    let parallel = along / weld.throat;
    let combined = (normal * normal + 3.0 * (normal * normal + parallel * parallel)).sqrt();
    let limit = weld.ultimate / (weld.correlation * partial.m2);
    let limit_normal = 0.9 * weld.ultimate / partial.m2;
    let verdict = Verdict::of(combined / limit, "EN 1993-1-8 4.5.3.2: fillet weld, directional method")
        .worse(Verdict::of(normal / limit_normal, "EN 1993-1-8 4.5.3.2: fillet weld, stress across the throat"));
    if sink.writes() {
        write(weld, acting, partial, &line, [square, along], [normal, parallel, combined], verdict, sink);
    }
    verdict
}

#[expect(clippy::too_many_arguments, reason = "intermediate values of one check, written in one place")]
fn write(
    weld: &Weld,
    acting: &OnFace,
    partial: &Partial,
    line: &WeldLine,
    [square, along]: [f64; 2],
    [normal, parallel, combined]: [f64; 3],
    verdict: Verdict,
    sink: &mut impl Sink,
) {
    let strength = shear_strength(weld.ultimate, weld.correlation, partial.m2);
    let simplified = square.hypot(along);
    let limit = weld.ultimate / (weld.correlation * partial.m2);
    let put: [Put<'_>; 33] = [
        ("h", weld.outline.depth(), Unit::MM),
        ("b", weld.outline.width(), Unit::MM),
        ("d", weld.outline.width(), Unit::MM),
        ("r", weld.corner, Unit::MM),
        ("sinθ", weld.angle.sin(), Unit::ONE),
        ("t", weld.wall, Unit::MM),
        ("a", weld.throat, Unit::MM),
        ("f_y", weld.yield_stress, Unit::MPA),
        ("f_u", weld.ultimate, Unit::MPA),
        ("β_w", weld.correlation, Unit::ONE),
        ("γ_M2", partial.m2, Unit::ONE),
        ("γ_M0", partial.m0, Unit::ONE),
        ("π", PI, Unit::ONE),
        ("u", line.sides[0], Unit::MM),
        ("v", line.sides[1], Unit::MM),
        ("L", line.length, Unit::MM),
        ("W_ip", line.moduli[0], Unit::MM2),
        ("W_op", line.moduli[1], Unit::MM2),
        ("A_m", line.enclosed, Unit::MM2),
        ("N", acting.normal.abs(), Unit::N),
        ("V_u", acting.shear[0].abs(), Unit::N),
        ("V_v", acting.shear[1].abs(), Unit::N),
        ("M_ip", acting.moments[0].abs(), Unit::NM),
        ("M_op", acting.moments[1].abs(), Unit::NM),
        ("T", acting.torque.abs(), Unit::NM),
        ("p", square, Unit::N_PER_MM),
        ("q", along, Unit::N_PER_MM),
        ("σ_⊥", normal, Unit::MPA),
        ("τ_⊥", normal, Unit::MPA),
        ("τ_∥", parallel, Unit::MPA),
        ("σ_w", combined, Unit::MPA),
        ("f_w", limit, Unit::MPA),
        ("f_vw,d", strength, Unit::MPA),
    ];
    given(weld, acting, partial, sink);
    if line.round {
        sink.step("u", "d / sinθ", &put, line.sides[0], Unit::MM, "weld line along the chord");
        sink.step("v", "d", &put, line.sides[1], Unit::MM, "and across it");
        sink.step("L", "π · (u + v) / 2", &put, line.length, Unit::MM, "its length");
        sink.step("W_ip", "π · u · v / 4", &put, line.moduli[0], Unit::MM2, "of the line, unit throat");
        sink.step("W_op", "π · v² / 4", &put, line.moduli[1], Unit::MM2, "");
        sink.step("A_m", "π · u · v / 4", &put, line.enclosed, Unit::MM2, "enclosed");
    } else {
        sink.step("u", "(h − (2 − π / 2) · r) / sinθ", &put, line.sides[0], Unit::MM, "weld line along the chord");
        sink.step("v", "b − (2 − π / 2) · r", &put, line.sides[1], Unit::MM, "and across it");
        sink.step("L", "2 · (u + v)", &put, line.length, Unit::MM, "its length");
        sink.step("W_ip", "u² / 3 + u · v", &put, line.moduli[0], Unit::MM2, "of the line, unit throat");
        sink.step("W_op", "v² / 3 + u · v", &put, line.moduli[1], Unit::MM2, "");
        sink.step("A_m", "u · v", &put, line.enclosed, Unit::MM2, "enclosed");
    }
    let square_formula = "N / L + 1000 · M_ip / W_ip + 1000 · M_op / W_op";
    sink.step("p", square_formula, &put, square, Unit::N_PER_MM, "square to the face");
    let along_formula = if line.round {
        "2 · √(V_u² + V_v²) / L + 1000 · T / (2 · A_m)"
    } else {
        "max(V_u / (2 · u), V_v / (2 · v)) + 1000 · T / (2 · A_m)"
    };
    sink.step("q", along_formula, &put, along, Unit::N_PER_MM, "along the weld");
    sink.step("σ_⊥", "p / (√(2) · a)", &put, normal, Unit::MPA, "and τ_⊥ the same");
    sink.step("τ_∥", "q / a", &put, parallel, Unit::MPA, "");
    sink.step("σ_w", "√(σ_⊥² + 3 · (σ_⊥² + τ_∥²))", &put, combined, Unit::MPA, "directional method");
    sink.step("f_w", "f_u / (β_w · γ_M2)", &put, limit, Unit::MPA, "4.5.3.2(6)");
    sink.step("U_s", "√(p² + q²) / (a · f_u / (√(3) · β_w · γ_M2))", &put, simplified / (weld.throat * strength), Unit::ONE, "simplified method, for comparison");
    let full = weld.full_strength_throat(partial);
    sink.step("a_full", "√(2) · β_w · γ_M2 · f_y · t / (γ_M0 · f_u)", &put, full, Unit::MM, "throat as strong as the wall, 7.3.1(4)");
    sink.step("U", "max(σ_w / f_w, σ_⊥ / (0.9 · f_u / γ_M2))", &put, verdict.utilisation, Unit::ONE, "");
    for why in weld.outside() {
        sink.outside(&why);
    }
}

fn given(weld: &Weld, acting: &OnFace, partial: &Partial, sink: &mut impl Sink) {
    if weld.outline.is_round() {
        sink.given("d", weld.outline.width(), Unit::MM, "tube");
    } else {
        sink.given("h", weld.outline.depth(), Unit::MM, "tube, in the plane of tube and chord");
        sink.given("b", weld.outline.width(), Unit::MM, "tube, across it");
        sink.given("r", weld.corner, Unit::MM, "outer corner radius");
    }
    sink.given("t", weld.wall, Unit::MM, "wall");
    sink.given("θ", weld.angle, Unit::DEG, "between tube and face");
    sink.given("sinθ", weld.angle.sin(), Unit::ONE, "its sine");
    sink.given("a", weld.throat, Unit::MM, "throat");
    sink.given("f_y", weld.yield_stress, Unit::MPA, "of the tube beside the weld");
    sink.given("f_u", weld.ultimate, Unit::MPA, "of the weaker part beside the weld");
    sink.given("β_w", weld.correlation, Unit::ONE, "Table 4.1");
    sink.given("γ_M0", partial.m0, Unit::ONE, "partial factor");
    sink.given("γ_M2", partial.m2, Unit::ONE, "partial factor");
    sink.given("N", acting.normal.abs(), Unit::N, "square to the face, margin included");
    sink.given("V_u", acting.shear[0].abs(), Unit::N, "in the face along the chord");
    sink.given("V_v", acting.shear[1].abs(), Unit::N, "in the face across the chord");
    sink.given("M_ip", acting.moments[0].abs(), Unit::NM, "in the plane of tube and chord");
    sink.given("M_op", acting.moments[1].abs(), Unit::NM, "out of it");
    sink.given("T", acting.torque.abs(), Unit::NM, "about the face's normal");
}

#[cfg(test)]
mod tests;

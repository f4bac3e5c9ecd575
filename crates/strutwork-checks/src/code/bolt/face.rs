//! The face of a tube under the head of a bolt or the end of a sleeve.

use crate::calculation::{Put, Sink, Unit};

/// Above it the width ratio is not taken: the face's formula has no end at 1.
const WIDEST: f64 = 0.85;
/// EN 1993-1-8 7.1.1(4): 0.9 above it (from memory).
const HIGH_STRENGTH: f64 = 355e6;

/// The face of a tube that a bolt goes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Its shape and size.
    pub outline: Outline,
    /// t_0, m.
    pub wall: f64,
    /// f_y0, Pa.
    pub yield_stress: f64,
}

/// A tube's shape, as a face sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outline {
    /// Square or rectangular: b_0, the wider side, m.
    Flat(f64),
    /// Round: d_0, m.
    Round(f64),
}

impl Face {
    /// N_f,Rd, N: what a patch of w × w may press into or pull out of `faces` faces.
    ///
    /// ```text
    /// flat:  f_y0 t_0²/(1 − β) (2β + 4√(1 − β))/γ_M5, at most f_y0 t_0 (2w + 10 t_0)/γ_M5,  β = w/b_0 ≤ 0.85
    /// round: min(4 + 20β², 5(1 + 0.25β)) f_y0 t_0²/γ_M5,  β = w/d_0 ≤ 1
    /// ```
    ///
    /// f_y0 above 355 MPa: 0.9 of it.
    ///
    /// # Units and shapes
    /// The patch: its symbol, w in m, what it is.
    ///
    /// # Assumes
    /// The tube's own force and moments are left out (k_n = 1). The wider face of a rectangle, the softer one.
    ///
    /// # Source
    /// EN 1993-1-8 Table 7.10 (T joint of a square brace w × w at 90°, chord face and side wall), Table 7.3 (plates on a
    /// round chord, the lesser of across and along it), both from memory; that a head acts as such a patch: derived.
    pub fn resistance(&self, sink: &mut impl Sink, patch: (&'static str, f64, &str), gamma: f64, faces: u8) -> f64 {
        let (name, width, what) = patch;
        let high = self.yield_stress > HIGH_STRENGTH * (1.0 + 1e-9);
        let strength = if high { 0.9 * self.yield_stress } else { self.yield_stress };
        let count = f64::from(faces);
        let (t, f) = (self.wall, strength);
        let (ratio, one) = match self.outline {
            Outline::Flat(side) => {
                let ratio = (width / side).min(WIDEST);
                let bent = f * t * t / (1.0 - ratio) * (2.0 * ratio + 4.0 * (1.0 - ratio).sqrt());
                (ratio, bent.min(f * t * (2.0 * width + 10.0 * t)))
            }
            Outline::Round(diameter) => {
                let ratio = (width / diameter).min(1.0);
                (ratio, (4.0 + 20.0 * ratio * ratio).min(5.0 * (1.0 + 0.25 * ratio)) * f * t * t)
            }
        };
        let all = count * one / gamma;
        if sink.writes() {
            sink.given("t_0", t, Unit::MM, "wall of the tube");
            sink.given("f_y0", self.yield_stress, Unit::MPA, "of the tube");
            sink.given("γ_M5", gamma, Unit::ONE, "on joints of hollow sections");
            sink.given(name, width, Unit::MM, what);
            let limit = if high {
                let with = [("f_y0", self.yield_stress, Unit::MPA)];
                sink.step("f_y0,r", "0.9 · f_y0", &with, f, Unit::MPA, "above 355 MPa, 7.1.1(4)");
                "f_y0,r"
            } else {
                "f_y0"
            };
            self.write(sink, (name, width), (limit, f), ratio, (count, gamma), all);
        }
        all
    }

    fn write(
        &self,
        sink: &mut impl Sink,
        (name, width): (&'static str, f64),
        (limit, strength): (&'static str, f64),
        ratio: f64,
        (count, gamma): (f64, f64),
        all: f64,
    ) {
        let many = if count > 1.0 { "2 · " } else { "" };
        let with: [Put<'_>; 5] = [
            ("β", ratio, Unit::ONE),
            (limit, strength, Unit::MPA),
            ("t_0", self.wall, Unit::MM),
            ("γ_M5", gamma, Unit::ONE),
            (name, width, Unit::MM),
        ];
        let note = if count > 1.0 { "both faces bent" } else { "the face bent" };
        match self.outline {
            Outline::Flat(side) => {
                sink.given("b_0", side, Unit::MM, "side of the tube, the wider one");
                let wide = [(name, width, Unit::MM), ("b_0", side, Unit::MM)];
                sink.step("β", &format!("min({name} / b_0, 0.85)"), &wide, ratio, Unit::ONE, "");
                let formula = format!(
                    "{many}min({limit} · t_0² / (1 − β) · (2 · β + 4 · √(1 − β)), {limit} · t_0 · (2 · {name} + 10 · t_0)) / γ_M5"
                );
                sink.step(
                    "N_f,Rd",
                    &formula,
                    &with,
                    all,
                    Unit::N,
                    &format!("{note}, or the side walls, after Table 7.10"),
                );
            }
            Outline::Round(diameter) => {
                sink.given("D_0", diameter, Unit::MM, "diameter of the tube");
                let wide = [(name, width, Unit::MM), ("D_0", diameter, Unit::MM)];
                sink.step("β", &format!("min({name} / D_0, 1)"), &wide, ratio, Unit::ONE, "");
                let formula = format!("{many}min(4 + 20 · β², 5 · (1 + 0.25 · β)) · {limit} · t_0² / γ_M5");
                sink.step("N_f,Rd", &formula, &with, all, Unit::N, &format!("{note}, after Table 7.3"));
            }
        }
    }
}

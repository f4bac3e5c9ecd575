//! What tightening a bolt does: crushing of the tube, the sleeve's stress, and slip.

use super::{Face, Sleeve};
use crate::calculation::{Sink, Unit};
use crate::code::Partial;

/// γ_M3: EN 1993-1-8 Table 2.1, recommended (from memory).
const SLIP_FACTOR: f64 = 1.25;

/// What a bolt's preload presses on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pressed {
    /// The faces of a tube with nothing inside, under a head of this size across its flats, m.
    Tube(Face, f64),
    /// A sleeve.
    Sleeve(Sleeve),
}

/// The preload that a tube or sleeve bears, N, and, with a preload, its utilisation.
///
/// ```text
/// tube: N_f,Rd of one face under the head;  sleeve: π t_s (D_s − t_s) f_y/γ_M0
/// ```
///
/// # Source
/// Tube: [`Face::resistance`]. Sleeve: EN 1993-1-1 6.2.4, N_c,Rd = A f_y/γ_M0 (from memory).
pub fn crushing(sink: &mut impl Sink, pressed: &Pressed, preload: Option<f64>, partial: Partial) -> (f64, Option<f64>) {
    let borne = match pressed {
        Pressed::Tube(face, flats) => {
            face.resistance(sink, ("s", *flats, "across the flats of head and nut"), partial.m5, 1)
        }
        Pressed::Sleeve(sleeve) => sleeve_in_compression(sink, sleeve, partial.m0),
    };
    let symbol = match pressed {
        Pressed::Tube(..) => "N_f,Rd",
        Pressed::Sleeve(_) => "N_s,Rd",
    };
    let used = preload.map(|preload| {
        let used = preload / borne;
        if sink.writes() {
            sink.given("F_p", preload, Unit::N, "preload of the bolt");
            let with = [("F_p", preload, Unit::N), (symbol, borne, Unit::N)];
            sink.step("U", &format!("F_p / {symbol}"), &with, used, Unit::ONE, "crushing by the preload");
        }
        used
    });
    (borne, used)
}

fn sleeve_in_compression(sink: &mut impl Sink, sleeve: &Sleeve, gamma: f64) -> f64 {
    let area = std::f64::consts::PI * sleeve.wall * (sleeve.outer - sleeve.wall);
    let resistance = area * sleeve.yield_stress / gamma;
    sink.given("D_s", sleeve.outer, Unit::MM, "outside of the sleeve");
    sink.given("t_s", sleeve.wall, Unit::MM, "wall of the sleeve");
    sink.given("f_ys", sleeve.yield_stress, Unit::MPA, "sleeve, taken as of the tube's material");
    sink.given("γ_M0", gamma, Unit::ONE, "on yield");
    let with = [("D_s", sleeve.outer, Unit::MM), ("t_s", sleeve.wall, Unit::MM)];
    sink.step("A_sl", "π · t_s · (D_s − t_s)", &with, area, Unit::MM2, "end of the sleeve");
    let with = [("A_sl", area, Unit::MM2), ("f_ys", sleeve.yield_stress, Unit::MPA), ("γ_M0", gamma, Unit::ONE)];
    sink.step("N_s,Rd", "A_sl · f_ys / γ_M0", &with, resistance, Unit::N, "the sleeve pressed together");
    resistance
}

/// A preloaded bolt that is to hold by friction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slip {
    /// F_p,C, N.
    pub preload: f64,
    /// μ.
    pub friction: f64,
    /// n, friction faces.
    pub planes: u8,
    /// Whether the hole has no more than normal clearance.
    pub normal_hole: bool,
}

/// F_s,Rd, N: the force across the bolt up to which the joint does not slip.
///
/// ```text
/// F_s,Rd = k_s n μ (F_p,C − 0.8 F_t,Ed)/γ_M3 ≥ 0,  k_s = 1 in normal holes, 0.85 in oversized ones
/// ```
///
/// # Source
/// EN 1993-1-8 3.9.1, 3.9.2 and Table 3.6 (k_s n μ F_p,C/γ_M3 read as quoted in Steel Buildings in Europe; 0.8 F_t and 0.85
/// from memory).
pub fn slip(sink: &mut impl Sink, slip: &Slip, tension: f64) -> f64 {
    let hole = if slip.normal_hole { 1.0 } else { 0.85 };
    let planes = f64::from(slip.planes);
    let pressed = (slip.preload - 0.8 * tension).max(0.0);
    let resistance = hole * planes * slip.friction * pressed / SLIP_FACTOR;
    sink.given("F_p,C", slip.preload, Unit::N, "preload of the bolt");
    sink.given("μ", slip.friction, Unit::ONE, "slip factor of the faces");
    sink.given("n", planes, Unit::ONE, "friction faces");
    sink.given("k_s", hole, Unit::ONE, "by the hole");
    sink.given("γ_M3", SLIP_FACTOR, Unit::ONE, "EN 1993-1-8 Table 2.1, recommended (from memory)");
    let with = [
        ("k_s", hole, Unit::ONE),
        ("n", planes, Unit::ONE),
        ("μ", slip.friction, Unit::ONE),
        ("F_p,C", slip.preload, Unit::N),
        ("F_t,Ed", tension, Unit::N),
        ("γ_M3", SLIP_FACTOR, Unit::ONE),
    ];
    let formula = "k_s · n · μ · max(F_p,C − 0.8 · F_t,Ed, 0) / γ_M3";
    sink.step("F_s,Rd", formula, &with, resistance, Unit::N, "slip");
    resistance
}

//! What the wall or plate that a bolt goes through resists: bearing and punching.

use std::f64::consts::PI;

use super::{Bolt, Named, Outside, Sleeve};
use crate::calculation::{Put, Sink, Unit};

/// EN 1993-1-1 1.1.2: material of 3 mm and more (from memory).
const THINNEST: f64 = 3e-3;
/// Table 3.3: e_1 and e_2 are at least this share of the hole.
const LEAST_EDGE: f64 = 1.2;
/// Height of a countersunk head over d, rounded up: ISO 10642 (from memory).
const SUNK: f64 = 0.55;
/// Symbols of the distances along the force and across it.
const EDGES: [&str; 2] = ["e_1", "e_2"];
/// On F_b,Rd in oversized holes: notes of Table 3.4.
const OVERSIZED: f64 = 0.8;

/// A wall or plate with a hole in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ply {
    /// t, m.
    pub thickness: f64,
    /// f_u, Pa.
    pub ultimate: f64,
    /// From the middle of the hole to the edge along the force, e_1, and across it, e_2, m; `None` where not given.
    pub edges: Option<[f64; 2]>,
    /// Whether it is steel.
    pub steel: bool,
}

/// What presses on the side of a hole: a bolt, or a sleeve that is welded in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pin {
    diameter: Named,
    hole: Named,
    /// Whether it has clearance, and a head in the ply.
    is_bolt: bool,
}

impl Pin {
    pub(super) fn bolt(bolt: &Bolt) -> Self {
        Self { diameter: ("d", bolt.diameter), hole: ("d_0", bolt.hole), is_bolt: true }
    }

    pub(super) fn sleeve(sleeve: &Sleeve) -> Self {
        Self { diameter: ("D_s", sleeve.outer), hole: ("D_s", sleeve.outer), is_bolt: false }
    }
}

/// F_b,Rd, N.
///
/// ```text
/// F_b,Rd = k_1 α_b f_u d t/γ_M2,  α_b = min(e_1/(3 d_0), f_ub/f_u, 1),  k_1 = min(2.8 e_2/d_0 − 1.7, 2.5)
/// ```
///
/// # Assumes
/// One bolt: no pitch. In one shear plane k_1 α_b ≤ 1.5 (single lap with one row). A countersunk head takes half
/// of its height off t. A sleeve is at least as strong as the wall, so f_ub does not limit it.
///
/// # Source
/// EN 1993-1-8 Table 3.4 with its notes; 3.6.1(10) (read as quoted in resistance tables).
pub(super) fn bearing(
    sink: &mut impl Sink,
    bolt: &Bolt,
    pin: Pin,
    ply: &Ply,
    gamma: f64,
    outside: &mut Outside,
) -> f64 {
    sink.given("t", ply.thickness, Unit::MM, "wall or plate that is borne on");
    sink.given("f_u", ply.ultimate, Unit::MPA, "of that wall or plate");
    if !ply.steel {
        outside.say(sink, "what it goes through is not steel");
    }
    if ply.thickness < THINNEST * (1.0 - 1e-9) {
        outside.say(sink, "bearing on material under 3 mm, EN 1993-1-1 1.1.2 (from memory)");
    }
    let (hole_name, hole) = pin.hole;
    sink.given(hole_name, hole, Unit::MM, if pin.is_bolt { "hole" } else { "outside of the sleeve" });
    let edges = edges(sink, pin, ply, outside);
    let (along, across) = shares(sink, bolt, pin, ply, edges);
    let thickness = sunk(sink, bolt, pin, ply);
    let factor = clearance(sink, bolt, pin, outside);
    let lap = bolt.planes == 1;
    let shape = if lap { (across * along).min(1.5) } else { across * along };
    let resistance = factor * shape * ply.ultimate * pin.diameter.1 * thickness.1 / gamma;
    if sink.writes() {
        let oversized = if factor < 1.0 { "0.8 · " } else { "" };
        let product = if lap { "min(k_1 · α_b, 1.5)" } else { "k_1 · α_b" };
        let formula = format!("{oversized}{product} · f_u · {} · {} / γ_M2", pin.diameter.0, thickness.0);
        let with: [Put<'_>; 6] = [
            ("k_1", across, Unit::ONE),
            ("α_b", along, Unit::ONE),
            ("f_u", ply.ultimate, Unit::MPA),
            (pin.diameter.0, pin.diameter.1, Unit::MM),
            (thickness.0, thickness.1, Unit::MM),
            ("γ_M2", gamma, Unit::ONE),
        ];
        let note =
            if lap { "bearing; no more than 1.5 in a single lap with one bolt row, 3.6.1(10)" } else { "bearing" };
        sink.step("F_b,Rd", &formula, &with, resistance, Unit::N, note);
    }
    resistance
}

/// e_1 and e_2, m: as given, or the least that is allowed.
fn edges(sink: &mut impl Sink, pin: Pin, ply: &Ply, outside: &mut Outside) -> [f64; 2] {
    let (name, hole) = pin.hole;
    let Some(edges) = ply.edges else {
        let least = LEAST_EDGE * hole;
        if sink.writes() {
            let formula = format!("1.2 · {name}");
            let note = "not given, so the least that Table 3.3 allows";
            for symbol in EDGES {
                sink.step(symbol, &formula, &[(name, hole, Unit::MM)], least, Unit::MM, note);
            }
        }
        return [least; 2];
    };
    for (symbol, edge) in EDGES.into_iter().zip(edges) {
        sink.given(symbol, edge, Unit::MM, "from the middle of the hole to the nearest edge");
        if edge < LEAST_EDGE * hole * (1.0 - 1e-9) {
            outside.say(sink, "an edge nearer than 1.2 of the hole, EN 1993-1-8 Table 3.3 (from memory)");
        }
    }
    edges
}

/// α_b and k_1.
pub(super) fn shares(sink: &mut impl Sink, bolt: &Bolt, pin: Pin, ply: &Ply, edges: [f64; 2]) -> (f64, f64) {
    let (name, hole) = pin.hole;
    let strength = if pin.is_bolt { bolt.ultimate / ply.ultimate } else { 1.0 };
    let along = (edges[0] / (3.0 * hole)).min(strength).min(1.0);
    let plain = (2.8 * edges[1] / hole - 1.7).min(2.5);
    let across = plain.max(0.0);
    if sink.writes() {
        let with: [Put<'_>; 5] = [
            ("e_1", edges[0], Unit::MM),
            ("e_2", edges[1], Unit::MM),
            (name, hole, Unit::MM),
            ("f_ub", bolt.ultimate, Unit::MPA),
            ("f_u", ply.ultimate, Unit::MPA),
        ];
        let formula = if pin.is_bolt {
            format!("min(e_1 / (3 · {name}), f_ub / f_u, 1)")
        } else {
            format!("min(e_1 / (3 · {name}), 1)")
        };
        sink.step("α_b", &formula, &with, along, Unit::ONE, "");
        let mut formula = format!("min(2.8 · e_2 / {name} − 1.7, 2.5)");
        if plain < 0.0 {
            formula = format!("max({formula}, 0)");
        }
        sink.step("k_1", &formula, &with, across, Unit::ONE, "");
    }
    (along, across)
}

/// The thickness that bears, and its symbol.
fn sunk(sink: &mut impl Sink, bolt: &Bolt, pin: Pin, ply: &Ply) -> Named {
    if !(bolt.countersunk && pin.is_bolt) {
        return ("t", ply.thickness);
    }
    let left = (ply.thickness - SUNK * bolt.diameter / 2.0).max(0.0);
    let with = [("t", ply.thickness, Unit::MM), ("d", bolt.diameter, Unit::MM)];
    let note = "less half of a countersunk head of 0.55 d, ISO 10642 (from memory)";
    sink.step("t_b", "max(t − 0.55 · d / 2, 0)", &with, left, Unit::MM, note);
    ("t_b", left)
}

/// The factor for the hole's clearance.
///
/// # Source
/// EN 1090-2 Table 11 (read as quoted): oversized holes are 3 mm larger up to M12, 4 mm up to M22, 6 mm at M24.
fn clearance(sink: &mut impl Sink, bolt: &Bolt, pin: Pin, outside: &mut Outside) -> f64 {
    if !pin.is_bolt {
        return 1.0;
    }
    let (diameter, clearance) = (bolt.diameter, bolt.hole - bolt.diameter);
    let (normal, oversized) = match diameter {
        ..11.9e-3 => (1e-3, 3e-3),
        ..13.5e-3 => (2e-3, 3e-3),
        ..23e-3 => (2e-3, 4e-3),
        _ => (2e-3, 6e-3),
    };
    let over = |limit: f64| clearance > limit + 1e-6;
    if over(oversized) {
        outside.say(sink, "a hole larger than the oversized holes of EN 1090-2 Table 11");
    }
    if over(normal) { OVERSIZED } else { 1.0 }
}

/// B_p,Rd, N: the head or nut pulled through the ply. `None` for a countersunk head, which the code does not cover.
///
/// ```text
/// B_p,Rd = 0.6 π d_m t f_u/γ_M2,  d_m = (s + e)/2
/// ```
///
/// # Source
/// EN 1993-1-8 Table 3.4.
pub(super) fn punching(sink: &mut impl Sink, bolt: &Bolt, ply: &Ply, gamma: f64, outside: &mut Outside) -> Option<f64> {
    if bolt.countersunk {
        outside.say(sink, "a countersunk head pulled through is not covered by EN 1993-1-8 Table 3.4");
        return None;
    }
    let mean = f64::midpoint(bolt.flats, bolt.points);
    let resistance = 0.6 * PI * mean * ply.thickness * ply.ultimate / gamma;
    sink.given("s", bolt.flats, Unit::MM, "across the flats of head and nut");
    sink.given("s_p", bolt.points, Unit::MM, "across their points");
    let with = [("s", bolt.flats, Unit::MM), ("s_p", bolt.points, Unit::MM)];
    sink.step("d_m", "(s + s_p) / 2", &with, mean, Unit::MM, "");
    let with: [Put<'_>; 4] = [
        ("d_m", mean, Unit::MM),
        ("t", ply.thickness, Unit::MM),
        ("f_u", ply.ultimate, Unit::MPA),
        ("γ_M2", gamma, Unit::ONE),
    ];
    let note = "head or nut punched through";
    sink.step("B_p,Rd", "0.6 · π · d_m · t · f_u / γ_M2", &with, resistance, Unit::N, note);
    Some(resistance)
}

/// The sleeve punched out of both walls that it is welded into, N: as a head of its diameter.
///
/// # Source
/// EN 1993-1-8 Table 3.4 with d_m = D_s (derived). The welds are left out.
pub(super) fn sleeve_punching(sink: &mut impl Sink, sleeve: &Sleeve, ply: &Ply, gamma: f64) -> f64 {
    let resistance = 2.0 * 0.6 * PI * sleeve.outer * ply.thickness * ply.ultimate / gamma;
    let with: [Put<'_>; 4] = [
        ("D_s", sleeve.outer, Unit::MM),
        ("t", ply.thickness, Unit::MM),
        ("f_u", ply.ultimate, Unit::MPA),
        ("γ_M2", gamma, Unit::ONE),
    ];
    let note = "sleeve punched out of both walls, as a head of its size; its welds are not judged";
    sink.step("B_s,Rd", "2 · 0.6 · π · D_s · t · f_u / γ_M2", &with, resistance, Unit::N, note);
    resistance
}

/// What the bore of a sleeve bears of the bolt, N.
///
/// ```text
/// F_bs,Rd = f_y d ℓ/γ_M0,  ℓ = d
/// ```
///
/// # Source
/// Mean pressure at yield (derived); that a bolt bears over one diameter of the bore is common practice, no source.
pub(super) fn sleeve_bore(sink: &mut impl Sink, bolt: &Bolt, sleeve: &Sleeve, gamma: f64) -> f64 {
    let resistance = sleeve.yield_stress * bolt.diameter.powi(2) / gamma;
    sink.given("f_ys", sleeve.yield_stress, Unit::MPA, "sleeve, taken as of the tube's material");
    sink.given("γ_M0", gamma, Unit::ONE, "on yield");
    let with = [("f_ys", sleeve.yield_stress, Unit::MPA), ("d", bolt.diameter, Unit::MM), ("γ_M0", gamma, Unit::ONE)];
    let note = "mean pressure at yield in the bore, over one diameter of its length (common practice, no source)";
    sink.step("F_bs,Rd", "f_ys · d² / γ_M0", &with, resistance, Unit::N, note);
    resistance
}

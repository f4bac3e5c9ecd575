//! What the bolt itself resists.

use super::{Acting, Bolt};
use crate::calculation::{Put, Sink, Unit};

/// α_v of the shank.
const SHANK: f64 = 0.6;
/// k_2: heads as usual, and countersunk.
const TENSION: [f64; 2] = [0.9, 0.63];
/// On F_v,Rd of M12 and M14 in holes 2 mm larger.
const LOOSE: f64 = 0.85;

/// F_v,Rd of all shear planes, N.
///
/// # Source
/// EN 1993-1-8 Table 3.4; 3.6.1(5): 0.85 for M12 and M14 of classes 4.8, 5.8, 6.8, 8.8 and 10.9 in holes with 2 mm of
/// clearance (read as quoted in resistance tables).
pub(super) fn shear_resistance(sink: &mut impl Sink, bolt: &Bolt, gamma: f64) -> f64 {
    let planes = f64::from(bolt.planes);
    let alpha = if bolt.shank_in_shear { SHANK } else { bolt.thread_in_shear };
    let area = if bolt.shank_in_shear { std::f64::consts::FRAC_PI_4 * bolt.diameter.powi(2) } else { bolt.stress_area };
    let loose = loose(bolt);
    let each = alpha * bolt.ultimate * area / gamma;
    let all = if loose { LOOSE * each * planes } else { each * planes };
    if sink.writes() {
        sink.given("d", bolt.diameter, Unit::MM, "the bolt");
        sink.given("f_ub", bolt.ultimate, Unit::MPA, "class of the bolt");
        sink.given("γ_M2", gamma, Unit::ONE, "on fracture and bolts");
        sink.given("n", planes, Unit::ONE, "shear planes");
        let symbol = if bolt.shank_in_shear {
            sink.step(
                "A",
                "π · d² / 4",
                &[("d", bolt.diameter, Unit::MM)],
                area,
                Unit::MM2,
                "the shank is in the shear plane",
            );
            sink.given("α_v", alpha, Unit::ONE, "shank");
            "A"
        } else {
            sink.given("A_s", area, Unit::MM2, "the thread is in the shear plane");
            sink.given("α_v", alpha, Unit::ONE, "thread, by class");
            "A_s"
        };
        let factor = if loose { "0.85 · " } else { "" };
        let formula = format!("{factor}α_v · f_ub · {symbol} / γ_M2 · n");
        let with: [Put<'_>; 5] = [
            ("α_v", alpha, Unit::ONE),
            ("f_ub", bolt.ultimate, Unit::MPA),
            (symbol, area, Unit::MM2),
            ("γ_M2", gamma, Unit::ONE),
            ("n", planes, Unit::ONE),
        ];
        let note = if loose { "shear; 0.85 for a hole 2 mm larger, 3.6.1(5)" } else { "shear" };
        sink.step("F_v,Rd", &formula, &with, all, Unit::N, note);
    }
    all
}

/// Whether 3.6.1(5) takes 15 % off.
fn loose(bolt: &Bolt) -> bool {
    let between = (11.9e-3..14.1e-3).contains(&bolt.diameter);
    between && bolt.hole - bolt.diameter > 1.001e-3 && bolt.yield_stress > 0.7 * bolt.ultimate
}

/// F_t,Rd, N.
///
/// # Source
/// EN 1993-1-8 Table 3.4.
pub(super) fn tension_resistance(sink: &mut impl Sink, bolt: &Bolt, gamma: f64) -> f64 {
    let factor = TENSION[usize::from(bolt.countersunk)];
    let resistance = factor * bolt.ultimate * bolt.stress_area / gamma;
    if sink.writes() {
        if bolt.shank_in_shear {
            sink.given("A_s", bolt.stress_area, Unit::MM2, "stress area of the thread");
        }
        sink.given(
            "k_2",
            factor,
            Unit::ONE,
            if bolt.countersunk { "countersunk head" } else { "head not countersunk" },
        );
        let with = [
            ("k_2", factor, Unit::ONE),
            ("f_ub", bolt.ultimate, Unit::MPA),
            ("A_s", bolt.stress_area, Unit::MM2),
            ("γ_M2", gamma, Unit::ONE),
        ];
        sink.step("F_t,Rd", "k_2 · f_ub · A_s / γ_M2", &with, resistance, Unit::N, "tension");
    }
    resistance
}

/// Shear and tension together; with an unknown axis the worst of all directions.
pub(super) fn combined(sink: &mut impl Sink, acting: Acting, shear_rd: f64, tension_rd: f64) -> f64 {
    match acting {
        Acting::Split { tension, shear } => {
            let sum = shear / shear_rd + tension / (1.4 * tension_rd);
            let with = [
                ("F_v,Ed", shear, Unit::N),
                ("F_v,Rd", shear_rd, Unit::N),
                ("F_t,Ed", tension, Unit::N),
                ("F_t,Rd", tension_rd, Unit::N),
            ];
            let formula = "F_v,Ed / F_v,Rd + F_t,Ed / (1.4 · F_t,Rd)";
            sink.step("U_vt", formula, &with, sum, Unit::ONE, "shear and tension together");
            sum
        }
        Acting::Whole(force) => {
            let worst = (force / shear_rd).hypot(force / (1.4 * tension_rd));
            let with = [("F_Ed", force, Unit::N), ("F_v,Rd", shear_rd, Unit::N), ("F_t,Rd", tension_rd, Unit::N)];
            let formula = "√((F_Ed / F_v,Rd)² + (F_Ed / (1.4 · F_t,Rd))²)";
            let note = "greatest of F_v,Ed / F_v,Rd + F_t,Ed / (1.4 F_t,Rd) over all directions of the bolt";
            sink.step("U_vt", formula, &with, worst, Unit::ONE, note);
            worst
        }
    }
}

//! Shear and torsion, and what they leave for the rest.

use crate::calculation::{Put, Sink, Unit};
use crate::code::profile::{Forces, Profile};
use crate::code::ratios::Ratios;

/// T/T_Rd and V/V_pl,T,Rd in both directions; gives ρ.
///
/// ```text
/// V_pl,Rd = A_v (f_y/√3)/γ_M0,  T_Rd = W_t (f_y/√3)/γ_M0,  V_pl,T,Rd = (1 − T/T_Rd) V_pl,Rd
/// ρ = (2 V/V_pl,T,Rd − 1)² where V > ½ V_pl,T,Rd
/// ```
///
/// In a rectangular tube each pair of walls carries one shear; a round or solid section carries their resultant.
///
/// # Assumes
/// Solid bars: elastic shear area and torsion modulus (6.2.6(4)), and (6.28), which is for tubes: both on the safe side.
///
/// # Source
/// EN 1993-1-1:2005 6.2.6(2), (3); 6.2.7(9) (6.28); 6.2.8(3), (4) (from memory).
pub(super) fn check(profile: &Profile, acting: &Forces, gamma: f64, ratios: &mut Ratios, sink: &mut impl Sink) -> f64 {
    const TORSION: &str = "EN 1993-1-1 6.2.7, torsion";
    const SHEAR: &str = "EN 1993-1-1 6.2.6 and 6.2.7(9), shear";
    if acting.torque <= 0.0 && acting.shear == [0.0; 2] {
        return 0.0;
    }
    let limit = profile.yield_stress / (3.0_f64.sqrt() * gamma);
    let torque_limit = profile.torsion * limit;
    if sink.writes() {
        let put = [("f_y", profile.yield_stress, Unit::MPA), ("γ_M0", gamma, Unit::ONE)];
        sink.step("τ_yd", "f_y / (√3 · γ_M0)", &put, limit, Unit::MPA, "design strength in shear");
        if acting.torque > 0.0 {
            sink.given("W_t", profile.torsion, Unit::MM3, "torsion modulus");
            let put = [("W_t", profile.torsion, Unit::MM3), ("τ_yd", limit, Unit::MPA)];
            sink.step("T_Rd", "W_t · τ_yd / 1000", &put, torque_limit, Unit::NM, TORSION);
        }
    }
    if acting.torque > 0.0 {
        let torque = ("T_Ed", acting.torque, Unit::NM);
        ratios.over("u_T", torque, ("T_Rd", torque_limit, Unit::NM), TORSION, sink);
    }
    let left = (1.0 - acting.torque / torque_limit).max(0.0);
    let is_rectangular = profile.form.is_hollow() && !profile.form.is_round();
    let both = acting.shear[0].hypot(acting.shear[1]);
    let shears = if is_rectangular { acting.shear } else { [both, 0.0] };
    let names = if is_rectangular {
        [
            ["V_y,Ed", "A_v,y", "V_pl,y,Rd", "V_pl,T,y,Rd", "u_V,y"],
            ["V_z,Ed", "A_v,z", "V_pl,z,Rd", "V_pl,T,z,Rd", "u_V,z"],
        ]
    } else {
        [["V_Ed", "A_v", "V_pl,Rd", "V_pl,T,Rd", "u_V"]; 2]
    };
    if !is_rectangular && both > 0.0 {
        let put = [("V_y,Ed", acting.shear[0], Unit::N), ("V_z,Ed", acting.shear[1], Unit::N)];
        sink.step("V_Ed", "√(V_y,Ed² + V_z,Ed²)", &put, both, Unit::N, "the resultant");
    }
    let mut greatest = 0.0_f64;
    let mut leading = "";
    for axis in (0..2).filter(|&axis| shears[axis] > 0.0) {
        let [force, area, plain, with_torsion, symbol] = names[axis];
        let whole = profile.shear[axis] * limit;
        let resistance = left * whole;
        if sink.writes() {
            sink.given(area, profile.shear[axis], Unit::MM2, "shear area");
            let put = [(area, profile.shear[axis], Unit::MM2), ("τ_yd", limit, Unit::MPA)];
            sink.step(plain, &format!("{area} · τ_yd"), &put, whole, Unit::N, "");
            if acting.torque > 0.0 {
                let put: [Put<'_>; 3] =
                    [("T_Ed", acting.torque, Unit::NM), ("T_Rd", torque_limit, Unit::NM), (plain, whole, Unit::N)];
                let formula = format!("max(0, 1 − T_Ed / T_Rd) · {plain}");
                sink.step(with_torsion, &formula, &put, resistance, Unit::N, "beside the torsion, (6.28)");
            }
        }
        let value = ratios.over(
            symbol,
            (force, shears[axis], Unit::N),
            (if acting.torque > 0.0 { with_torsion } else { plain }, resistance, Unit::N),
            SHEAR,
            sink,
        );
        if value > greatest {
            (greatest, leading) = (value, symbol);
        }
    }
    reduction(greatest, leading, sink)
}

fn reduction(ratio: f64, symbol: &str, sink: &mut impl Sink) -> f64 {
    if ratio <= 0.5 {
        if ratio > 0.0 {
            sink.remark("No shear is above half of its resistance: it lowers nothing else.");
        }
        return 0.0;
    }
    let rho = (2.0 * ratio.min(1.0) - 1.0).powi(2);
    if sink.writes() {
        let formula = format!("(2 · min(1, {symbol}) − 1)²");
        sink.step("ρ", &formula, &[(symbol, ratio, Unit::ONE)], rho, Unit::ONE, "6.2.8(3), (4)");
    }
    rho
}

//! Plastic resistance of classes 1 and 2 to axial force and bending together (6.2.9.1).

use super::Strength;
use crate::calculation::{Put, Sink, Unit};
use crate::code::class::NOTHING;
use crate::code::profile::{Forces, Form, MOST, Profile, share};
use crate::code::ratios::Ratios;

const ONE_AXIS: &str = "EN 1993-1-1 6.2.9.1(2), bending with axial force";
const TWO_AXES: &str = "EN 1993-1-1 6.2.9.1(6), bending about both axes with axial force";
const LINEAR: &str = "EN 1993-1-1 6.2.1(7), linear sum";

/// a_w = (A − 2bt)/A and a_f = (A − 2ht)/A, each at most ½.
pub fn wall_shares(area: f64, height: f64, width: f64, wall: f64) -> [f64; 2] {
    [width, height].map(|size| ((area - 2.0 * size * wall) / area).min(0.5))
}

/// The exponent α = β = 1.66/(1 − 1.13 n²) of rectangular tubes, at most 6: from n ≈ 0.80 on, its pole at n = 0.94 included.
pub fn exponent(n: f64) -> f64 {
    let under = 1.0 - 1.13 * n * n;
    if under * 6.0 <= 1.66 { 6.0 } else { 1.66 / under }
}

/// The reduced plastic moments and their interaction.
///
/// ```text
/// n = N/N_pl,Rd
/// rectangular  M_N,y,Rd = M_pl,y,Rd (1 − n)/(1 − 0.5 a_w) ≤ M_pl,y,Rd,  z with a_f;  (M_y/M_N,y,Rd)^α + (M_z/M_N,z,Rd)^α
/// round        M_N,Rd = M_pl,Rd (1 − n^1.7), resultant moment
/// flat bar     M_N,Rd = M_pl,Rd (1 − n²);  M_y/M_N,y,Rd + M_z/M_N,z,Rd
/// solid round  n + M/M_pl,Rd
/// ```
///
/// From n = 1 on nothing is left for a moment. The sum about both axes is formed where both moments are there, by the clause; above
/// 1 it is greater than the share about one axis alone.
///
/// # Source
/// EN 1993-1-1:2005 6.2.9.1(3) to (6): (6.38) to (6.41) (from memory); n^1.7 is that of the standard's second generation and of
/// design guides (from memory); flat bar (6.32), with exponents 1; solid round 6.2.1(7) (read).
pub(super) fn check(
    profile: &Profile,
    acting: &Forces,
    strength: &Strength,
    ratios: &mut Ratios,
    sink: &mut impl Sink,
) {
    let resistance = profile.area * strength.value;
    let n = share(acting.n.abs(), resistance);
    let moments = profile.plastic.map(|modulus| modulus * strength.value);
    if sink.writes() {
        write_start(profile, acting, strength, [resistance, n], moments, sink);
    }
    match profile.form {
        Form::Rectangular { height, width, wall } => {
            let shares = wall_shares(profile.area, height, width, wall);
            let reduced = [0, 1].map(|axis| moments[axis] * ((1.0 - n) / (1.0 - 0.5 * shares[axis])).clamp(0.0, 1.0));
            if sink.writes() {
                write_rectangular(profile, [height, width, wall], n, (moments, reduced), sink);
            }
            rectangular(acting.moment, reduced, n, ratios, sink);
        }
        Form::Round { .. } => {
            let reduced = moments[0] * (1.0 - n.powf(1.7)).max(0.0);
            let moment = acting.moment[0].hypot(acting.moment[1]);
            if sink.writes() {
                let put = [("M_pl,Rd", moments[0], Unit::NM), ("n", n, Unit::ONE)];
                sink.step("M_N,Rd", "M_pl,Rd · max(0, 1 − n^1.7)", &put, reduced, Unit::NM, "");
            }
            ratios.over("r", ("M_Ed", moment, Unit::NM), ("M_N,Rd", reduced, Unit::NM), ONE_AXIS, sink);
        }
        Form::SolidRound { .. } => {
            let moment = acting.moment[0].hypot(acting.moment[1]);
            let bent = share(moment, moments[0]);
            let sum = (n + bent).min(MOST);
            if sink.writes() {
                let put = [("n", n, Unit::ONE), ("M_Ed", moment, Unit::NM), ("M_pl,Rd", moments[0], Unit::NM)];
                let formula = if sum < MOST { "n + M_Ed / M_pl,Rd" } else { "1000" };
                sink.step("r", formula, &put, sum, Unit::ONE, LINEAR);
            }
            ratios.add("r", sum, LINEAR, sink);
        }
        Form::Flat { .. } => {
            let reduced = moments.map(|moment| moment * (1.0 - n * n).max(0.0));
            if sink.writes() {
                for (axis, [plain, name]) in PLASTIC.into_iter().enumerate() {
                    let put = [(plain, moments[axis], Unit::NM), ("n", n, Unit::ONE)];
                    sink.step(name, &format!("{plain} · max(0, 1 − n²)"), &put, reduced[axis], Unit::NM, "");
                }
            }
            let [y, z] = each(acting.moment, reduced, ratios, sink);
            let sum = (y + z).min(MOST);
            if y > 0.0 && z > 0.0 {
                let formula = if sum < MOST { "r_y + r_z" } else { "1000" };
                sink.step("s", formula, &[("r_y", y, Unit::ONE), ("r_z", z, Unit::ONE)], sum, Unit::ONE, TWO_AXES);
                ratios.add("s", sum, TWO_AXES, sink);
            }
        }
    }
}

/// Symbols of the plastic and the reduced plastic moments.
const PLASTIC: [[&str; 2]; 2] = [["M_pl,y,Rd", "M_N,y,Rd"], ["M_pl,z,Rd", "M_N,z,Rd"]];

/// M_y/M_N,y,Rd and M_z/M_N,z,Rd.
fn each(moments: [f64; 2], reduced: [f64; 2], ratios: &mut Ratios, sink: &mut impl Sink) -> [f64; 2] {
    const NAMES: [[&str; 3]; 2] = [["r_y", "M_y,Ed", "M_N,y,Rd"], ["r_z", "M_z,Ed", "M_N,z,Rd"]];
    [0, 1].map(|axis| {
        let [symbol, moment, resistance] = NAMES[axis];
        let put = (moment, moments[axis], Unit::NM);
        ratios.over(symbol, put, (resistance, reduced[axis], Unit::NM), ONE_AXIS, sink)
    })
}

fn rectangular(moments: [f64; 2], reduced: [f64; 2], n: f64, ratios: &mut Ratios, sink: &mut impl Sink) {
    let [y, z] = each(moments, reduced, ratios, sink);
    if y <= NOTHING || z <= NOTHING {
        return;
    }
    let power = exponent(n);
    let sum = (y.powf(power) + z.powf(power)).min(MOST);
    if sink.writes() {
        let put = [("n", n, Unit::ONE)];
        let formula = if power < 6.0 { "1.66 / (1 − 1.13 · n²)" } else { "6" };
        sink.step("α", formula, &put, power, Unit::ONE, "(6.41), rectangular tubes: at most 6");
        let put: [Put<'_>; 3] = [("r_y", y, Unit::ONE), ("r_z", z, Unit::ONE), ("α", power, Unit::ONE)];
        let formula = if sum < MOST { "r_y^α + r_z^α" } else { "1000" };
        sink.step("s", formula, &put, sum, Unit::ONE, TWO_AXES);
    }
    ratios.add("s", sum, TWO_AXES, sink);
}

fn write_start(
    profile: &Profile,
    acting: &Forces,
    strength: &Strength,
    [resistance, n]: [f64; 2],
    moments: [f64; 2],
    sink: &mut impl Sink,
) {
    let put = [("A", profile.area, Unit::MM2), strength.put()];
    sink.step("N_pl,Rd", &format!("A · {}", strength.symbol), &put, resistance, Unit::N, "");
    let put = [("N_Ed", acting.n, Unit::N), ("N_pl,Rd", resistance, Unit::N)];
    let formula = if n < MOST { "|N_Ed| / N_pl,Rd" } else { "1000" };
    sink.step("n", formula, &put, n, Unit::ONE, "");
    if profile.form.is_round() {
        sink.given("W_pl", profile.plastic[0], Unit::MM3, "section modulus");
        let put = [("W_pl", profile.plastic[0], Unit::MM3), strength.put()];
        sink.step("M_pl,Rd", &format!("W_pl · {} / 1000", strength.symbol), &put, moments[0], Unit::NM, "");
        return;
    }
    for axis in [0, 1] {
        let modulus = ["W_pl,y", "W_pl,z"][axis];
        sink.given(modulus, profile.plastic[axis], Unit::MM3, "section modulus");
        let put = [(modulus, profile.plastic[axis], Unit::MM3), strength.put()];
        let formula = format!("{modulus} · {} / 1000", strength.symbol);
        sink.step(PLASTIC[axis][0], &formula, &put, moments[axis], Unit::NM, "");
    }
}

fn write_rectangular(
    profile: &Profile,
    [height, width, wall]: [f64; 3],
    n: f64,
    (moments, reduced): ([f64; 2], [f64; 2]),
    sink: &mut impl Sink,
) {
    let shares = wall_shares(profile.area, height, width, wall);
    for axis in [0, 1] {
        let (symbol, side, size) = [("a_w", "b", width), ("a_f", "h", height)][axis];
        let put = [("A", profile.area, Unit::MM2), (side, size, Unit::MM), ("t", wall, Unit::MM)];
        let formula = format!("min(0.5, (A − 2 · {side} · t) / A)");
        sink.step(symbol, &formula, &put, shares[axis], Unit::ONE, "");
        let [plain, name] = PLASTIC[axis];
        let put = [(plain, moments[axis], Unit::NM), ("n", n, Unit::ONE), (symbol, shares[axis], Unit::ONE)];
        let formula = format!("{plain} · max(0, min(1, (1 − n) / (1 − 0.5 · {symbol})))");
        sink.step(name, &formula, &put, reduced[axis], Unit::NM, "");
    }
}

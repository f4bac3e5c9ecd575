//! Elastic stress of a cross-section against yield (EN 1993-1-1 6.2.1(5)).

use super::profile::{Forces, Form, Profile, share};
use crate::calculation::{Sink, Unit};

/// Where the formulas come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-1:2005 6.2.1(5) for σ² + 3τ² (from memory); elementary beam theory for the rest; margin 1.5 on yield: \
                          Garrett (1953) as quoted by Brown, Robertson & Serpento (2002), Motor Vehicle Structures, § 2.5 (from memory)";

/// What a stress is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowed<'a> {
    /// f_y, Pa.
    pub yield_stress: f64,
    /// What it is: the parent's, or that beside the weld.
    pub what: &'a str,
    /// γ_M0.
    pub gamma: f64,
    /// The margin of the basis.
    pub margin: f64,
    /// Where the margin comes from.
    pub why: &'a str,
}

impl Allowed<'_> {
    /// f_y/(γ_M0 · margin), Pa.
    pub fn stress(&self) -> f64 {
        self.yield_stress / (self.gamma * self.margin)
    }
}

/// Von Mises stress and its share of what is allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elastic {
    /// σ_v, Pa.
    pub von_mises: f64,
    /// Over the allowed stress.
    pub utilisation: f64,
}

/// The greatest normal and the greatest shear stress of a section, σ and τ, Pa.
///
/// ```text
/// σ = |N|/A + |M_y|/W_el,y + |M_z|/W_el,z        round: |N|/A + √(M_y² + M_z²)/W_el
/// τ = |T|/W_t + max(|V_y|/A_v,y, |V_z|/A_v,z)    round and flat: the resultant of both shears
/// ```
///
/// # Units and shapes
/// Forces as they act, without margin: N, N·m. Pa.
///
/// # Assumes
/// Corners as sharp.
///
/// # Source
/// Elementary beam theory.
pub fn stresses(profile: &Profile, acting: &Forces, sink: &mut impl Sink) -> [f64; 2] {
    let is_round = profile.form.is_round();
    let [y, z] = acting.moment.map(f64::abs);
    let axial = acting.n.abs() / profile.area;
    let bent = if is_round {
        [y.hypot(z) / profile.elastic[0], 0.0]
    } else {
        [y / profile.elastic[0], z / profile.elastic[1]]
    };
    let normal = axial + bent[0] + bent[1];
    let torsion = acting.torque.abs() / profile.torsion;
    let across = [0, 1].map(|axis| acting.shear[axis].abs() / profile.shear[axis]);
    let is_box = matches!(profile.form, Form::Rectangular { .. });
    let shear = if is_box { across[0].max(across[1]) } else { across[0].hypot(across[1]) };
    let tau = torsion + shear;
    if sink.writes() {
        write_inputs(profile, acting, sink);
        let modulus = [("W_el,y", profile.elastic[0], Unit::MM3), ("W_el,z", profile.elastic[1], Unit::MM3)];
        let moment = [("M_y", acting.moment[0], Unit::NM), ("M_z", acting.moment[1], Unit::NM)];
        let put = [("N", acting.n, Unit::N), ("A", profile.area, Unit::MM2)];
        sink.step("σ_N", "|N| / A", &put, axial, Unit::MPA, "axial force");
        if is_round {
            let put = [moment[0], moment[1], modulus[0]];
            sink.step("σ_M", "√(M_y² + M_z²) · 1000 / W_el,y", &put, bent[0], Unit::MPA, "bending, the resultant");
            let put = [("σ_N", axial, Unit::MPA), ("σ_M", bent[0], Unit::MPA)];
            sink.step("σ", "σ_N + σ_M", &put, normal, Unit::MPA, "greatest normal stress");
        } else {
            sink.step("σ_My", "|M_y| · 1000 / W_el,y", &[moment[0], modulus[0]], bent[0], Unit::MPA, "bending about y");
            sink.step("σ_Mz", "|M_z| · 1000 / W_el,z", &[moment[1], modulus[1]], bent[1], Unit::MPA, "bending about z");
            let put = [("σ_N", axial, Unit::MPA), ("σ_My", bent[0], Unit::MPA), ("σ_Mz", bent[1], Unit::MPA)];
            sink.step("σ", "σ_N + σ_My + σ_Mz", &put, normal, Unit::MPA, "greatest normal stress");
        }
        let put = [("T", acting.torque, Unit::NM), ("W_t", profile.torsion, Unit::MM3)];
        sink.step("τ_T", "|T| · 1000 / W_t", &put, torsion, Unit::MPA, "torsion");
        let put = [
            ("V_y", acting.shear[0], Unit::N),
            ("V_z", acting.shear[1], Unit::N),
            ("A_v,y", profile.shear[0], Unit::MM2),
            ("A_v,z", profile.shear[1], Unit::MM2),
        ];
        let formula =
            if is_box { "max(|V_y| / A_v,y, |V_z| / A_v,z)" } else { "√((V_y / A_v,y)² + (V_z / A_v,z)²)" };
        sink.step("τ_V", formula, &put, shear, Unit::MPA, "shear");
        let put = [("τ_T", torsion, Unit::MPA), ("τ_V", shear, Unit::MPA)];
        sink.step("τ", "τ_T + τ_V", &put, tau, Unit::MPA, "greatest shear stress");
    }
    [normal, tau]
}

/// The greatest normal and shear stress of a section, taken together, against yield.
///
/// ```text
/// σ_v = √(σ² + 3τ²) ≤ f_y/(γ_M0 · margin)
/// ```
///
/// # Units and shapes
/// Forces as they act, without margin: N, N·m. Pa.
///
/// # Assumes
/// The greatest σ and the greatest τ ([`stresses`]) need not meet in one point: an upper bound.
///
/// # Source
/// See [`SOURCE`].
pub fn check(profile: &Profile, acting: &Forces, allowed: &Allowed<'_>, sink: &mut impl Sink) -> Elastic {
    let [normal, tau] = stresses(profile, acting, sink);
    let von_mises = (normal * normal + 3.0 * tau * tau).sqrt();
    let utilisation = share(von_mises, allowed.stress());
    if sink.writes() {
        let put = [("σ", normal, Unit::MPA), ("τ", tau, Unit::MPA)];
        sink.step("σ_v", "√(σ² + 3 · τ²)", &put, von_mises, Unit::MPA, "von Mises");
        write_allowed(allowed, sink);
        let put = [("σ_v", von_mises, Unit::MPA), ("σ_allowed", allowed.stress(), Unit::MPA)];
        sink.step("U", "σ_v / σ_allowed", &put, utilisation, Unit::ONE, "EN 1993-1-1 6.2.1(5)");
    }
    Elastic { von_mises, utilisation }
}

fn write_inputs(profile: &Profile, acting: &Forces, sink: &mut impl Sink) {
    let forces = [
        ("N", acting.n, Unit::N),
        ("M_y", acting.moment[0], Unit::NM),
        ("M_z", acting.moment[1], Unit::NM),
        ("V_y", acting.shear[0], Unit::N),
        ("V_z", acting.shear[1], Unit::N),
        ("T", acting.torque, Unit::NM),
    ];
    for (symbol, value, unit) in forces {
        sink.given(symbol, value, unit, "from the analysis");
    }
    sink.given("A", profile.area, Unit::MM2, "area");
    let names = [("W_el,y", profile.elastic[0]), ("W_el,z", profile.elastic[1]), ("W_t", profile.torsion)];
    for (symbol, value) in names {
        sink.given(symbol, value, Unit::MM3, "section modulus");
    }
    sink.given("A_v,y", profile.shear[0], Unit::MM2, "shear area");
    sink.given("A_v,z", profile.shear[1], Unit::MM2, "shear area");
}

fn write_allowed(allowed: &Allowed<'_>, sink: &mut impl Sink) {
    sink.given("f_y", allowed.yield_stress, Unit::MPA, allowed.what);
    sink.given("γ_M0", allowed.gamma, Unit::ONE, "partial factor");
    sink.given("margin", allowed.margin, Unit::ONE, allowed.why);
    let put = [
        ("f_y", allowed.yield_stress, Unit::MPA),
        ("γ_M0", allowed.gamma, Unit::ONE),
        ("margin", allowed.margin, Unit::ONE),
    ];
    sink.step("σ_allowed", "f_y / (γ_M0 · margin)", &put, allowed.stress(), Unit::MPA, "");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculation::{Pages, Silent};
    use crate::code::profiles::{flat, rectangular, round, solid_round};
    use crate::code::worked::recomputes;

    const ALLOWED: Allowed<'_> =
        Allowed { yield_stress: 235e6, what: "yield", gamma: 1.0, margin: 1.5, why: "vehicle practice" };

    const ACTING: Forces = Forces { n: -5e3, moment: [120.0, -60.0], shear: [300.0, -800.0], torque: 40.0 };

    /// 30 × 30 × 2 of the EN 10219-2 table: A = 2.14 cm², W_el = 1.81 cm³, C_t = 2.75 cm³, A_v = A/2: 23.4 + 66.3 + 33.1 MPa;
    /// 14.5 + 7.5 MPa.
    #[test]
    fn a_tube_by_hand() {
        let found = check(&rectangular(30.0, 30.0, 2.0, 235.0), &ACTING, &ALLOWED, &mut Silent);
        let (sigma, tau): (f64, f64) = (5e3 / 214.0 + 180e3 / 1810.0, 40e3 / 2750.0 + 800.0 / 107.0);
        let by_hand = (sigma * sigma + 3.0 * tau * tau).sqrt();
        assert!((found.von_mises / by_hand / 1e6 - 1.0).abs() < 5e-3, "{found:?} {by_hand}");
        assert!((found.utilisation - found.von_mises / 156.666_667e6).abs() < 1e-8);
    }

    #[test]
    fn pages_can_be_recomputed() {
        for profile in [
            rectangular(40.0, 30.0, 2.0, 235.0),
            round(42.4, 2.6, 235.0),
            flat(30.0, 8.0, 235.0),
            solid_round(20.0, 235.0),
        ] {
            let mut pages = Pages::default();
            let found = check(&profile, &ACTING, &ALLOWED, &mut pages);
            assert_eq!(found, check(&profile, &ACTING, &ALLOWED, &mut Silent));
            recomputes(&pages.finish("t", "c", SOURCE, found.utilisation));
        }
    }
}

//! Beside a weld: aluminium and cold-worked or heat-treated steel keep less than the parent's strength.

use super::Verdict;
use crate::calculation::{Put, Sink, Unit};

/// Where the rules come from, as a page prints it.
pub const SOURCE: &str = "EN 1999-1-1:2007 6.1.6, 6.2.1(5), 8.6.3.4 (from memory); for steel EN 1993-1-1 6.2.1(5) (from memory) with the \
                          strengths that the material states beside a weld";

/// A section in the zone beside a weld, and what acts there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// Yield or proof strength there, Pa.
    pub yield_stress: f64,
    /// Ultimate strength there, Pa.
    pub ultimate: f64,
    /// Greatest normal stress, margin included, Pa.
    pub normal: f64,
    /// Greatest shear stress, margin included, Pa.
    pub shear: f64,
    /// Partial factors on yield and on fracture.
    pub gammas: [f64; 2],
}

/// How far the weakened zone reaches from the weld, m, for a wall of this thickness, m.
///
/// ```text
/// TIG: 30 mm up to 6 mm walls;  MIG: 20 mm up to 6 mm, 30 mm up to 12 mm, 35 mm up to 25 mm
/// ```
///
/// The longer of both is taken, as the process is not part of the model; steel takes the same reach.
///
/// # Source
/// EN 1999-1-1:2007 6.1.6.3 (from memory). For steel: common practice, no source.
pub fn reach(wall: f64) -> f64 {
    if wall <= 12e-3 + 1e-9 { 30e-3 } else { 35e-3 }
}

/// Stress beside the weld against the strength that is left there.
///
/// ```text
/// σ_v = √(σ² + 3τ²) ≤ f_o,haz/γ_y   and   ≤ f_u,haz/γ_u
/// ```
///
/// # Units and shapes
/// SI.
///
/// # Assumes
/// The whole section is weakened: a weld all round. Elastic: nothing is gained by plastic redistribution.
///
/// # Source
/// EN 1999-1-1:2007 6.1.6.1 with 6.2.1(5) and 8.6.3.4 (from memory), γ_M1 = 1.10 and γ_Mw = 1.25; steel as EN 1993-1-1 6.2.1(5).
pub fn check(beside: &Beside, sink: &mut impl Sink) -> Verdict {
    let stress = (beside.normal * beside.normal + 3.0 * beside.shear * beside.shear).sqrt();
    let [on_yield, on_fracture] = beside.gammas;
    let verdict = Verdict::of(stress / (beside.yield_stress / on_yield), "yield beside the weld")
        .worse(Verdict::of(stress / (beside.ultimate / on_fracture), "fracture beside the weld"));
    if sink.writes() {
        let put: [Put<'_>; 7] = [
            ("σ", beside.normal, Unit::MPA),
            ("τ", beside.shear, Unit::MPA),
            ("σ_v", stress, Unit::MPA),
            ("f_o,haz", beside.yield_stress, Unit::MPA),
            ("f_u,haz", beside.ultimate, Unit::MPA),
            ("γ_y", on_yield, Unit::ONE),
            ("γ_u", on_fracture, Unit::ONE),
        ];
        sink.given("σ", beside.normal, Unit::MPA, "greatest normal stress, margin included");
        sink.given("τ", beside.shear, Unit::MPA, "greatest shear stress, margin included");
        sink.given("f_o,haz", beside.yield_stress, Unit::MPA, "yield or proof strength beside the weld");
        sink.given("f_u,haz", beside.ultimate, Unit::MPA, "ultimate strength beside the weld");
        sink.given("γ_y", on_yield, Unit::ONE, "partial factor on yield");
        sink.given("γ_u", on_fracture, Unit::ONE, "partial factor on fracture");
        sink.step("σ_v", "√(σ² + 3 · τ²)", &put, stress, Unit::MPA, "von Mises");
        let formula = "max(σ_v / (f_o,haz / γ_y), σ_v / (f_u,haz / γ_u))";
        sink.step("U", formula, &put, verdict.utilisation, Unit::ONE, verdict.clause);
    }
    verdict
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::calculation::{Pages, Silent};
    use crate::code::worked::recomputes;

    /// 6082-T6, f_o,haz 125 and f_u,haz 185 MPa (EN 1999-1-1 Table 3.2b as quoted, from memory): yield governs at γ 1.10 and
    /// 1.25, as 125/1.10 = 113.6 < 185/1.25 = 148.
    #[test]
    fn aluminium_by_hand() {
        let beside =
            Beside { yield_stress: 125e6, ultimate: 185e6, normal: 80e6, shear: 30e6, gammas: [1.10, 1.25] };
        let mut pages = Pages::default();
        let verdict = check(&beside, &mut pages);
        let by_hand = (80.0_f64.powi(2) + 3.0 * 30.0_f64.powi(2)).sqrt() / 113.636_363_636;
        assert!((verdict.utilisation - by_hand).abs() < 1e-9);
        assert_eq!(verdict.clause, "yield beside the weld");
        recomputes(&pages.finish("t", "c", SOURCE, verdict.utilisation));
    }

    #[test]
    fn fracture_governs_where_little_is_left_of_it() {
        let beside =
            Beside { yield_stress: 413.6e6, ultimate: 420e6, normal: 200e6, shear: 0.0, gammas: [1.0, 1.25] };
        let verdict = check(&beside, &mut Silent);
        assert_eq!(verdict.clause, "fracture beside the weld");
        assert!((verdict.utilisation - 200.0 / 336.0).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn more_stress_never_lowers_it(normal in -3e8..3e8_f64, shear in 0.0..2e8_f64, more in 1.0..3.0_f64) {
            let of = |scale: f64| {
                let beside = Beside {
                    yield_stress: 125e6,
                    ultimate: 185e6,
                    normal: normal * scale,
                    shear: shear * scale,
                    gammas: [1.1, 1.25],
                };
                check(&beside, &mut Silent).utilisation
            };
            prop_assert!(of(more) >= of(1.0));
        }
    }
}

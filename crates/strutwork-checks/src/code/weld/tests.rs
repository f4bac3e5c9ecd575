//! Welds against printed values, hand calculations and laws.

use std::f64::consts::PI;

use proptest::prelude::*;

use super::*;
use crate::calculation::{Pages, Silent};
use crate::code::worked::recomputes;

/// f_y, f_u in MPa, β_w.
const S235: [f64; 3] = [235.0, 360.0, 0.80];
const S275: [f64; 3] = [275.0, 430.0, 0.85];
const S355: [f64; 3] = [355.0, 510.0, 0.90];
/// Walls over 3 mm.
const S275_THICK: [f64; 3] = [275.0, 410.0, 0.85];
const S355_THICK: [f64; 3] = [355.0, 470.0, 0.90];

fn fillet(outline: Outline, degrees: f64, throat_mm: f64, [yield_mpa, ultimate_mpa, correlation]: [f64; 3]) -> Fillet {
    Fillet {
        outline,
        angle: degrees.to_radians(),
        wall: 2e-3,
        throat: throat_mm * 1e-3,
        yield_stress: yield_mpa * 1e6,
        ultimate: ultimate_mpa * 1e6,
        correlation,
    }
}

const SHARP: Outline = Outline::Rectangular { depth: 0.05, width: 0.05, corner: 0.0 };

fn used(weld: &Fillet, acting: &AtEnd, method: Method) -> f64 {
    check(weld, acting, method, &Partial::RECOMMENDED, &mut Silent).0.utilisation
}

/// f_u/(√3 β_w γ_M2) worked out by hand for γ_M2 = 1.25.
#[test]
fn strengths_of_the_simplified_method() {
    for ([_, ultimate, correlation], strength) in
        [(S235, 207.8), (S275_THICK, 222.8), (S275, 233.7), (S355_THICK, 241.2), (S355, 261.7)]
    {
        let found = shear_strength(ultimate * 1e6, correlation, 1.25) / 1e6;
        assert!((found - strength).abs() < 0.05, "{found} {strength}");
    }
}

/// N a millimetre of weld at throats of 2 and 3 mm, by the same formula.
#[test]
fn strengths_a_length() {
    for ([_, ultimate, correlation], at_2, at_3) in
        [(S235, 416.0, 624.0), (S275_THICK, 446.0, 668.0), (S355_THICK, 482.0, 724.0)]
    {
        let found = shear_strength(ultimate * 1e6, correlation, 1.25) / 1e6;
        assert!((2.0 * found - at_2).abs() < 0.6 && (3.0 * found - at_3).abs() < 0.6, "{found}");
    }
}

/// Throat over wall: 0.92, 0.96, 1.11 and, of walls over 3 mm of S355, 1.20.
#[test]
fn throats_as_strong_as_the_wall() {
    for ([yield_mpa, ultimate, correlation], ratio) in [(S235, 0.92), (S275, 0.96), (S355, 1.11), (S355_THICK, 1.20)] {
        let of = |partial: &Partial| full_strength_throat(1.0, yield_mpa * 1e6, ultimate * 1e6, correlation, partial);
        assert!((of(&Partial::RECOMMENDED) - ratio).abs() < 0.005);
        // A margin on the loads makes the weld no stronger beside the wall.
        assert_eq!(of(&Partial::NONE), of(&Partial::RECOMMENDED));
    }
}

/// A weld of that throat, pulled until the wall yields, is just used up.
#[test]
fn the_full_strength_throat_is_the_one_that_is_just_used_up() {
    for strength in [S235, S275, S355] {
        let mut weld = fillet(SHARP, 90.0, 1.0, strength);
        weld.throat =
            full_strength_throat(weld.wall, weld.yield_stress, weld.ultimate, weld.correlation, &Partial::RECOMMENDED);
        let pull = AtEnd { axial: weld.yield_stress * weld.wall * 0.2, ..AtEnd::default() };
        assert!((used(&weld, &pull, Method::Directional) - 1.0).abs() < 1e-12);
    }
}

#[test]
fn correlation_goes_by_the_grade_and_takes_the_higher_between_two() {
    for (yield_mpa, factor) in
        [(195.0, 0.8), (235.0, 0.8), (236.0, 0.85), (275.0, 0.85), (355.0, 0.9), (356.0, 1.0), (460.0, 1.0)]
    {
        assert_eq!(correlation(yield_mpa * 1e6), factor, "{yield_mpa}");
    }
}

/// A flat of 80 mm in S460 (f_u = 550, β_w = 1) pulled off a plate by two welds of 170 mm along it and one of 80 mm across, a = 3 mm:
/// 259.1 kN along and 74.7 kN across, 333.8 kN together (worked example 3.1, "Welded connection of tie", of a European course on
/// structural connections; read at studylib.net/doc/18681556).
#[test]
fn a_published_example_of_a_tie() {
    let s460 = [460.0, 550.0, 1.0];
    // A line of unit throat cannot be open: a square of the same length stands for it, pulled and twisted.
    let all_round = |length: f64| Outline::Rectangular { depth: length / 4.0, width: length / 4.0, corner: 0.0 };
    let across = fillet(all_round(0.08), 90.0, 3.0, s460);
    let pull = AtEnd { axial: 74.7e3, ..AtEnd::default() };
    assert!((used(&across, &pull, Method::Directional) - 1.0).abs() < 1e-3);
    let along = fillet(all_round(0.34), 90.0, 3.0, s460);
    // q = T/2A_m along 340 mm: T = 2 (340/4)² · 259 100/340 N·mm.
    let twist = AtEnd { torque: 2.0 * 0.085 * 0.085 * 259.1e3 / 0.34, ..AtEnd::default() };
    assert!((used(&along, &twist, Method::Directional) - 1.0).abs() < 1e-3);
    assert!((shear_strength(550e6, 1.0, 1.25) * 3e-3 * 0.34 / 1e3 - 259.1).abs() < 0.05);
}

/// Square 50 mm, sharp corners, a = 3 mm, S235, cut square: L = 200 mm, W = 4·50²/3 = 3333.3 mm², A_m = 2500 mm². With 20 kN,
/// 0.5 kN·m in the plane, 6 kN across and 0.2 kN·m of torque: p = 100 + 150 = 250, q = 6000/100 + 200 000/5000 = 100 N/mm;
/// σ_⊥ = 58.926, τ_∥ = 33.333, σ_w = √(4·58.926² + 3·33.333²) = 131.233 MPa of 360, U = 0.36454; simplified
/// √(250² + 100²)/(3·207.846) = 0.43182.
#[test]
fn a_square_tube_by_hand() {
    let weld = fillet(SHARP, 90.0, 3.0, S235);
    let acting = AtEnd { axial: -20e3, shear: [0.0, 6e3], torque: 200.0, moments: [500.0, 0.0] };
    let found = stressed(&weld, &acting, &Partial::RECOMMENDED);
    let close = |value: f64, expected: f64| assert!((value / expected - 1.0).abs() < 1e-5, "{value} {expected}");
    close(found.flows[0] / 1e3, 250.0);
    close(found.flows[1] / 1e3, 100.0);
    close(found.across / 1e6, 58.925_57);
    close(found.combined / 1e6, 131.233);
    close(found.used[0], 131.233 / 360.0);
    close(found.used[1], 0.431_82);
}

/// A round tube of 60 mm at 45°: u = 84.853 mm, L = π(84.853 + 60)/2 = 227.53 mm. Axial force alone, 30 kN: half of it squared
/// is square to the face, N_f = V_u = 21 213 N; p = 93.23 N/mm, q = 2·21 213/(60 π) = 225.08 N/mm.
#[test]
fn a_round_tube_by_hand() {
    let weld = fillet(Outline::Round { diameter: 0.06 }, 45.0, 3.0, S355);
    let found = stressed(&weld, &AtEnd { axial: 30e3, ..AtEnd::default() }, &Partial::RECOMMENDED);
    assert!((found.line.length * 1e3 - 227.53).abs() < 0.01);
    assert!((found.flows[0] / 1e3 - 93.23).abs() < 0.01);
    assert!((found.flows[1] / 1e3 - 225.08).abs() < 0.01);
}

/// Bent about any axis, a round tube cut square has the same weld.
#[test]
fn a_round_tube_has_no_sides() {
    let weld = fillet(Outline::Round { diameter: 0.06 }, 90.0, 3.0, S355);
    let bent = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        used(&weld, &AtEnd { moments: [300.0 * cos, 300.0 * sin], ..AtEnd::default() }, Method::Directional)
    };
    assert!((bent(0.0) / bent(37.0) - 1.0).abs() < 1e-12);
    // p = M/(π d²/4) = 300 000/2827.43 = 106.10 N/mm, σ_w = √2 p/a = 50.02 MPa of 510/(0.9·1.25) = 453.33.
    assert!((bent(0.0) - 50.02 / 453.33).abs() < 1e-5);
}

/// Pulled square, the directional method gives √(3/2) times the simplified one; along the weld both are the same.
#[test]
fn both_methods_meet_along_the_weld_and_part_across_it() {
    let weld = fillet(SHARP, 90.0, 3.0, S275);
    let pull = AtEnd { axial: 10e3, ..AtEnd::default() };
    let ratio = used(&weld, &pull, Method::Simplified) / used(&weld, &pull, Method::Directional);
    assert!((ratio - 1.5_f64.sqrt()).abs() < 1e-12);
    let turn = AtEnd { torque: 100.0, ..AtEnd::default() };
    let ratio = used(&weld, &turn, Method::Simplified) / used(&weld, &turn, Method::Directional);
    assert!((ratio - 1.0).abs() < 1e-12);
}

/// 100 mm of weld of 3 mm throat: 300 mm³ a mm … a² L = 900 mm³, a fifth more, at 7850 kg/m³: 8.478 g.
#[test]
fn weld_metal() {
    assert!((metal(3e-3, 0.1, 7850.0) * 1e3 - 8.478).abs() < 1e-9);
}

fn tubes() -> impl Strategy<Value = Outline> {
    prop_oneof![
        (0.01..0.2_f64, 0.01..0.2_f64, 0.0..0.004_f64).prop_map(|(depth, width, corner)| Outline::Rectangular {
            depth,
            width,
            corner
        }),
        (0.01..0.2_f64).prop_map(|diameter| Outline::Round { diameter }),
    ]
}

fn forces() -> impl Strategy<Value = AtEnd> {
    let force = -1e5..1e5_f64;
    let moment = -1e4..1e4_f64;
    (force.clone(), [force.clone(), force], moment.clone(), [moment.clone(), moment])
        .prop_map(|(axial, shear, torque, moments)| AtEnd { axial, shear, torque, moments })
}

proptest! {
    /// Each force by itself: more of it never lowers either utilisation, whatever else acts.
    #[test]
    fn more_force_never_lowers_it(outline in tubes(), degrees in 15.0..90.0_f64, acting in forces(), which in 0..6_usize, more in 1.0..3.0_f64) {
        let weld = fillet(outline, degrees, 3.0, S355);
        let mut greater = acting;
        match which {
            0 => greater.axial *= more,
            1 => greater.shear[0] *= more,
            2 => greater.shear[1] *= more,
            3 => greater.torque *= more,
            4 => greater.moments[0] *= more,
            _ => greater.moments[1] *= more,
        }
        for method in [Method::Directional, Method::Simplified] {
            prop_assert!(used(&weld, &greater, method) >= used(&weld, &acting, method));
        }
    }

    /// A thicker throat, a stronger part and a smaller factor never raise it.
    #[test]
    fn more_weld_never_raises_it(outline in tubes(), degrees in 15.0..90.0_f64, acting in forces(), more in 1.0..3.0_f64) {
        let weld = fillet(outline, degrees, 3.0, S355);
        for method in [Method::Directional, Method::Simplified] {
            let first = used(&weld, &acting, method);
            let thicker = used(&Fillet { throat: weld.throat * more, ..weld }, &acting, method);
            let stronger = used(&Fillet { ultimate: weld.ultimate * more, ..weld }, &acting, method);
            prop_assert!(thicker <= first);
            prop_assert!(stronger <= first);
            let none = check(&weld, &acting, method, &Partial::NONE, &mut Silent).0.utilisation;
            prop_assert!(none <= first);
        }
    }

    /// The simplified method is never the kinder one.
    #[test]
    fn the_simplified_method_is_a_bound(outline in tubes(), degrees in 15.0..90.0_f64, acting in forces()) {
        let weld = fillet(outline, degrees, 3.0, S235);
        prop_assert!(used(&weld, &acting, Method::Simplified) >= used(&weld, &acting, Method::Directional) * (1.0 - 1e-12));
    }

    #[test]
    fn the_page_says_what_was_computed(outline in tubes(), degrees in 15.0..90.0_f64, acting in forces(), round in any::<bool>()) {
        let weld = fillet(outline, if round { 90.0 } else { degrees }, 3.0, S275);
        for method in [Method::Directional, Method::Simplified] {
            let mut pages = Pages::default();
            let (verdict, _) = check(&weld, &acting, method, &Partial::RECOMMENDED, &mut pages);
            prop_assert_eq!(verdict, check(&weld, &acting, method, &Partial::RECOMMENDED, &mut Silent).0);
            recomputes(&pages.finish("weld", verdict.clause, SOURCE, verdict.utilisation));
        }
    }
}

/// At a square cut nothing of the axial force lies in the face.
#[test]
fn a_square_cut_turns_nothing() {
    let acting = AtEnd { axial: 1.0, shear: [2.0, 3.0], torque: 4.0, moments: [5.0, 6.0] };
    let face = acting.on_face(PI / 2.0);
    assert_eq!(face, OnFace { normal: 1.0, shear: [2.0, 3.0], moments: [5.0, 6.0], torque: 4.0 });
}

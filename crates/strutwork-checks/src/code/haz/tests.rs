//! Beside a weld: hand calculations, reach, factors, laws.

use proptest::prelude::*;

use super::*;
use crate::calculation::{Pages, Silent};
use crate::code::profiles::{flat, round, sharp};
use crate::code::worked::recomputes;

const NO_MARGIN: Held<'_> = Held { gammas: [1.10, 1.25], margin: 1.0, why: "none" };

/// Square 40 × 3 of sharp corners: A = 444 mm², I = (40⁴ − 34⁴)/12 = 101 972 mm⁴, W = 5098.6 mm³; A_v = A/2; W_t = 2 t A_m with
/// A_m = 37².
fn square() -> Profile {
    Profile { torsion: 2.0 * 3e-3 * 37e-3 * 37e-3, ..sharp(40.0, 40.0, 3.0, 235.0) }
}

fn aluminium(yield_mpa: f64, ultimate_mpa: f64) -> Beside {
    Beside { profile: square(), yield_stress: yield_mpa * 1e6, ultimate: ultimate_mpa * 1e6, aluminium: true }
}

/// 6082-T6 beside a MIG weld: f_o,haz 125 and f_u,haz 185 MPa. 22.2 kN and 153 N·m about y give σ = 50 + 30.008 MPa; 4.44 kN
/// of shear and 164.28 N·m of torque τ = 20 + 20 MPa. σ_v = √(80.008² + 3·40²) = 105.84 MPa; yield governs, as
/// 125/1.10 = 113.64 is less than 185/1.25 = 148: U = 0.9314.
#[test]
fn aluminium_by_hand() {
    let acting = Forces { n: -22.2e3, shear: [4.44e3, 0.0], torque: 164.28, moment: [153.0, 0.0] };
    let mut pages = Pages::default();
    let held = Held { gammas: gammas(true, true, &Partial::RECOMMENDED), ..NO_MARGIN };
    let (verdict, _) = check(&aluminium(125.0, 185.0), &acting, &held, &mut pages);
    assert!((verdict.utilisation - 0.9314).abs() < 5e-5, "{}", verdict.utilisation);
    assert_eq!(verdict.clause, "EN 1999-1-1 6.1.6: yield beside the weld");
    recomputes(&pages.finish("t", "c", SOURCE, verdict.utilisation));
}

#[test]
fn fracture_governs_where_little_is_left_of_it() {
    let beside = Beside { aluminium: false, ..aluminium(413.6, 420.0) };
    let held = Held { gammas: [1.0, 1.25], ..NO_MARGIN };
    let (verdict, _) = check(&beside, &Forces { n: 88.8e3, ..Forces::default() }, &held, &mut Silent);
    assert_eq!(verdict.clause, "EN 1993-1-1 6.2.1(5): fracture beside the weld");
    assert!((verdict.utilisation - 200.0 / 336.0).abs() < 1e-12);
}

#[test]
fn aluminium_has_its_own_factors_where_there_are_any() {
    assert_eq!(gammas(true, true, &Partial::RECOMMENDED), [1.10, 1.25]);
    assert_eq!(gammas(true, false, &Partial::NONE), [1.0, 1.0]);
    assert_eq!(gammas(false, true, &Partial::RECOMMENDED), [1.0, 1.25]);
}

#[test]
fn the_zone_reaches_as_far_as_the_process_and_the_wall_say() {
    for (wall, tig, mig) in
        [(1.5, 30.0, 20.0), (6.0, 30.0, 20.0), (6.1, 30.0, 30.0), (12.1, 35.0, 35.0), (26.0, 40.0, 40.0)]
    {
        let close = |found: f64, mm: f64| assert!((found * 1e3 - mm).abs() < 1e-12, "{wall}: {found}");
        close(reach(wall * 1e-3, true), tig);
        close(reach(wall * 1e-3, false), mig);
    }
}

#[test]
fn tig_takes_more_of_hardened_alloys() {
    for (series, wall, factor) in [('6', 2.0, 0.8), ('6', 6.0, 0.8), ('7', 8.0, 0.64), ('5', 3.0, 1.0), ('5', 8.0, 0.9)]
    {
        assert_eq!(tig_factor(series, wall * 1e-3), factor);
    }
}

/// A margin on the loads is one on the strength.
#[test]
fn a_margin_divides_both_strengths() {
    let held = Held { gammas: [1.0, 1.25], margin: 1.5, why: "vehicle practice" };
    let [yields, breaks] = aluminium(125.0, 185.0).limits(&held).map(|limit| limit / 1e6);
    assert!((yields - 83.333_333).abs() < 1e-6 && (breaks - 98.666_667).abs() < 1e-6);
}

proptest! {
    #[test]
    fn more_force_never_lowers_it_and_the_page_says_the_same(
        force in prop::array::uniform3(-1e5..1e5_f64),
        moment in prop::array::uniform3(-1e3..1e3_f64),
        which in 0..6_usize,
        more in 1.0..3.0_f64,
        profile in prop_oneof![Just(square()), Just(round(42.4, 2.6, 235.0)), Just(flat(40.0, 10.0, 235.0))],
    ) {
        let of = |force: [f64; 3], moment: [f64; 3]| Forces {
            n: force[0],
            shear: [force[1], force[2]],
            torque: moment[0],
            moment: [moment[1], moment[2]],
        };
        let beside = Beside { profile, ..aluminium(100.0, 148.0) };
        let (mut greater_force, mut greater_moment) = (force, moment);
        if which < 3 { greater_force[which] *= more } else { greater_moment[which - 3] *= more }
        let mut pages = Pages::default();
        let (first, _) = check(&beside, &of(force, moment), &NO_MARGIN, &mut pages);
        let (second, _) = check(&beside, &of(greater_force, greater_moment), &NO_MARGIN, &mut Silent);
        prop_assert!(second.utilisation >= first.utilisation);
        recomputes(&pages.finish("t", first.clause, SOURCE, first.utilisation));
    }
}

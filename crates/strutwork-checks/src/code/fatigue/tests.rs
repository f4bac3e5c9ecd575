//! Values of tables, a sum by hand, the scope, and laws.

use proptest::prelude::*;
use strutwork_testkit::{assert_close, assert_close_by};

use super::*;
use crate::Calculation;
use crate::calculation::{Pages, Silent};
use crate::code::worked::recomputes;

/// The constant stress range that a detail bears this often, for N_R on slope 3.
fn bears(curve: Curve, category: f64, cycles: f64) -> f64 {
    let (mut low, mut high) = (curve.cut_off(category), 100.0 * category);
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if curve.cycles_to_failure(category, middle) > cycles { low = middle } else { high = middle }
    }
    low
}

/// EN 1993-1-9 7.1 by hand: the range at 5 million cycles, at 1e5 and at 1e4, in MPa to the digits of a table.
#[test]
fn the_curves_have_the_values_of_a_table() {
    for (category, knee, at_1e5, at_1e4) in [(36.0, 26.5, 98.0, 211.0), (71.0, 52.3, 193.0, 415.0)] {
        let member = Curve::Member;
        assert_close_by("Δσ_D", member.knee(category), knee, 0.05);
        assert_close_by("at 1e5", bears(member, category, 1e5), at_1e5, 0.5);
        assert_close_by("at 1e4", bears(member, category, 1e4), at_1e4, 0.6);
        assert_close("at 2e6", bears(member, category, 2e6), category, 1e-12);
    }
    // The printed ratios: 0.737, 0.549 (0.405 of Δσ_C), and 0.457 for slope 5 from 2e6 to 1e8.
    assert_close_by("Δσ_D/Δσ_C", Curve::Member.knee(1.0), 0.737, 5e-4);
    assert_close_by("Δσ_L/Δσ_D", Curve::Member.cut_off(1.0) / Curve::Member.knee(1.0), 0.549, 5e-4);
    assert_close_by("Δσ_L/Δσ_C", Curve::Member.cut_off(1.0), 0.405, 5e-4);
    assert_close_by("node joint", Curve::NodeJoint.cut_off(1.0), 0.457, 5e-4);
}

#[test]
fn the_curve_has_no_step_at_its_knee_and_ends_at_the_cut_off() {
    let curve = Curve::Member;
    let knee = curve.knee(36.0);
    assert_close("above", curve.cycles_to_failure(36.0, knee), 5e6, 1e-12);
    assert_close("below", curve.cycles_to_failure(36.0, knee * (1.0 - 1e-13)), 5e6, 1e-11);
    for curve in [Curve::Member, Curve::NodeJoint] {
        let end = curve.cut_off(36.0);
        assert_close("at the cut-off", curve.cycles_to_failure(36.0, end), 1e8, 1e-12);
        assert_eq!(curve.cycles_to_failure(36.0, end * (1.0 - 1e-12)), f64::INFINITY);
        assert_eq!(curve.cycles_to_failure(36.0, 0.0), f64::INFINITY);
    }
}

/// Square 40 × 4: A = 535 mm², W_el = 5.54 cm³ (EN 10219-2 table).
fn square() -> End {
    let (area, elastic) = (5.35e-4, [5.54e-6; 2]);
    End { area, elastic, round: false, wall: Some(4e-3), steel: true, yield_stress: Some(235e6) }
}

const DETAIL: Detail = Detail { category: 36e6, curve: Curve::Member, gamma_mf: 1.35, moment_factor: 1.0 };

fn swing(from: [f64; 3], to: [f64; 3], cycles: f64) -> Swing<'static> {
    Swing { name: "pair", cases: ["one", "other"], forces: [from, to], share: 1.0, cycles }
}

fn page(end: &End, detail: &Detail, swings: &[Swing<'_>]) -> (Damage, Calculation) {
    let mut pages = Pages::default();
    let written = damage(end, detail, swings, &mut pages);
    assert_eq!(written, damage(end, detail, swings, &mut Silent));
    (written, pages.finish("t", written.verdict.clause, "s", written.verdict.utilisation))
}

/// By hand: Δσ = 10 000/535 + 200 000/5540 = 54.793 MPa; Δσ_C,d = 26.667; N_R = 2e6 (26.667/54.793)³ = 230 553;
/// second pair 20 MPa, between Δσ_D,d = 19.648 and there; third 5 MPa, below Δσ_L,d = 10.8.
#[test]
fn a_sum_follows_a_hand_calculation() {
    let pairs = [
        swing([6000.0, 150.0, 0.0], [-4000.0, -50.0, 0.0], 1e5),
        swing([0.0, 0.0, 0.0], [10_700.0, 0.0, 0.0], 1e6),
        swing([0.0, 0.0, 0.0], [0.0, 0.0, 27.7], 1e8),
    ];
    let (found, page) = page(&square(), &DETAIL, &pairs);
    let (first, second) = (1e5 / 230_553.0, 1e6 / (2e6 * (36.0 / 1.35 / 20.0_f64).powi(3)));
    assert_close("D", found.verdict.utilisation, first + second, 1e-5);
    assert_eq!((found.worst, found.verdict.outside), (0, None));
    assert_close("range", found.range, 54.793e6, 1e-5);
    recomputes(&page);
    assert!(page.outside.is_empty());
}

#[test]
fn a_round_end_bends_in_one_direction() {
    let round = End { round: true, ..square() };
    let both = range(&round, 1.0, &swing([0.0, 30.0, 40.0], [0.0; 3], 1.0), 1, &mut Silent);
    let one = range(&round, 1.0, &swing([0.0, 50.0, 0.0], [0.0; 3], 1.0), 1, &mut Silent);
    assert_close("3-4-5", both, one, 1e-15);
}

#[test]
fn what_the_categories_do_not_cover_is_said() {
    let pairs = [swing([1000.0, 0.0, 0.0], [0.0; 3], 1e5)];
    let outside = |end: End, detail: Detail| damage(&end, &detail, &pairs, &mut Silent).verdict.outside;
    let node = Detail { curve: Curve::NodeJoint, ..DETAIL };
    assert_eq!(outside(square(), DETAIL), None);
    assert!(outside(End { wall: Some(2e-3), ..square() }, DETAIL).unwrap().contains("under 4 mm"));
    assert!(outside(End { wall: Some(16e-3), ..square() }, DETAIL).unwrap().contains("12.5 mm"));
    assert_eq!(outside(End { wall: Some(12.5 * 1e-3), ..square() }, DETAIL), None);
    assert!(outside(End { wall: Some(10e-3), ..square() }, node).unwrap().contains("8 mm"));
    assert!(outside(End { wall: None, ..square() }, DETAIL).unwrap().contains("solid"));
    assert!(outside(End { steel: false, ..square() }, DETAIL).unwrap().contains("steel"));
    let hard = [swing([100_000.0, 0.0, 0.0], [-100_000.0, 0.0, 0.0], 10.0)];
    let (_, told) = page(&square(), &DETAIL, &hard);
    assert!(told.outside[0].contains("10 000 cycles") && told.outside[1].contains("1.5 f_y"), "{:?}", told.outside);
}

fn detail() -> impl Strategy<Value = Detail> {
    let category = prop_oneof![Just(36e6), Just(56e6), Just(71e6), Just(160e6)];
    let curve = prop_oneof![Just(Curve::Member), Just(Curve::NodeJoint)];
    (category, curve, 1.0..1.5, 1.0..2.2).prop_map(|(category, curve, gamma_mf, moment_factor)| Detail {
        category,
        curve,
        gamma_mf,
        moment_factor,
    })
}

fn any_swing() -> impl Strategy<Value = Swing<'static>> {
    let forces = || [-60e3..60e3, -600.0..600.0, -600.0..600.0_f64];
    (forces(), forces(), 1.0..1e7, 0.1..1.0)
        .prop_map(|(from, to, cycles, share)| Swing { share, ..swing(from, to, cycles) })
}

proptest! {
    /// A page says all that it takes to work it out, and what it says is what was computed.
    #[test]
    fn pages_can_be_worked_out(
        detail in detail(),
        round: bool,
        wall in prop_oneof![Just(None), (1e-3..14e-3).prop_map(Some)],
        swings in prop::collection::vec(any_swing(), 1..4),
    ) {
        let (_, page) = page(&End { round, wall, ..square() }, &detail, &swings);
        recomputes(&page);
    }

    /// More range, more cycles or less strength never lower the sum.
    #[test]
    fn more_never_helps(detail in detail(), swing in any_swing(), more in 1.0..3.0_f64) {
        let sum = |detail: &Detail, swing: Swing<'_>| damage(&square(), detail, &[swing], &mut Silent).verdict.utilisation;
        // A hair for the rounding of what is put in.
        let once = sum(&detail, swing) * (1.0 - 1e-12);
        let oftener = sum(&detail, Swing { cycles: swing.cycles * more, ..swing });
        let wider = sum(&detail, Swing { share: swing.share * more, ..swing });
        let weaker = sum(&Detail { gamma_mf: detail.gamma_mf * more, ..detail }, swing);
        let stiffer = sum(&Detail { moment_factor: detail.moment_factor * more, ..detail }, swing);
        prop_assert!(oftener >= once && wider >= once && weaker >= once && stiffer >= once);
        for force in 0..3 {
            let mut apart = swing;
            apart.forces[0][force] += (more - 1.0) * (swing.forces[0][force] - swing.forces[1][force]);
            let further = sum(&detail, apart);
            prop_assert!(further >= once, "{} under {}", further, once);
        }
    }

    /// There and back is the same way, and pairs add up in any order.
    #[test]
    fn the_way_and_the_order_do_not_matter(detail in detail(), a in any_swing(), b in any_swing()) {
        let sum = |swings: &[Swing<'_>]| damage(&square(), &detail, swings, &mut Silent).verdict.utilisation;
        let back = Swing { forces: [a.forces[1], a.forces[0]], ..a };
        prop_assert_eq!(sum(&[a]), sum(&[back]));
        prop_assert_eq!(sum(&[a, b]), sum(&[b, a]));
        prop_assert_eq!(sum(&[a, b]), sum(&[a]) + sum(&[b]));
    }
}

//! Members against hand values, limiting cases and laws.

use proptest::prelude::*;

use super::*;
use crate::calculation::{Pages, Silent};
use crate::code::profile::Profile;
use crate::code::profiles::{flat, rectangular, round, solid_round};
use crate::code::worked::recomputes;

fn member(profile: Profile, length: f64, curve: Curve) -> Member {
    let axes =
        [0, 1].map(|axis| Axis::of_length(profile.youngs, profile.second[axis], length, "the tube's own length"));
    Member { section: CrossSection::new(profile), axes, curve, is_sway: false }
}

fn straight(psi: f64) -> Diagram {
    Diagram { ends: [1.0, psi], span: None, is_concentrated: false }
}

fn along(compression: f64, moment: [f64; 2], diagrams: [Diagram; 2]) -> Along {
    Along { compression, moment, diagrams }
}

fn used(member: &Member, along: &Along) -> f64 {
    check(member, along, 1.0, &mut Silent).utilisation
}

/// Checks a member and its page.
fn page(member: &Member, along: &Along, gamma: f64) -> Verdict {
    let mut pages = Pages::default();
    pages.given("N_Ed", along.compression, Unit::N, "");
    pages.given("M_y,Ed", along.moment[0], Unit::NM, "");
    pages.given("M_z,Ed", along.moment[1], Unit::NM, "");
    let verdict = check(member, along, gamma, &mut pages);
    assert_eq!(verdict, check(member, along, gamma, &mut Silent), "the page changes nothing");
    recomputes(&pages.finish("t", verdict.clause, SOURCE, verdict.utilisation));
    verdict
}

/// χ and N_b,Rd of cold formed square tubes on curve c, worked out by hand from 6.3.1.2 with A of EN 10219-2.
#[test]
fn buckling_loads_by_hand() {
    let small: [(f64, f64, f64); 5] = [
        (400.0, 0.871, 27.7),
        (600.0, 0.741, 23.5),
        (800.0, 0.601, 19.1),
        (1000.0, 0.472, 15.0),
        (1200.0, 0.370, 11.7),
    ];
    let large: [(f64, f64, f64); 2] = [(600.0, 0.837, 87.3), (1000.0, 0.630, 65.7)];
    let all = [(rectangular(25.0, 25.0, 1.5, 235.0), small.as_slice()), (rectangular(40.0, 40.0, 2.0, 355.0), &large)];
    for (profile, values) in all {
        for &(length, chi, load) in values {
            let member = member(profile, length * 1e-3, Curve::C);
            let found = member.reduced(0, Class::One);
            assert!((found.chi - chi).abs() <= 0.5e-3, "{length}: {found:?}");
            let capacity = found.chi * profile.area * profile.yield_stress * 1e-3;
            assert!((capacity - load).abs() <= 0.05, "{length}: {capacity}");
            let forces = along(load * 500.0, [0.0; 2], [Diagram::default(); 2]);
            assert!((used(&member, &forces) - 0.5 * load / capacity).abs() < 1e-12);
        }
    }
}

/// λ̄ = (L_cr/i)/λ_1 with λ_1 = π√(E/f_y) = 93.9 ε.
#[test]
fn slenderness_is_that_of_the_radius_of_gyration() {
    let profile = rectangular(25.0, 25.0, 1.5, 235.0);
    let member = member(profile, 0.8, Curve::C);
    let [lambda, _] = member.slenderness();
    assert!((lambda - 0.8 / (profile.second[0] / profile.area).sqrt()).abs() < 1e-9);
    assert!((member.reduced(0, Class::One).slenderness - lambda / 93.9).abs() < 1e-3);
}

/// 40 × 40 × 2, S355, L = 1 m, N = 20 kN, M_y = 0.3 M_pl at both ends alike, M_z = 0.1 M_pl one end: by hand with the χ above
/// (0.630 as computed), n = N/(χ N_Rk), k_yy = 1 + (λ̄ − 0.2) n, k_zz = 0.6 (1 + (λ̄ − 0.2) n), k_yz = 0.6 k_zz.
#[test]
fn bending_and_compression_by_hand() {
    let profile = rectangular(40.0, 40.0, 2.0, 355.0);
    let member = member(profile, 1.0, Curve::C);
    let Reduced { slenderness, chi, .. } = member.reduced(0, Class::One);
    assert!((0.2..1.0).contains(&slenderness));
    let [m_y, m_z] = profile.plastic.map(|w| w * 355e6);
    let forces = along(20e3, [0.3 * m_y, 0.1 * m_z], [straight(1.0), straight(0.0)]);
    let n = 20e3 / (chi * profile.area * 355e6);
    let grown = 1.0 + (slenderness - 0.2) * n;
    let first = n + grown * 0.3 + 0.6 * 0.6 * grown * 0.1;
    let second = n + 0.6 * grown * 0.3 + 0.6 * grown * 0.1;
    let found = page(&member, &forces, 1.0);
    assert!((found.utilisation - first).abs() < 1e-12 && first > second);
    assert!(found.clause.contains("6.61"));
    let swaying = Member { is_sway: true, ..member };
    let found = used(&swaying, &forces);
    assert!((found - (n + 0.9 * grown * 0.3 + 0.6 * 0.9 * grown * 0.1)).abs() < 1e-12);
}

#[test]
fn a_stocky_member_without_moments_is_its_section() {
    let profile = rectangular(40.0, 40.0, 3.0, 235.0);
    let squash = profile.area * 235e6;
    let stocky = member(profile, 0.2, Curve::A);
    assert!(stocky.reduced(0, Class::One).slenderness < 0.2);
    assert!((used(&stocky, &along(0.4 * squash, [0.0; 2], [Diagram::default(); 2])) - 0.4).abs() < 1e-12);
}

#[test]
fn class_four_goes_by_what_is_left() {
    let profile = rectangular(60.0, 60.0, 1.5, 355.0);
    let slender = member(profile, 1.0, Curve::C);
    let area = slender.section.effective.area;
    let lambda = (area * 355e6 / slender.axes[0].critical).sqrt();
    let [_, chi] = reduction(Curve::C, lambda);
    let force = 0.3 * chi * area * 355e6;
    assert!((used(&slender, &along(force, [0.0; 2], [Diagram::default(); 2])) - 0.3).abs() < 1e-12);
    let [w, _] = slender.section.effective.moduli;
    let forces = along(force, [0.2 * w * 355e6, 0.0], [straight(1.0), Diagram::default()]);
    let k = 1.0 + 0.6 * lambda.min(1.0) * 0.3;
    assert!((used(&slender, &forces) - (0.3 + 0.2 * k)).abs() < 1e-12);
    let shell = member(round(150.0, 1.0, 355.0), 1.0, Curve::C);
    assert!(check(&shell, &along(1e3, [0.0; 2], [Diagram::default(); 2]), 1.0, &mut Silent).outside.is_some());
}

#[test]
fn a_flat_bar_bent_about_its_strong_axis_is_outside() {
    let bar = member(flat(30.0, 8.0, 235.0), 0.5, Curve::C);
    let of = |moment| check(&bar, &along(1e3, moment, [straight(1.0); 2]), 1.0, &mut Silent).outside;
    assert_eq!(of([5.0, 0.0]), Some(FLAT_BAR));
    assert_eq!(of([0.0, 5.0]), None);
}

fn profiles() -> impl Strategy<Value = Profile> {
    let f_y = 200.0..700.0_f64;
    prop_oneof![
        (20.0..120.0_f64, 20.0..120.0_f64, 1.0..4.0_f64, f_y.clone()).prop_map(|(h, b, t, f)| rectangular(h, b, t, f)),
        (15.0..120.0_f64, 1.0..4.0_f64, f_y.clone()).prop_map(|(d, t, f)| round(d, t, f)),
        (10.0..60.0_f64, 3.0..20.0_f64, f_y.clone()).prop_map(|(h, b, f)| flat(h, b, f)),
        (5.0..40.0_f64, f_y).prop_map(|(d, f)| solid_round(d, f)),
    ]
}

fn diagrams() -> impl Strategy<Value = Diagram> {
    let span = prop_oneof![Just(None), (-2.0..2.0_f64).prop_map(Some)];
    (-1.0..1.0_f64, -1.0..1.0_f64, span, any::<bool>()).prop_map(|(a, b, span, is_concentrated)| Diagram {
        ends: [a, b],
        span,
        is_concentrated,
    })
}

fn curves() -> impl Strategy<Value = Curve> {
    prop_oneof![Just(Curve::A0), Just(Curve::A), Just(Curve::C)]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn more_force_or_length_never_lowers_the_utilisation(
        profile in profiles(),
        (length, curve) in (0.05..2.0_f64, curves()),
        (n, y, z) in (0.01..0.6_f64, 0.01..0.6_f64, 0.01..0.6_f64),
        diagrams in [diagrams(), diagrams()],
        more in 1.0..1.5_f64,
    ) {
        let force = profile.area * profile.yield_stress;
        let [m_y, m_z] = profile.plastic.map(|w| w * profile.yield_stress);
        let tube = member(profile, length, curve);
        let of = |n: f64, y: f64, z: f64| along(n * force, [y * m_y, z * m_z], diagrams);
        let base = used(&tube, &of(n, y, z));
        prop_assert!(base.is_finite() && base > 0.0);
        let least = base * (1.0 - 1e-12);
        prop_assert!(used(&tube, &of(more * n, more * y, more * z)) >= least);
        prop_assert!(used(&tube, &of(more * n, y, z)) >= least);
        prop_assert!(used(&tube, &of(n, more * y, z)) >= least);
        prop_assert!(used(&tube, &of(n, y, more * z)) >= least);
        prop_assert!(used(&member(profile, more * length, curve), &of(n, y, z)) >= least);
    }

    #[test]
    fn every_page_can_be_recomputed(
        profile in profiles(),
        (length, curve, sway) in (0.1..3.0_f64, curves(), any::<bool>()),
        (n, y, z) in (0.01..0.5_f64, 0.0..0.5_f64, 0.0..0.5_f64),
        diagrams in [diagrams(), diagrams()],
    ) {
        let force = profile.area * profile.yield_stress;
        let [m_y, m_z] = profile.plastic.map(|w| w * profile.yield_stress);
        let tube = Member { is_sway: sway, ..member(profile, length, curve) };
        page(&tube, &along(n * force, [y * m_y, z * m_z], diagrams), 1.1);
    }
}

//! Sections against hand values, limiting cases and laws.

use proptest::prelude::*;

use super::*;
use crate::calculation::{Pages, Silent};
use crate::code::profile::MOST;
use crate::code::profiles::{flat, rectangular, round, solid_round};
use crate::code::worked::recomputes;

fn acting(n: f64, moment: [f64; 2]) -> Forces {
    Forces { n, moment, ..Forces::default() }
}

fn used(profile: Profile, forces: &Forces) -> f64 {
    check(&CrossSection::new(profile), forces, 1.0, &mut Silent).utilisation
}

/// The profile's resistances by the formulas of pure forces.
fn whole(profile: &Profile) -> (f64, [f64; 2]) {
    (profile.area * profile.yield_stress, profile.plastic.map(|w| w * profile.yield_stress))
}

/// Checks the sum and its page.
fn page(profile: Profile, forces: &Forces, gamma: f64) -> Verdict {
    let mut pages = Pages::default();
    let acting = forces.with_margin(1.5, "vehicle practice", &mut pages);
    let verdict = check(&CrossSection::new(profile), &acting, gamma, &mut pages);
    let silent = check(&CrossSection::new(profile), &acting, gamma, &mut Silent);
    assert_eq!(verdict, silent, "the page changes nothing");
    recomputes(&pages.finish("t", verdict.clause, SOURCE, verdict.utilisation));
    verdict
}

#[test]
fn each_force_alone_is_its_share_of_its_own_resistance() {
    // 30 × 30 × 2 in S235, EN 10219-2 table: A = 2.14 cm², W_pl = 2.21 cm³ (to the printed digits).
    let profile = rectangular(30.0, 30.0, 2.0, 235.0);
    assert!((used(profile, &acting(25_145.0, [0.0; 2])) - 0.5).abs() < 2e-3);
    assert!((used(profile, &acting(-25_145.0, [0.0; 2])) - 0.5).abs() < 2e-3);
    assert!((used(profile, &acting(0.0, [259.675, 0.0])) - 0.5).abs() < 2e-3);
    assert!((used(profile, &acting(0.0, [0.0, 259.675])) - 0.5).abs() < 2e-3);
    // V_pl,Rd = A/2 · 235/√3 = 14 517 N.
    let shear = Forces { shear: [0.0, 7258.6], ..Forces::default() };
    assert!((used(profile, &shear) - 0.5).abs() < 2e-3);
    let torque = Forces { torque: 0.25 * profile.torsion * 235e6 / 3.0_f64.sqrt(), ..Forces::default() };
    assert!((used(profile, &torque) - 0.25).abs() < 1e-12);
}

/// Square tube, A = 213.7 mm² (30 × 30 × 2): a_w = (213.7 − 120)/213.7 = 0.4385; at n = 0.6 M_N = 0.4/(1 − 0.21925) M_pl =
/// 0.51233 M_pl; α = 1.66/(1 − 1.13 · 0.36) = 2.79837.
#[test]
fn axial_force_and_two_moments_by_hand() {
    let profile = rectangular(30.0, 30.0, 2.0, 235.0);
    let (n_pl, m_pl) = whole(&profile);
    let [a_w, a_f] = wall_shares(profile.area, 0.03, 0.03, 0.002);
    assert!((a_w - 0.438_46).abs() < 1e-4 && a_w == a_f);
    assert!((exponent(0.6) - 2.798_38).abs() < 1e-5);
    // r_y = 0.9, r_z = 0.7: 0.9^2.79838 + 0.7^2.79838 = 0.74465 + 0.36857.
    let m_n = 0.4 / (1.0 - 0.5 * a_w);
    let forces = acting(-0.6 * n_pl, [0.9 * m_n * m_pl[0], 0.7 * m_n * m_pl[1]]);
    let found = check(&CrossSection::new(profile), &forces, 1.0, &mut Silent);
    assert!((found.utilisation - 1.113_22).abs() < 2e-5, "{found:?}");
    assert!(found.clause.contains("6.2.9.1(6)"));
    // About one axis: the moment's own share.
    let found = used(profile, &acting(-0.6 * n_pl, [0.9 * m_n * m_pl[0], 0.0]));
    assert!((found - 0.9).abs() < 1e-12);
}

/// Over the limit about one axis it stays the moment's share of 6.2.5; the sum of (6) needs two moments.
#[test]
fn too_much_about_one_axis_is_told_as_the_share_of_that_axis() {
    let profile = rectangular(30.0, 30.0, 2.0, 235.0);
    let (_, m_pl) = whole(&profile);
    assert!((used(profile, &acting(0.0, [1.3 * m_pl[0], 0.0])) - 1.3).abs() < 1e-12);
    assert!(
        (used(profile, &acting(0.0, [1.3 * m_pl[0], 1e-12 * m_pl[1]])) - 1.3).abs() < 1e-12,
        "rounding is no moment"
    );
    let both = used(profile, &acting(0.0, [1.3 * m_pl[0], 0.2 * m_pl[1]]));
    assert!((both - (1.3_f64.powf(1.66) + 0.2_f64.powf(1.66))).abs() < 1e-12);
}

#[test]
fn the_exponent_has_no_pole() {
    assert_eq!(exponent(0.0), 1.66);
    assert!((exponent(0.79) - 1.66 / (1.0 - 1.13 * 0.6241)).abs() < 1e-12);
    for n in [0.81, 0.94, 0.940_72, 0.95, 1.0, 1.5] {
        assert_eq!(exponent(n), 6.0, "n = {n}");
    }
}

#[test]
fn all_of_the_strength_used_by_one_force_leaves_nothing() {
    for profile in [rectangular(40.0, 30.0, 2.0, 355.0), round(42.4, 2.6, 235.0), flat(30.0, 8.0, 235.0)] {
        let (n_pl, m_pl) = whole(&profile);
        assert!((used(profile, &acting(n_pl, [0.0; 2])) - 1.0).abs() < 1e-12);
        assert_eq!(used(profile, &acting(1.1 * n_pl, [1e-3 * m_pl[0], 0.0])), MOST);
        let before = used(profile, &acting(0.999 * n_pl, [0.01 * m_pl[0], 0.0]));
        assert!(before > 1.0 && before.is_finite());
    }
    let bar = solid_round(20.0, 235.0);
    let (n_pl, m_pl) = whole(&bar);
    assert!((used(bar, &acting(-0.5 * n_pl, [0.3 * m_pl[0], 0.4 * m_pl[0]])) - 1.0).abs() < 1e-12);
}

/// CHS at n = 0.5: 1 − 0.5^1.7 = 0.69221. Flat bar: 1 − 0.25 = 0.75.
#[test]
fn round_and_flat_by_hand() {
    let tube = round(42.4, 2.6, 235.0);
    let (n_pl, m_pl) = whole(&tube);
    let found = used(tube, &acting(0.5 * n_pl, [0.3 * m_pl[0], 0.4 * m_pl[0]]));
    assert!((found - 0.5 / 0.692_214).abs() < 1e-5, "{found}");
    let bar = flat(30.0, 8.0, 235.0);
    let (n_pl, m_pl) = whole(&bar);
    let found = used(bar, &acting(0.5 * n_pl, [0.3 * m_pl[0], 0.3 * m_pl[1]]));
    assert!((found - 0.8).abs() < 1e-12, "{found}");
}

/// Half of V_pl,T,Rd costs nothing; at three quarters ρ = 0.25; torsion at half of its limit halves V_pl,T,Rd.
#[test]
fn shear_and_torsion_lower_the_rest() {
    let profile = rectangular(60.0, 40.0, 3.0, 235.0);
    let (_, m_pl) = whole(&profile);
    let v_pl = profile.shear[1] * 235e6 / 3.0_f64.sqrt();
    let t_pl = profile.torsion * 235e6 / 3.0_f64.sqrt();
    let of = |v: f64, t: f64| Forces { moment: [0.6 * m_pl[0], 0.0], shear: [0.0, v * v_pl], torque: t * t_pl, n: 0.0 };
    assert!((used(profile, &of(0.5, 0.0)) - 0.6).abs() < 1e-12);
    assert!((used(profile, &of(0.75, 0.0)) - 0.8).abs() < 1e-12);
    assert!((used(profile, &of(0.375, 0.5)) - 0.8).abs() < 1e-12);
    assert!((used(profile, &of(0.24, 0.5)) - 0.6).abs() < 1e-12, "under half of what the torsion leaves");
    assert_eq!(used(profile, &of(1.2, 0.0)), MOST, "nothing is left for the moment");
}

#[test]
fn class_three_is_elastic_and_class_four_effective() {
    // c/t = 40 in S235: class 3.
    let three = CrossSection::new(rectangular(86.0, 86.0, 2.0, 235.0));
    let p = three.profile;
    let f = 235e6;
    let found =
        check(&three, &acting(-0.2 * p.area * f, [0.3 * p.elastic[0] * f, 0.1 * p.elastic[1] * f]), 1.0, &mut Silent);
    assert!((found.utilisation - 0.6).abs() < 1e-12);
    assert!(found.clause.contains("6.2.9.2"));
    let four = CrossSection::new(rectangular(60.0, 60.0, 1.5, 355.0));
    let (p, f) = (four.profile, 355e6);
    let [w_y, w_z] = four.effective.moduli;
    let found = check(&four, &acting(-0.2 * four.effective.area * f, [0.3 * w_y * f, 0.1 * w_z * f]), 1.0, &mut Silent);
    assert!((found.utilisation - 0.6).abs() < 1e-12);
    assert!(found.clause.contains("6.2.9.3") && found.outside.is_none());
    // Pulled hard enough, nothing is compressed: plastic.
    let found = used(p, &acting(0.6 * p.area * f, [0.0, 0.1 * p.elastic[1] * f]));
    assert!((found - 0.6).abs() < 1e-12);
    let round_four = CrossSection::new(round(150.0, 1.0, 355.0));
    let found = check(&round_four, &acting(-1e3, [1.0, 0.0]), 1.0, &mut Silent);
    assert_eq!(found.outside, Some(ROUND_CLASS_4));
}

#[test]
fn partial_factors_divide_the_strength() {
    let profile = rectangular(40.0, 40.0, 2.0, 355.0);
    let (n_pl, m_pl) = whole(&profile);
    let forces = Forces { n: -0.1 * n_pl, moment: [0.3 * m_pl[0], 0.0], shear: [0.0; 2], torque: 0.0 };
    let found = check(&CrossSection::new(profile), &forces, 1.1, &mut Silent).utilisation;
    assert!((found - 0.33).abs() < 1e-12);
}

#[test]
fn pages_can_be_recomputed() {
    let all = [
        rectangular(30.0, 30.0, 2.0, 235.0),
        rectangular(60.0, 60.0, 1.5, 355.0),
        rectangular(100.0, 50.0, 2.0, 235.0),
        rectangular(86.0, 86.0, 2.0, 235.0),
        round(42.4, 2.6, 235.0),
        round(150.0, 1.0, 355.0),
        round(85.0, 1.0, 235.0),
        flat(30.0, 8.0, 235.0),
        solid_round(20.0, 235.0),
    ];
    for profile in all {
        let (n, m) = whole(&profile);
        let v = profile.area * profile.yield_stress / 3.0;
        for [a, b, c, d, e] in [
            [0.0, 0.0, 0.0, 0.0, 0.0],
            [-0.2, 0.0, 0.0, 0.0, 0.0],
            [0.2, 0.1, 0.0, 0.0, 0.0],
            [-0.2, 0.1, -0.2, 0.1, 0.0],
            [-0.3, -0.1, 0.2, 0.25, 0.1],
            [-0.61, 0.2, 0.3, 0.1, 0.1],
            [-0.7, 0.2, 0.3, 0.9, 0.9],
        ] {
            let shear = [0.1 * d * v, d * v];
            let torque = e * profile.torsion * profile.yield_stress / 3.0_f64.sqrt();
            page(profile, &Forces { n: a * n, moment: [b * m[0], c * m[1]], shear, torque }, 1.05);
        }
    }
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

/// Forces as shares of each resistance.
fn forces_of(profile: &Profile, [n, y, z, v, w, t]: [f64; 6]) -> Forces {
    let (force, moment) = whole(profile);
    let tau = profile.yield_stress / 3.0_f64.sqrt();
    Forces {
        n: n * force,
        moment: [y * moment[0], z * moment[1]],
        shear: [v * profile.shear[0] * tau, w * profile.shear[1] * tau],
        torque: t * profile.torsion * tau,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn more_force_never_lowers_the_utilisation(
        profile in profiles(),
        shares in prop::array::uniform6(0.0..0.9_f64),
        tension in any::<bool>(),
        more in 1.0..3.0_f64,
        which in 1..6_usize,
    ) {
        let mut shares = shares;
        // Shear and torsion mostly small, so that the moments govern as well.
        for share in &mut shares[3..] {
            *share *= *share;
        }
        if !tension {
            shares[0] = -shares[0];
        }
        let base = used(profile, &forces_of(&profile, shares));
        prop_assert!(base.is_finite() && base >= 0.0);
        let scaled = used(profile, &forces_of(&profile, shares.map(|share| share * more)));
        prop_assert!(scaled >= base * (1.0 - 1e-12), "{base} became {scaled}");
        let mut one = shares;
        one[which] *= more;
        let one = used(profile, &forces_of(&profile, one));
        prop_assert!(one >= base * (1.0 - 1e-12), "{base} became {one} by force {which}");
        // With moments about one axis more compression never helps either.
        let mut plane = shares;
        plane[2] = 0.0;
        plane[0] = -plane[0].abs();
        let base = used(profile, &forces_of(&profile, plane));
        plane[0] *= more;
        let pressed = used(profile, &forces_of(&profile, plane));
        prop_assert!(pressed >= base * (1.0 - 1e-12), "{base} became {pressed} by compression");
    }

    #[test]
    fn within_a_class_a_small_change_changes_little(
        profile in profiles(),
        shares in prop::array::uniform6(0.0..0.6_f64),
    ) {
        let mut shares = shares.map(|share| share * 0.5);
        shares[0] = -shares[0];
        let base = forces_of(&profile, shares);
        let near = forces_of(&profile, shares.map(|share| share * (1.0 + 1e-9)));
        prop_assume!(class_of(&profile, &base) == class_of(&profile, &near));
        let [base, near] = [base, near].map(|forces| used(profile, &forces));
        prop_assert!((near - base).abs() < 1e-6, "{base} {near}");
    }

    #[test]
    fn every_page_can_be_recomputed(profile in profiles(), shares in prop::array::uniform6(-0.5..0.5_f64)) {
        page(profile, &forces_of(&profile, shares), 1.0);
    }
}

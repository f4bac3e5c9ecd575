//! Laws: continuity, monotonicity, and pages that suffice by themselves.

use proptest::prelude::*;

use super::*;
use crate::calculation::{Calculation, Pages, Silent};
use crate::code::profile::MOST;
use crate::code::worked::recomputes;

/// Face and side walls meet at β = 0.85 and reach the side walls' own value at β = 1, for every sense and kind.
#[test]
fn continuous_in_beta() {
    let chord = Chord { stress_ratio: 0.6, ..square_chord(100.0, 4.0, 355.0) };
    for kind in [Kind::Y, Kind::X] {
        for compressed in [true, false] {
            for angle in [90.0, 60.0, 45.0] {
                let at = |width: f64| {
                    let one = Brace { compressed, ..brace([80.0, width, 4.0], 355.0, angle) };
                    let found = axial(&chord, &one, kind);
                    found.modes[Mode::ChordFace as usize].or(found.modes[Mode::SideWall as usize]).unwrap()
                };
                let (below, above) = (at(85.0 - 1e-7), at(85.0 + 1e-7));
                assert!((below / above - 1.0).abs() < 1e-7, "{kind:?} {angle}: {below} {above}");
                let (below, full) = (at(100.0 - 1e-7), at(100.0));
                assert!((below / full - 1.0).abs() < 1e-7, "{kind:?} {angle}: {below} {full}");
                let wall = {
                    let one = Brace { compressed, ..brace([80.0, 100.0, 4.0], 355.0, angle) };
                    axial(&chord, &one, kind).side[3]
                };
                assert_eq!(full, wall);
            }
        }
    }
}

/// Where the brace's wall is thick, no mode that comes in at β = 0.85 makes the whole resistance jump.
#[test]
fn the_whole_resistance_is_continuous_for_thick_braces() {
    let chord = square_chord(100.0, 4.0, 355.0);
    let at = |width: f64| axial(&chord, &brace([100.0, width, 8.0], 355.0, 90.0), Kind::Y).governing().1;
    assert!((at(85.0 - 1e-7) / at(85.0 + 1e-7) - 1.0).abs() < 1e-7);
}

#[test]
fn chord_stress_factors_are_continuous_and_fall() {
    for beta in [0.25, 0.6, 1.0] {
        let of = |n: f64| rectangular::stress_factor(n, beta);
        let start = 0.3 * beta / 0.4;
        assert!((of(start) - 1.0).abs() < 1e-12 && of(start + 1e-6) > 1.0 - 1e-5);
        assert!((0..200).all(|step| of(step as f64 / 100.0) >= of((step + 1) as f64 / 100.0)));
    }
    let of = round::stress_factor;
    assert!(of(1e-9) > 1.0 - 1e-8 && (0..200).all(|step| of(step as f64 / 100.0) >= of((step + 1) as f64 / 100.0)));
}

#[test]
fn limits_are_told_with_their_values() {
    let chord = square_chord(40.0, 2.0, 235.0);
    let one = brace([25.0, 25.0, 1.5], 235.0, 25.0);
    let told = outside(&chord, &one, Kind::Y);
    let expected = [
        "chord wall 2.00 mm, less than 2.5 mm",
        "brace wall 1.50 mm, less than 2.5 mm",
        "brace at 25.0° to the chord, less than 30°",
    ];
    assert_eq!(told, expected);
    let stout = square_chord(100.0, 4.0, 355.0);
    assert!(outside(&stout, &brace([60.0, 60.0, 4.0], 355.0, 45.0), Kind::Y).is_empty());
    assert_eq!(outside(&stout, &brace([20.0, 20.0, 3.0], 355.0, 45.0), Kind::Y), ["b₁/b₀ = 0.20, less than 0.25"]);
    let one = brace([60.0, 60.0, 4.0], 355.0, 45.0);
    assert_eq!(
        outside(&stout, &one, gap(&one, 6.0)),
        ["g/b₀ = 0.06, less than 0.20", "gap 6.0 mm, less than t₁ + t₂ = 8.0 mm"]
    );
    assert!(outside(&stout, &one, gap(&one, 20.0)).is_empty());
    let holds = validity::held(&stout, &one, gap(&one, 20.0));
    for said in
        ["b₀/t₀ = 25.00 ≤ 35.00", "b₁/b₀ = 0.60 within 0.35 to 1.00", "g/b₀ = 0.20 ≥ 0.20", "brace at 45.0° ≥ 30°"]
    {
        assert!(holds.iter().any(|found| found == said), "{said}: {holds:?}");
    }
    assert!(!validity::held(&stout, &one, gap(&one, 6.0)).iter().any(|found| found.starts_with("g")));
    let aluminium = Chord { youngs: 70e9, ..stout };
    assert_eq!(outside(&aluminium, &one, Kind::Y), ["a chord with E = 70000 MPa is not of steel"]);
    let pushed = Chord { stress_ratio: 0.3, ..square_chord(140.0, 4.0, 355.0) };
    assert_eq!(
        outside(&pushed, &brace([60.0, 60.0, 4.0], 355.0, 45.0), Kind::Y),
        ["chord (b₀ − 3t₀)/(t₀ε) = 39.33, more than 38.00"]
    );
}

#[test]
fn moments_that_the_table_does_not_cover_are_told_unless_slight() {
    let chord = square_chord(100.0, 4.0, 355.0);
    let square = brace([60.0, 60.0, 4.0], 355.0, 90.0);
    assert_eq!(moments_outside(&chord, &square, [0.5, 0.3]), None);
    let inclined = brace([60.0, 60.0, 4.0], 355.0, 45.0);
    assert_eq!(moments_outside(&chord, &inclined, [0.01, 0.005]), None);
    assert!(moments_outside(&chord, &inclined, [0.05, 0.0]).unwrap().contains("45.0°"));
    assert!(moments_outside(&chord, &round_brace(60.0, 4.0, 355.0, 90.0), [0.05, 0.0]).unwrap().contains("round"));
}

/// Chord, brace, partner and ways of any joint.
#[derive(Debug, Clone)]
struct Any {
    chord: Chord,
    brace: Brace,
    ways: Vec<(f64, Kind)>,
    across: bool,
}

impl Any {
    fn check(&self, acting: &Acting, gamma: f64) -> Outcome {
        let balance = Balance { ways: &self.ways, across: self.across };
        check(&self.chord, &self.brace, balance, acting, gamma, &mut Silent)
    }

    /// Whether the chord's stress takes away all resistance to the force in some way, or to the moments, or leaves so little
    /// that what acts is [`MOST`] times of it.
    fn is_used_up(&self, acting: &Acting) -> bool {
        let chord = Chord { stress_ratio: acting.stress_ratio(&self.chord, 1.0), ..self.chord };
        let brace = Brace { compressed: acting.axial < 0.0, ..self.brace };
        let moments = bending(&chord, &brace, self.across).governing().map(|(_, resistance)| resistance);
        let ways: Vec<(f64, f64)> =
            self.ways.iter().map(|(share, kind)| (*share, axial(&chord, &brace, *kind).governing().1)).collect();
        if ways.iter().map(|(_, resistance)| *resistance).chain(moments).any(|resistance| resistance == 0.0) {
            return true;
        }
        let force: f64 = ways.iter().map(|(share, resistance)| share * acting.axial.abs() / resistance).sum();
        let [in_plane, across] = [0, 1].map(|at| acting.margin * acting.moments[at].abs() / moments[at]);
        let in_plane = if chord.outline.is_round() { in_plane * in_plane } else { in_plane };
        acting.margin * force + in_plane + across >= MOST * (1.0 - 1e-9)
    }

    fn page(&self, acting: &Acting, gamma: f64) -> Calculation {
        let mut pages = Pages::default();
        let balance = Balance { ways: &self.ways, across: self.across };
        let outcome = check(&self.chord, &self.brace, balance, acting, gamma, &mut pages);
        pages.finish("joint", "clause", SOURCE, outcome.utilisation)
    }
}

fn any_chord() -> impl Strategy<Value = Chord> {
    let strength = prop_oneof![Just(235.0), Just(355.0), Just(420.0)];
    prop_oneof![
        3 => (20.0..120.0_f64, 0.5..2.0_f64, 1.5..5.0_f64, strength.clone())
            .prop_map(|(width, tall, wall, f)| rectangular_chord((width * tall).max(12.0), width, wall, f)),
        2 => (20.0..120.0_f64, 1.5..5.0_f64, strength).prop_map(|(d, wall, f)| round_chord(d, wall, f)),
    ]
}

fn any_brace() -> impl Strategy<Value = Brace> {
    (12.0..120.0_f64, 0.5..2.0_f64, 1.0..5.0_f64, 20.0..90.0_f64, any::<bool>(), any::<bool>()).prop_map(
        |(width, tall, wall, angle, round, pushed)| {
            let one = if round {
                round_brace(width, wall, 355.0, angle)
            } else {
                brace([(width * tall).max(12.0), width, wall], 355.0, angle)
            };
            Brace { compressed: pushed, ..one }
        },
    )
}

prop_compose! {
    fn any_joint()(
        chord in any_chord(), brace in any_brace(), other in any_brace(), third in any_brace(),
        gap_width in -5.0..40.0_f64, share in 0.25..1.0_f64, on_top in any::<bool>(), across in any::<bool>(),
        parts in prop::array::uniform4(0.05..1.0_f64), used in 1_usize..16,
    ) -> Any {
        let all = [Kind::Y, Kind::X, gap(&other, gap_width), overlap(&third, share, on_top)];
        let chosen: Vec<_> = (0..4).filter(|bit| used >> bit & 1 == 1).collect();
        let total: f64 = chosen.iter().map(|&place| parts[place]).sum();
        let ways = chosen.iter().map(|&place| (parts[place] / total, all[place])).collect();
        Any { chord, brace, ways, across }
    }
}

prop_compose! {
    fn any_acting()(
        axial in -50e3..50e3_f64, moments in prop::array::uniform2(-500.0..500.0_f64), chord in -60e3..60e3_f64,
        bent in prop::array::uniform2(-300.0..300.0_f64), margin in prop_oneof![Just(1.0), Just(1.5)], round in any::<bool>(),
    ) -> Acting {
        let chord_forces =
            ChordForces { axial: chord, moments: bent, elastic: if round { [5e-6; 2] } else { [4e-6, 6e-6] }, round };
        Acting { axial, moments, chord: chord_forces, chord_axial: chord.abs() * 1.2, margin }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn finite_and_never_lowered_by_more(joint in any_joint(), acting in any_acting(), more in 1.0..3.0_f64) {
        let base = joint.check(&acting, 1.0).utilisation;
        prop_assert!((0.0..=MOST).contains(&base));
        // With the chord's face used up by the chord's own stress nothing, or hardly anything, can be carried.
        prop_assert!(base < MOST || joint.is_used_up(&acting));
        let grown = |change: &dyn Fn(&mut Acting)| {
            let mut grown = acting;
            change(&mut grown);
            joint.check(&grown, 1.0).utilisation
        };
        let least = base * (1.0 - 1e-12);
        prop_assert!(grown(&|a| a.axial *= more) >= least);
        prop_assert!(grown(&|a| a.moments[0] *= more) >= least);
        prop_assert!(grown(&|a| a.moments[1] *= more) >= least);
        prop_assert!(grown(&|a| a.chord.axial -= 20e3 * (more - 1.0)) >= least);
        prop_assert!(grown(&|a| a.chord.moments[0] *= more) >= least);
        prop_assert!(grown(&|a| a.chord_axial *= more) >= least);
        prop_assert!(grown(&|a| a.margin *= more) >= least);
        // γ_M5 divides n as well (EN 1993-1-8 1.5(6)), so that a greater one lowers what a compressed chord takes away: the law
        // holds without that.
        let relieved = Acting { chord: ChordForces::NONE, ..acting };
        let of_factor = |gamma: f64| joint.check(&relieved, gamma).utilisation;
        prop_assert!(of_factor(1.1) >= of_factor(1.0) * (1.0 - 1e-12));
    }

    #[test]
    fn continuous_in_what_acts(joint in any_joint(), acting in any_acting()) {
        let base = joint.check(&acting, 1.0).utilisation;
        prop_assume!(base < MOST);
        let near = Acting {
            axial: acting.axial * (1.0 + 1e-9),
            chord: ChordForces { axial: acting.chord.axial * (1.0 + 1e-9), ..acting.chord },
            ..acting
        };
        prop_assert!((joint.check(&near, 1.0).utilisation - base).abs() <= 1e-5 * (1.0 + base * base));
    }

    #[test]
    fn a_page_suffices_by_itself(joint in any_joint(), acting in any_acting(), gamma in prop_oneof![Just(1.0), Just(1.1)]) {
        recomputes(&joint.page(&acting, gamma));
    }
}

/// The page of the demonstration joint, line by line as a reader sees it.
#[test]
fn the_page_of_a_diagonal() {
    let one = brace([25.0, 25.0, 1.5], 235.0, 45.0);
    let joint = Any { chord: square_chord(40.0, 2.0, 235.0), brace: one, ways: vec![(1.0, Kind::Y)], across: false };
    let page = joint.page(&acting(-5000.0, 0.0, 0.0), 1.0);
    let text: Vec<String> = page.lines.iter().map(|line| line.text()).collect();
    let line = "N_face,Y = φ · k_1 · f_y0 · t_0² / ((1 − β_1) · sinθ) · (2 · η / sinθ + 4 · √(1 − β_1)) = 1 · 1 · 235 · 2² / \
                ((1 − 0.625) · 0.707107) · (2 · 0.625 / 0.707107 + 4 · √(1 − 0.625)) = 14950 N  (chord face failure)";
    assert!(text.iter().any(|found| found == line), "{text:#?}");
    assert_eq!(page.outside, ["chord wall 2.00 mm, less than 2.5 mm", "brace wall 1.50 mm, less than 2.5 mm"]);
}

/// A chord that is compressed so far that k_p and k_n are 0: whatever acts is too much, nothing is nothing, and a page holds
/// finite numbers alone.
#[test]
fn a_chord_that_is_used_up_gives_finite_numbers() {
    for (chord, brace) in [
        (square_chord(100.0, 4.0, 355.0), brace([60.0, 60.0, 4.0], 355.0, 90.0)),
        (round_chord(60.0, 3.0, 355.0), round_brace(40.0, 3.0, 355.0, 90.0)),
    ] {
        let joint = Any { chord, brace, ways: vec![(1.0, Kind::Y)], across: false };
        let spent = ChordForces { axial: -3.0 * chord.area * chord.yield_stress, ..ChordForces::NONE };
        let pushed = Acting { chord: spent, ..acting(-5000.0, 0.0, 0.0) };
        assert!(joint.is_used_up(&pushed));
        for (acting, used) in [(pushed, MOST), (Acting { axial: 0.0, ..pushed }, 0.0)] {
            assert_eq!(joint.check(&acting, 1.0).utilisation, used);
            let page = joint.page(&acting, 1.0);
            recomputes(&page);
            assert!(!page.text().contains("inf") && page.text().contains("leaves nothing"), "{}", page.text());
        }
    }
}

/// n = (σ_0,Ed/f_y0)/γ_M5: 1.5 · 100 MPa of 355 MPa, γ_M5 = 1.1.
#[test]
fn the_stress_of_the_chord_is_divided_by_the_partial_factor() {
    let chord = square_chord(100.0, 4.0, 355.0);
    let forces = ChordForces { axial: -100e6 * chord.area, ..ChordForces::NONE };
    let acting = Acting { chord: forces, margin: 1.5, ..acting(-5000.0, 0.0, 0.0) };
    assert!((acting.stress_ratio(&chord, 1.1) - 150.0 / 355.0 / 1.1).abs() < 1e-12);
}

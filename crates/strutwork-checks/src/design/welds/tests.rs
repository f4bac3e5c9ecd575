//! Welds in whole frames: what they carry, what is said of them.

use proptest::prelude::*;
use strutwork_model::Severity;
use strutwork_testkit::assert_close;

use crate::code::weld::shear_strength;
use crate::code::worked::recomputes;
use crate::design::frames::{TEE, UP, d031, d032, frame, only};

/// A T joint of 40 × 3 on 50 × 3, a = 3 mm, S235. 8 kN of pull, 200 N along the chord, 300 N across it, 600 mm up; margin 1.5.
/// At the chord: M_ip = 120, M_op = 180 N·m. L = 160 mm, W = 4·40²/3 = 2133.33 mm².
#[test]
fn a_tee_by_hand() {
    let folder = frame(TEE, UP, "pull,D,200,300,8000,0,0,0\n", "");
    let found = d031(&folder);
    let (finding, page) = only(&found);
    let p: f64 = 1.5 * (8000.0 / 160.0 + (120e3 + 180e3) / 2_133.333_333);
    let q = 1.5 * 300.0 / 80.0;
    let stress = (2.0 * p * p + 3.0 * q * q).sqrt() / 3.0;
    let limit = 360.0 / 0.8;
    assert_close("utilisation", finding.utilisation.unwrap(), stress / limit, 1e-6);
    assert_close("stress", finding.value, stress, 1e-6);
    assert_eq!((finding.limit, finding.unit, finding.severity), (Some(limit), "MPa", Severity::Note));
    // 3 mm are more than the 2.77 mm of full strength.
    assert_eq!(finding.clause, "EN 1993-1-8 4.5.3.2: fillet weld, directional method");
    assert!(
        finding.message.contains("tube BD at B to AB") && finding.message.contains("assumed as the wall"),
        "{}",
        finding.message
    );
    let entered = |symbol: &str| finding.entered.iter().find(|row| row.0 == symbol).expect(symbol).1.abs();
    assert_close("M_ip", entered("M_ip"), 180.0, 1e-6);
    assert_close("M_op", entered("M_op"), 270.0, 1e-6);
    assert!(page.outside.is_empty());
    recomputes(page);
}

/// The same by the simplified method: √(p² + q²) against a f_vw,d.
#[test]
fn the_method_of_the_model_is_the_one_that_counts() {
    let folder = frame(TEE, UP, "pull,D,0,0,8000,0,0,0\n", "[welds]\nmethod = \"simplified\"\nthroat_mm = 3.5\n");
    let found = d031(&folder);
    let (finding, page) = only(&found);
    let limit = 3.5 * shear_strength(360.0, 0.8, 1.0);
    assert_close("limit", finding.limit.unwrap(), limit, 1e-12);
    assert_close("utilisation", finding.utilisation.unwrap(), 1.5 * 50.0 / limit, 1e-6);
    assert_eq!((finding.unit, finding.message.contains("assumed")), ("N/mm", false));
    recomputes(page);
}

/// Partial factors instead of the margin; a case of loads.csv gives design values.
#[test]
fn by_partial_factors() {
    let folder = frame(TEE, UP, "pull,D,0,0,8000,0,0,0\n", "[basis]\nkind = \"eurocode\"\n");
    let found = d031(&folder);
    let (finding, page) = only(&found);
    assert_close(
        "utilisation",
        finding.utilisation.unwrap(),
        2.0_f64.sqrt() * 50.0 / 3.0 / (360.0 / (0.8 * 1.25)),
        1e-6,
    );
    recomputes(page);
}

/// Out of plane: a brace across the chord's side leans nowhere and sees the chord's axis as its plane.
#[test]
fn a_brace_on_the_side_face_bends_about_the_right_axes() {
    let folder = frame(TEE, [0.0, 600.0, 0.0], "push,D,200,0,0,0,0,0\n", "");
    let found = d031(&folder);
    let (finding, _) = only(&found);
    let entered = |symbol: &str| finding.entered.iter().find(|row| row.0 == symbol).expect(symbol).1.abs();
    assert_close("M_ip", entered("M_ip"), 1.5 * 120.0, 1e-6);
    assert_eq!((entered("M_op"), entered("V_op")), (0.0, 0.0));
    assert_close("V_ip", entered("V_ip"), 300.0, 1e-6);
}

/// Turning the brace about its own axis by a right angle, or drawing it the other way round, changes nothing.
#[test]
fn local_axes_do_not_matter() {
    let load = "mixed,D,200,300,8000,10,20,30\n";
    let used = |tubes: &str| {
        let found = d031(&frame(tubes, [100.0, 50.0, 600.0], load, ""));
        only(&found).0.utilisation.unwrap()
    };
    let plain = used(TEE);
    assert_close("turned", used(&TEE.replace("braces,0", "braces,90")), plain, 1e-9);
    assert_close("reversed", used(&TEE.replace("BD,B,D", "BD,D,B")), plain, 1e-9);
}

#[test]
fn a_butt_weld_is_judged_by_the_weaker_part() {
    let welds = "[welds]\nkind = \"butt\"\n";
    let tubes = TEE.replace("BD,B,D,brace,mild", "BD,B,D,brace,hard");
    let found = d031(&frame(&tubes, UP, "pull,D,0,0,8000,0,0,0\n", welds));
    let (finding, page) = only(&found);
    let area = 40.0_f64.powi(2) - 34.0_f64.powi(2);
    assert_close("utilisation", finding.utilisation.unwrap(), 1.5 * 8000.0 / area / 235.0, 1e-6);
    assert!(finding.clause.starts_with("EN 1993-1-8 4.7.1"), "{}", finding.clause);
    recomputes(page);
    // On a thinner wall it is that wall which is weaker.
    let found = d031(&frame(&tubes.replace("chord,mild", "pipe,mild"), UP, "pull,D,0,0,8000,0,0,0\n", welds));
    assert!(only(&found).0.clause.contains("is thinner than the tube's"), "{}", only(&found).0.clause);
}

/// S235 under E355+SR, whose parent has f_u = 580 and beside a weld 490: the weaker part is S235 with its β_w.
#[test]
fn strength_is_that_of_the_weaker_part() {
    let tubes = TEE.replace("BD,B,D,brace,mild", "BD,B,D,brace,hard");
    let limit = |tubes: &str| {
        let found = d031(&frame(tubes, UP, "pull,D,0,0,8000,0,0,0\n", ""));
        only(&found).0.limit.unwrap()
    };
    assert_close("one soft part", limit(&tubes), 360.0 / 0.8, 1e-12);
    assert_close("two hard parts", limit(&tubes.replace("mild", "hard")), 490.0 / 1.0, 1e-12);
}

#[test]
fn thin_tube_and_bars_are_outside_scope() {
    let thin = "[sections.thin]\nshape = \"square\"\nwidth_mm = 25.0\nwall_mm = 1.5\n";
    let found = d031(&frame(&TEE.replace("brace,", "thin,"), UP, "pull,D,0,0,800,0,0,0\n", thin));
    let (finding, page) = only(&found);
    assert!(
        finding.clause.starts_with("outside scope: wall 1.50 mm") && finding.clause.contains("throat 1.50 mm"),
        "{}",
        finding.clause
    );
    assert_eq!((page.outside.len(), finding.severity), (2, Severity::Note));
    // It is an error where the formula is not met either.
    let found = d031(&frame(&TEE.replace("brace,", "thin,"), UP, "pull,D,0,0,80000,0,0,0\n", thin));
    let (finding, _) = only(&found);
    assert!(finding.severity == Severity::Error && finding.is_outside() && finding.message.contains(" over the "));
    let found = d031(&frame(&TEE.replace("brace,", "rod,"), UP, "pull,D,0,0,800,0,0,0\n", ""));
    let [(finding, None)] = found.as_slice() else { panic!("{found:?}") };
    assert!(finding.is_outside() && finding.utilisation.is_none() && finding.message.contains("throat_mm"));
    let found = d031(&frame(&TEE.replace("brace,", "rod,"), UP, "pull,D,0,0,800,0,0,0\n", "[welds]\nthroat_mm = 3\n"));
    recomputes(only(&found).1);
}

/// 7.3.1(4): two hard parts with a throat as thick as the wall are not full strength: 1.28 t would be.
#[test]
fn a_weld_below_full_strength_on_a_wall_is_outside_scope() {
    let hard = TEE.replace("mild", "hard");
    let clause = |more: &str| only(&d031(&frame(&hard, UP, "pull,D,0,0,800,0,0,0\n", more))).0.clause.clone();
    assert!(clause("").contains("less than the 3.84 mm as strong as the wall"), "{}", clause(""));
    assert!(clause("[welds]\nthroat_mm = 3.9\n").starts_with("EN 1993"));
}

/// Every case has a finding; the worst alone says something.
#[test]
fn the_worst_case_speaks() {
    let found = d031(&frame(TEE, UP, "a,D,0,0,10,0,0,0\nb,D,0,0,3000,0,0,0\nc,D,0,0,20,0,0,0\n", ""));
    let told: Vec<bool> = found.iter().map(|(finding, _)| !finding.message.is_empty()).collect();
    assert_eq!(told, [false, true, false]);
    for (finding, page) in &found {
        assert_eq!(finding.utilisation, page.as_ref().map(|page| page.utilisation));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// More of the whole load never lowers a utilisation, and each page gives what the finding says.
    #[test]
    fn more_load_never_lowers_a_utilisation(
        d in [-400.0..400.0_f64, -400.0..400.0_f64, 300.0..600.0_f64],
        force in prop::array::uniform3(-5000.0..5000.0_f64),
        moment in prop::array::uniform3(-200.0..200.0_f64),
        more in 1.0..2.0_f64,
        section in prop_oneof![Just("brace"), Just("pipe")],
        kind in prop_oneof![Just("fillet"), Just("butt")],
    ) {
        let load = |name: &str, by: f64| {
            let [x, y, z] = force.map(|part| part * by);
            let [mx, my, mz] = moment.map(|part| part * by);
            format!("{name},D,{x},{y},{z},{mx},{my},{mz}\n")
        };
        let loads = load("less", 1.0) + &load("more", more);
        let tubes = TEE.replace("brace,mild", &format!("{section},hard"));
        let folder = frame(&tubes, d, &loads, &format!("[welds]\nkind = \"{kind}\"\n"));
        for found in [d031(&folder), d032(&folder)] {
            let [less, more] = found.as_slice() else { panic!("{found:?}") };
            prop_assert!(more.0.utilisation.unwrap() >= less.0.utilisation.unwrap() * (1.0 - 1e-9));
            for (finding, page) in [less, more] {
                let page = page.as_ref().expect("a page");
                prop_assert_eq!(Some(page.utilisation), finding.utilisation);
                recomputes(page);
            }
        }
    }
}

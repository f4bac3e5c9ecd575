//! Bands of drawn frames, against what derivatives say and against closed forms.

use crate::common::{self, twisted};
use strutwork_loads::LoadCases;
use strutwork_model::Model;
use strutwork_model::spec::ModelSpec;
use strutwork_study::robustness::{
    BandFault, BandOutcome, BandTask, OutsideTolerance, Sharing, Spread, Tolerances, band,
};
use strutwork_study::sizing::Strength;
use strutwork_testkit::assert_close;

fn twist(model: &Model) -> Result<LoadCases, String> {
    Ok(twisted(model))
}

/// Small tolerances: the answers are then straight lines of them.
const SMALL: Tolerances = Tolerances {
    wall: 0.01,
    outside: OutsideTolerance::None,
    joints: 0.0,
    spread: Spread::Even,
    sharing: Sharing::Tube,
    mass: None,
};

fn run(spec: &ModelSpec, tolerances: Tolerances, samples: usize) -> BandOutcome {
    let task = BandTask {
        spec,
        derive: &twist,
        tolerances,
        twist_case: Some("twist".to_owned()),
        strength: Strength::None,
        samples,
        seed: 3,
    };
    band(&task).expect("a band")
}

#[test]
fn small_deviations_scatter_as_derivatives_say() {
    let spec = common::spec(&strutwork_testkit::buggy());
    for (sharing, spread) in
        [(Sharing::Tube, Spread::Even), (Sharing::Section, Spread::Even), (Sharing::Bar { length: 6.0 }, Spread::Bell)]
    {
        let outcome = run(&spec, Tolerances { sharing, spread, ..SMALL }, 300);
        let linear = outcome.linear.as_ref().expect("derivatives");
        let stiffness = &outcome.bands[1];
        assert_eq!((stiffness.name, stiffness.unit, stiffness.count), ("torsional stiffness", "N·m/deg", 300));
        // The sample's own scatter: 1/√2n is 4.1 %; three times that.
        assert_close("deviation", stiffness.deviation, linear.deviation_nm_per_deg, 0.125);
        assert_close("nominal", stiffness.nominal, linear.nominal_nm_per_deg, 1e-5);
        assert!((stiffness.mean - stiffness.nominal).abs() < 4.0 * stiffness.mean_error);
        assert!(linear.swings.is_sorted_by(|a, b| a.change_nm_per_deg.abs() >= b.change_nm_per_deg.abs()));
    }
}

#[test]
fn joints_scatter_as_derivatives_say() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let outcome = run(&spec, Tolerances { wall: 0.0, joints: 0.0005, ..SMALL }, 300);
    let linear = outcome.linear.as_ref().expect("derivatives");
    // The x of the four station joints is not known; it matters little here.
    assert_eq!(linear.left_out, 4);
    assert_close("deviation", outcome.bands[1].deviation, linear.deviation_nm_per_deg, 0.14);
    assert!(linear.swings.iter().all(|swing| swing.of.starts_with("joint ")));
}

#[test]
fn tubes_of_one_delivery_scatter_more_than_tubes_by_themselves() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let sharings = [Sharing::Section, Sharing::Bar { length: 6.0 }, Sharing::Tube];
    let deviations = sharings.map(|sharing| run(&spec, Tolerances { sharing, ..SMALL }, 150).bands[1].deviation);
    assert!(deviations[0] > 1.1 * deviations[1] && deviations[1] > 1.1 * deviations[2], "{deviations:?}");
}

#[test]
fn the_tolerances_of_the_standard_are_kept() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let whole = run(&spec, Tolerances { joints: 0.0, sharing: Sharing::Section, ..Tolerances::default() }, 200);
    let held = run(
        &spec,
        Tolerances { joints: 0.0, sharing: Sharing::Section, mass: Some(0.06), ..Tolerances::default() },
        200,
    );
    let reach = |outcome: &BandOutcome| {
        let mass = &outcome.bands[0];
        mass.extremes.map(|value| value / mass.nominal - 1.0)
    };
    // Wall ± 10 % and sides ± 0.5 mm of 25 and 30: up to some 12 % of the mass either way.
    let [least, most] = reach(&whole);
    assert!(least > -0.125 && least < -0.07 && most < 0.125 && most > 0.07, "{least} {most}");
    let [least, most] = reach(&held);
    assert!(least > -0.06 - 1e-9 && least < -0.045 && most < 0.06 + 1e-9 && most > 0.045, "{least} {most}");
    assert!(
        whole.remarks.iter().any(|remark| remark.contains("begins at a wall of 2 mm: for brace")),
        "{:?}",
        whole.remarks
    );
    let stiffness = &whole.bands[1];
    let [low, middle, high] = stiffness.percentiles;
    assert!(low.value < middle.value && middle.value < high.value);
    assert!(stiffness.extremes[0] <= low.value && high.value <= stiffness.extremes[1]);
    let between = middle.between.expect("enough samples");
    assert!(between[0] <= middle.value && middle.value <= between[1]);
}

#[test]
fn a_longer_run_starts_with_the_same_frames_and_the_worst_utilisation_is_read() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let run = |samples, seed| {
        let task = BandTask {
            spec: &spec,
            derive: &twist,
            tolerances: Tolerances::default(),
            twist_case: Some("twist".to_owned()),
            strength: Strength::Yield,
            samples,
            seed,
        };
        band(&task).expect("a band")
    };
    let (short, long, other) = (run(8, 3), run(20, 3), run(8, 4));
    assert_eq!(short.samples[..], long.samples[..8]);
    assert_ne!(short.samples, other.samples);
    assert_eq!(short, run(8, 3));
    assert_eq!(long.bands.len(), 3);
    assert!(long.bands[2].deviation > 0.0 && long.bands[2].name == "worst utilisation");
    assert!(long.samples.iter().all(|sample| sample.values.is_ok()));
}

#[test]
fn tolerances_that_say_no_sense_are_refused() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let fault = |tolerances, samples, case: &str| {
        let task = BandTask {
            spec: &spec,
            derive: &twist,
            tolerances,
            twist_case: Some(case.to_owned()),
            strength: Strength::None,
            samples,
            seed: 1,
        };
        band(&task).expect_err("refused")
    };
    for tolerances in [
        Tolerances { wall: -0.1, ..SMALL },
        Tolerances { wall: f64::NAN, ..SMALL },
        Tolerances { joints: 1.0, ..SMALL },
        Tolerances { mass: Some(0.0), ..SMALL },
        Tolerances { sharing: Sharing::Bar { length: 0.0 }, ..SMALL },
    ] {
        assert!(matches!(fault(tolerances, 10, "twist"), BandFault::OutOfRange { .. }), "{tolerances:?}");
    }
    assert!(matches!(fault(SMALL, 1, "twist"), BandFault::OutOfRange { .. }));
    assert!(matches!(fault(SMALL, 10, "twisted"), BandFault::Nominal(_)));
}

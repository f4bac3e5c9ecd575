//! Sheets of a known stiffness: it is found within its interval, and nothing is invented.

use strutwork_model::units::to_nm_per_deg;
use strutwork_rig::{codes, judge};
use strutwork_testkit::rig::{Plan, PlannedSlip};

/// 3000 N·m/deg.
const STIFFNESS: f64 = 3000.0 * 180.0 / std::f64::consts::PI;

fn plans(seed: u64) -> Vec<(&'static str, Plan)> {
    let plain = Plan::plain(STIFFNESS, seed);
    vec![
        ("plain", plain.clone()),
        ("noisy", Plan { noise: 0.03e-3, seed: seed + 1000, ..plain.clone() }),
        ("loop", Plan { hysteresis: 0.02, seed: seed + 2000, ..plain.clone() }),
        ("beside", Plan { lift: 3e-7, sink: [0.08 / STIFFNESS, 0.0], seed: seed + 3000, ..plain.clone() }),
        ("one cycle", Plan { cycles: 1, seed: seed + 4000, ..plain }),
    ]
}

#[test]
fn the_known_stiffness_lies_within_its_interval_in_95_of_100_seeds() {
    for kind in 0..5 {
        let (mut stated, mut by_fit, mut name) = (0, 0, "");
        for seed in 0..100 {
            let (own, plan) = plans(seed).swap_remove(kind);
            name = own;
            let judged = judge(&plan.sheet(), None);
            let measured = judged.stiffness.expect("a stiffness");
            let within = |[low, high]: [f64; 2]| low <= STIFFNESS && STIFFNESS <= high;
            stated += usize::from(within(measured.interval));
            by_fit += usize::from(within(measured.by_fit));
        }
        assert!(stated >= 95, "{name}: only {stated} of 100");
        // The interval of the fit alone is one of 95 %, neither a guess too wide nor too narrow.
        assert!(by_fit >= 88, "{name}: only {by_fit} of 100 by the fit alone");
    }
}

#[test]
fn the_interval_of_the_fit_is_one_of_95_percent() {
    let count = 600;
    let within = (0..count)
        .filter(|seed| {
            let measured = judge(&Plan { cycles: 1, ..Plan::plain(STIFFNESS, 50_000 + seed) }.sheet(), None).stiffness;
            let [low, high] = measured.expect("a stiffness").by_fit;
            low <= STIFFNESS && STIFFNESS <= high
        })
        .count();
    // 570 ± 3 √(600 · 0.95 · 0.05) = 570 ± 16.
    assert!((554..=586).contains(&within), "{within} of {count}");
}

#[test]
fn nothing_is_invented_on_clean_sheets() {
    let mut invented = Vec::new();
    for seed in 0..60 {
        for (name, plan) in plans(10_000 + seed) {
            let judged = judge(&plan.sheet(), None);
            let loops = plan.hysteresis > 0.0;
            for remark in &judged.remarks {
                if remark.code == codes::HYSTERESIS && loops {
                    continue;
                }
                invented.push(format!("{name} {seed}: {} {}", remark.code, remark.message));
            }
        }
    }
    assert!(invented.is_empty(), "{} invented:\n{}", invented.len(), invented.join("\n"));
}

#[test]
fn a_slip_is_found_and_leaves_the_slope_alone() {
    let mut found = 0;
    for seed in 0..50 {
        let slip = PlannedSlip { cycle: 2, step: 3, from_x: 1.2, by: 0.02_f64.to_radians() };
        let judged = judge(&Plan { slip: Some(slip), ..Plan::plain(STIFFNESS, 300 + seed) }.sheet(), None);
        let told: Vec<_> = judged.remarks.iter().filter(|remark| remark.code == codes::SLIP).collect();
        assert!(
            judged.remarks.iter().all(|remark| [codes::SLIP, codes::ZERO, codes::SETTLING].contains(&remark.code)),
            "{:#?}",
            judged.remarks
        );
        if let [one] = told.as_slice() {
            assert!(one.message.contains("before step 3 loading of cycle 2"), "{}", one.message);
            assert!(one.message.contains("between stations seat and door"), "{}", one.message);
            assert!((one.value.expect("a figure") - 0.02).abs() < 0.003);
            found += 1;
        }
        let measured = judged.stiffness.expect("a stiffness");
        assert!(
            measured.interval[0] <= STIFFNESS && STIFFNESS <= measured.interval[1],
            "{}",
            to_nm_per_deg(measured.stiffness)
        );
        let with = judged.with_jumps.expect("the figure with the slip");
        assert!((with.stiffness / measured.stiffness - 1.0).abs() > 1e-4);
    }
    assert_eq!(found, 50);
}

/// Cycles whose rows stand between each other's count once each: the loop and how far chance goes are those of the same rows in
/// order.
#[test]
fn cycles_that_are_written_in_turns_count_once() {
    let sheet = Plan { hysteresis: 0.02, ..Plan::plain(STIFFNESS, 71) }.sheet();
    let mut turns: Vec<usize> = (0..sheet.steps.len()).collect();
    // All loading, then all unloading: cycles 1, 2, 3, 1, 2, 3. Within a cycle the order stays.
    turns.sort_by_key(|step| sheet.steps[*step].unloading);
    let place = |step: usize| turns.iter().position(|other| *other == step).expect("every step");
    let mut mixed = sheet.clone();
    mixed.steps = turns.iter().map(|step| sheet.steps[*step]).collect();
    mixed.readings.iter_mut().for_each(|reading| reading.step = place(reading.step));
    let [one, other] = [&sheet, &mixed].map(|sheet| judge(sheet, None).hysteresis.expect("a loop"));
    for (one, other) in [(one.width, other.width), (one.energy, other.energy), (one.chance, other.chance)] {
        assert!((other / one - 1.0).abs() < 1e-9, "{other} is not {one}");
    }
}
